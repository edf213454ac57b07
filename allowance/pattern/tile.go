package pattern

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// inset is how far lines keep clear of the window at the outside of a pattern.
const inset = 1 * unit.Millimetre

// Tiling says how a pattern is spread over sheets. They join along the lines of
// a grid of Cells; each shows its cell and half the overlap more on every side.
type Tiling struct {
	Sheet   Sheet `json:"sheet"` // as it lies
	Across  bool  `json:"across,omitzero"`
	Rows    int   `json:"rows"`
	Columns int   `json:"columns"`
	Grid    Box   `json:"grid"` // of all cells
	// Tiles are the sheets that show any of the piece, row by row from the top. Gaps are
	// the straight lines of those that are left out.
	Tiles []Tile `json:"tiles"`
	Gaps  []Gap  `json:"gaps,omitempty"`
}

// Tile is one sheet. Its boxes are places on the pattern.
type Tile struct {
	Row    int    `json:"row"`    // from the top, 0 the first
	Column int    `json:"column"` // from the left
	Label  string `json:"label"`  // A1: rows A to Z, AA and so on, columns from 1

	Cell   Box `json:"cell"`   // between the lines where sheets join
	Window Box `json:"window"` // what the sheet shows
	// Own is what this sheet answers for: its cell, and at the outside of the
	// grid the rest of the window. The Own boxes share no more than borders.
	Own Box `json:"own"`
	// Shift leads from a point of the pattern to its place on the sheet, from
	// the lower left corner of the paper.
	Shift shape.Point `json:"shift"`
	Joins []Join      `json:"joins,omitempty"`
}

// Join is a side of a cell where the next sheet goes on. It runs from From to To
// on the sheet, with the cell on its left.
type Join struct {
	Label string      `json:"label"` // of the next sheet
	From  shape.Point `json:"from"`
	To    shape.Point `json:"to"`
}

// mostSheets is the largest grid that is worked out for one piece.
const mostSheets = 10_000

// Tile spreads the pattern over sheets, upright or across, centred on them or to one
// side, whichever takes fewest. Sheets that would hold nothing but straight lines, or
// nothing, are left out unless the sheet has Every: each corner, curve, notch and mark
// is on paper, and Gaps are the straight lines in between. All sheets are kept where
// the rest would not hang together. Errors are those of Check of the pattern and, at
// the field sheet, of the sheet, and a piece that takes a grid of more than 10 000
// sheets.
func (p Pattern) Tile(s Sheet) (Tiling, error) {
	if err := p.Check(); err != nil {
		return Tiling{}, err
	}
	if err := s.Check(); err != nil {
		return Tiling{}, unit.InField("sheet", err)
	}
	places := []unit.Length{1, 0, 2} // in the middle, left or low, right or high
	if s.Every {
		places = places[:1]
	}
	var best Tiling
	var failed error
	for _, across := range []bool{false, true} {
		on := s
		if across {
			on = s.turned()
		}
		if across && (s.Roll || on.Check() != nil) {
			continue
		}
		for _, x := range places {
			for _, y := range places {
				t, err := p.lay(on, across, x, y)
				if err != nil {
					failed = err
				} else if len(best.Tiles) == 0 || len(t.Tiles) < len(best.Tiles) {
					best = t
				}
			}
		}
	}
	if len(best.Tiles) == 0 {
		return Tiling{}, failed
	}
	return best, nil
}

// lay spreads the pattern over a grid; left and low say in halves how much of what the
// sheets have too much is on the left and below.
func (p Pattern) lay(s Sheet, across bool, left, low unit.Length) (Tiling, error) {
	b := p.Bounds()
	lap := s.Overlap / 2
	window := s.window()
	cell := shape.Point{X: window.X - 2*lap, Y: window.Y - 2*lap}
	count := func(long, cell unit.Length) int {
		long -= 2 * (lap - inset) // the outer laps show the piece too
		return int(max(1, (long+cell-1)/cell))
	}
	size := shape.Point{X: b.High.X - b.Low.X, Y: b.High.Y - b.Low.Y}
	t := Tiling{Across: across, Rows: count(size.Y, cell.Y), Columns: count(size.X, cell.X)}
	if t.Rows > mostSheets || t.Columns > mostSheets || t.Rows*t.Columns > mostSheets {
		return Tiling{}, check.Refuse("sheet", s.Width.String()+" x "+s.Height.String(), unit.ErrRange, "a larger one: the piece takes more than 10 000")
	}
	if s.Roll { // alike, and no longer than they need to be
		need := max((size.Y-2*(lap-inset)+unit.Length(t.Rows)-1)/unit.Length(t.Rows), leastCell)
		s.Height -= cell.Y - need
		cell.Y = need
	}
	t.Sheet = s
	wide, high := unit.Length(t.Columns)*cell.X, unit.Length(t.Rows)*cell.Y
	more := shape.Point{X: wide - size.X + 2*(lap-inset), Y: high - size.Y + 2*(lap-inset)}
	t.Grid.Low = shape.Point{X: b.Low.X + lap - inset - more.X*left/2, Y: b.Low.Y + lap - inset - more.Y*low/2}
	t.Grid.High = shape.Point{X: t.Grid.Low.X + wide, Y: t.Grid.Low.Y + high}
	there := map[[2]int]bool{}
	for r := range t.Rows {
		for c := range t.Columns {
			low := shape.Point{X: t.Grid.Low.X + unit.Length(c)*cell.X, Y: t.Grid.Low.Y + unit.Length(t.Rows-1-r)*cell.Y}
			q := t.tile(r, c, Box{low, shape.Point{X: low.X + cell.X, Y: low.Y + cell.Y}})
			if p.meets(q) {
				there[[2]int{r, c}] = true
				t.Tiles = append(t.Tiles, q)
			}
		}
	}
	for i := range t.Tiles {
		t.Tiles[i].join(there)
	}
	if !s.Every {
		t = p.spared(t)
	}
	return t, nil
}

func (t Tiling) tile(row, column int, cell Box) Tile {
	lap := t.Sheet.Overlap / 2
	q := Tile{Row: row, Column: column, Label: tileLabel(row, column), Cell: cell, Own: cell}
	q.Window = Box{shape.Point{X: cell.Low.X - lap, Y: cell.Low.Y - lap}, shape.Point{X: cell.High.X + lap, Y: cell.High.Y + lap}}
	if column == 0 {
		q.Own.Low.X = q.Window.Low.X
	}
	if column == t.Columns-1 {
		q.Own.High.X = q.Window.High.X
	}
	if row == 0 {
		q.Own.High.Y = q.Window.High.Y
	}
	if row == t.Rows-1 {
		q.Own.Low.Y = q.Window.Low.Y
	}
	q.Shift = shape.Point{X: t.Sheet.Margin - q.Window.Low.X, Y: t.Sheet.Margin + t.Sheet.Foot - q.Window.Low.Y}
	return q
}

// meets tells whether a sheet shows any of the piece beyond what its neighbours
// show: what it answers for meets the cut line or lies inside it.
func (p Pattern) meets(t Tile) bool {
	for _, l := range rings(p.Cut) {
		for i, a := range l {
			if _, _, ok := t.Own.segment(a, l[(i+1)%len(l)]); ok {
				return true
			}
		}
	}
	return inside(shape.Point{X: (t.Cell.Low.X + t.Cell.High.X) / 2, Y: (t.Cell.Low.Y + t.Cell.High.Y) / 2}, rings(p.Cut))
}

// join notes which of the four neighbours are there.
func (t *Tile) join(there map[[2]int]bool) {
	c := Box{t.on(t.Cell.Low), t.on(t.Cell.High)}.contour().Outer // from the lower left, anticlockwise
	for i, next := range [][2]int{{t.Row + 1, t.Column}, {t.Row, t.Column + 1}, {t.Row - 1, t.Column}, {t.Row, t.Column - 1}} {
		if there[next] {
			t.Joins = append(t.Joins, Join{tileLabel(next[0], next[1]), c[i], c[(i+1)%4]})
		}
	}
}

func (t Tile) on(q shape.Point) shape.Point {
	return shape.Point{X: q.X + t.Shift.X, Y: q.Y + t.Shift.Y}
}

// Lines gives what the window of the sheet shows of some lines, at its place on
// the sheet.
func (t Tile) Lines(of []Line) []Line {
	var out []Line
	for _, l := range of {
		for _, run := range t.Window.clip(l) {
			points := make([]shape.Point, len(run.Points))
			for i, q := range run.Points {
				points[i] = t.on(q)
			}
			out = append(out, Line{run.Kind, run.Closed, points})
		}
	}
	return out
}

// tileLabel names a sheet: rows A to Z, AA and so on, columns from 1.
func tileLabel(row, column int) string {
	letters := ""
	for n := row + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return letters + strconv.Itoa(column+1)
}
