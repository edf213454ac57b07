package sheet

import (
	"context"
	"errors"

	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/unit"
)

// engineEffort is the work spent on one size of sheet, a thousandth of a second
// or so.
const engineEffort = 0.001

// search lays faces on at most so many sheets with the rectangle layout engine;
// no places say that it found no way. Sheets are laid end to end as one strip,
// with a band between them that nothing may touch, so that the shortest strip
// is the fewest sheets.
func search(ctx context.Context, s Stock, kerf unit.Length, faces []face, sheets int) ([]Place, error) {
	const band = 1 // the thinnest there is
	pitch := int64(s.Length) + band
	job := &rect.Job{Width: int64(s.Width), Gap: int64(kerf), MaxLength: int64(sheets)*pitch - band}
	for i := range int64(sheets - 1) {
		job.Flaws = append(job.Flaws, rect.Flaw{Y: i*pitch + int64(s.Length), W: int64(s.Width), H: band})
	}
	// Equal faces are copies of one piece, which spares the engine trying them
	// in every order.
	type size struct {
		length, width unit.Length
		turnable      bool
	}
	kinds := map[size]int{}
	var copies [][]int
	for i, f := range faces {
		z := size{f.Length, f.Width, f.turnable}
		k, ok := kinds[z]
		if !ok {
			k = len(copies)
			kinds[z] = k
			copies = append(copies, nil)
			piece := rect.Piece{W: int64(f.Width), H: int64(f.Length), Turns: rect.Upright}
			if f.turnable {
				piece.Turns |= rect.QuarterTurn
			}
			job.Pieces = append(job.Pieces, piece)
		}
		copies[k] = append(copies[k], i)
		job.Pieces[k].Count++
	}
	plan, err := rect.Solve(ctx, job, rect.Options{Effort: engineEffort})
	if errors.Is(err, rect.ErrNoLayout) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	out := make([]Place, len(faces))
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
