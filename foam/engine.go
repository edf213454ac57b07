package foam

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/unit"
)

// engine lays parts with the rectangle layout engine. Sheets are laid end to
// end as one strip, with a band between them that no part may touch, so that
// the shortest strip is the fewest sheets.
type engine struct{}

// engineEffort is the work spent on one size of sheet, a thousandth of a second
// or so.
const engineEffort = 0.001

// Pack starts from the rows of shelves and keeps them when the engine finds
// nothing on fewer sheets.
func (engine) Pack(ctx context.Context, length, width, kerf unit.Length, parts []Rect) ([]Place, error) {
	rows, err := shelves{}.Pack(ctx, length, width, kerf, parts)
	if err != nil {
		return nil, err
	}
	sheets := 1
	for _, p := range rows {
		sheets = max(sheets, p.Sheet+1)
	}
	if sheets == 1 {
		return rows, nil
	}
	const band = 1 // the thinnest there is
	pitch := int64(length) + band
	job := &rect.Job{Width: int64(width), Gap: int64(kerf), MaxLength: int64(sheets-1)*pitch - band}
	for i := range int64(sheets - 2) {
		job.Flaws = append(job.Flaws, rect.Flaw{Y: i*pitch + int64(length), W: int64(width), H: band})
	}
	// Equal parts are copies of one piece, which spares the engine trying them
	// in every order.
	kinds := map[Rect]int{}
	var copies [][]int
	for i, p := range parts {
		k, ok := kinds[p]
		if !ok {
			k = len(copies)
			kinds[p] = k
			copies = append(copies, nil)
			piece := rect.Piece{W: int64(p.Width), H: int64(p.Length), Turns: rect.Upright}
			if p.Turnable {
				piece.Turns |= rect.QuarterTurn
			}
			job.Pieces = append(job.Pieces, piece)
		}
		copies[k] = append(copies[k], i)
		job.Pieces[k].Count++
	}
	plan, err := rect.Solve(ctx, job, rect.Options{Effort: engineEffort})
	if errors.Is(err, rect.ErrNoLayout) {
		return rows, nil
	}
	if err != nil {
		return nil, err
	}
	out := make([]Place, len(parts))
	for _, p := range plan.Placed {
		out[copies[p.Piece][p.Copy]] = Place{
			Sheet:  int(p.Y / pitch),
			X:      unit.Length(p.Y % pitch),
			Y:      unit.Length(p.X),
			Turned: p.Turn == rect.QuarterTurn || p.Turn == rect.ThreeQuarterTurn,
		}
	}
	return out, nil
}
