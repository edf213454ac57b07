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
	// Tiles are the sheets that show any of the piece, row by row from the top.
	Tiles []Tile `json:"tiles"`
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

// Tile spreads the pattern over sheets, upright or across, whichever takes
// fewer; it is centred on them. Errors are those of Check of the pattern and, at
// the field sheet, of the sheet, and a piece that takes a grid of more than
// 10 000 sheets.
func (p Pattern) Tile(s Sheet) (Tiling, error) {
	if err := p.Check(); err != nil {
		return Tiling{}, err
	}
	if err := s.Check(); err != nil {
		return Tiling{}, unit.InField("sheet", err)
	}
	tiling, err := p.lay(s, false)
	if s.turned().Check() == nil {
		across, errAcross := p.lay(s.turned(), true)
		if errAcross == nil && (err != nil || len(across.Tiles) < len(tiling.Tiles)) {
			tiling, err = across, nil
		}
	}
	return tiling, err
}

func (p Pattern) lay(s Sheet, across bool) (Tiling, error) {
	b := p.Bounds()
	lap := s.Overlap / 2
	cell := shape.Point{X: s.Width - 2*s.Margin - 2*lap, Y: s.Height - 2*s.Margin - s.Foot - 2*lap}
	count := func(long, cell unit.Length) int {
		long -= 2 * (lap - inset) // the outer laps show the piece too
		return int(max(1, (long+cell-1)/cell))
	}
	t := Tiling{Sheet: s, Across: across, Rows: count(b.High.Y-b.Low.Y, cell.Y), Columns: count(b.High.X-b.Low.X, cell.X)}
	if t.Rows > mostSheets || t.Columns > mostSheets || t.Rows*t.Columns > mostSheets {
		return Tiling{}, check.Refuse("sheet", s.Width.String()+" x "+s.Height.String(), unit.ErrRange, "a larger one: the piece takes more than 10 000")
	}
	wide, high := unit.Length(t.Columns)*cell.X, unit.Length(t.Rows)*cell.Y
	t.Grid.Low = shape.Point{X: (b.Low.X + b.High.X - wide) / 2, Y: (b.Low.Y + b.High.Y - high) / 2}
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
