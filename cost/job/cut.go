package job

import (
	"context"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// piece is a line of the cut list with what the layout must know of it.
type piece struct {
	Cut
	at    unit.Path // of the job file
	goods GoodsSpec
	turn  layout.Turn
	free  bool // any way, and off the repeat
	wish  wish
}

// row is rows of stitching on all pieces of a kind.
type row struct {
	allowance.CoverRow
	piece string // of furniture
	times int    // one in each cover
}

// name says where the row is.
func (r row) name() string { return r.piece + ": " + r.Of }

// cutAll cuts every panel of the covers, and notes the rows of stitching that
// they bring.
// A context that ends meanwhile ends the stage with its error.
func cutAll(ctx context.Context, covers []covered, c catalog) ([]piece, []row, faults, error) {
	var f faults
	var pieces []piece
	var rows []row
	for _, cover := range covers {
		if err := ctx.Err(); err != nil {
			return nil, nil, nil, err
		}
		for i, p := range cover.cover.Panels {
			g, _, _ := c.find(p.Goods) //nolint:errcheck // the cover was made with it
			cut, sewn, err := cover.cut(p, g, i == len(cover.cover.Panels)-1)
			if err != nil {
				// The fields of a panel, in the words of the file.
				f.add(cover.at, check.Renamed(err, map[string]string{"edges": "by_edge", "all_edges": "edges", "height": "length"}))
				break // its other panels would only say the same
			}
			pieces = append(pieces, cut)
			if sewn.Length > 0 {
				rows = append(rows, sewn)
			}
		}
		for _, r := range cover.cover.Rows {
			r.Of = cover.nameOf(r.Of)
			if r.Length > 0 {
				rows = append(rows, row{r, cover.piece, cover.count})
			}
		}
	}
	return pieces, rows, f, nil
}

// nameOf names a panel of the cover, or something else of it.
func (c covered) nameOf(inner string) string {
	if c.part == "" || inner == "" {
		return c.part + inner
	}
	return c.part + ", " + inner
}

// cut gives one panel of a cover as a line of the cut list. The last panel of a
// cover carries what the bench must know of all of them.
func (c covered) cut(p allowance.CoverPanel, g GoodsSpec, last bool) (piece, row, error) {
	out := piece{at: c.at, goods: g, wish: c.wish, free: p.Free || c.wish.unmatched, turn: layout.KeepGrain,
		Cut: Cut{Piece: c.piece, Part: c.nameOf(p.Name), Goods: g.ID, Count: p.Copies() * c.count, Made: c.count, Pair: p.Pair,
			Cord: p.Cord, Welt: p.Welt, ZipTape: p.ZipTape}}
	if last {
		out.Bias, out.Channels = c.bench.bias, c.bench.channels
	}
	if g.Kind == HideGoods {
		out.Grade, out.Marks = c.wish.leather.grade, c.wish.leather.marks
	}
	if p.Strip {
		return out, row{}, out.strip(p)
	}
	sewn, err := out.shaped(p)
	if t := c.bench.tufting; t != nil {
		out.Finished, out.Tufting = c.bench.finished, t
		out.Basis = append(out.Basis, t.Basis)
	}
	sewn.times = out.Count
	return out, sewn, err
}

// shaped cuts a panel by its lines.
func (p *piece) shaped(panel allowance.CoverPanel) (row, error) {
	if p.wish.railroad && !p.goods.directed() {
		p.turn = layout.Railroad
	}
	cut, err := panel.Panel.Cut()
	if err != nil {
		return row{}, err
	}
	cut.Name = ""
	width, height := panel.Outline.Size()
	p.Finished, p.Trim, p.Cut.Cut = Size{width, height}, Size{cut.TrimWidth, cut.TrimHeight}, Size{cut.Width, cut.Height}
	p.Outline, p.Panel, p.Basis = panel.Outline, &cut, edgeBasis(cut)
	switch p.Grain = p.goods.grain(); {
	case p.goods.Kind == HideGoods:
		p.Grain = p.wish.leather.grain.on()
	case p.turn == layout.Railroad:
		p.Grain = "either way"
	}
	if p.Area, err = cut.Area.Times(p.Count); err != nil {
		return row{}, err
	}
	length, layers := cut.Sewn()
	return row{CoverRow: allowance.RowOn(p.Part, p.Goods, length, layers), piece: p.Piece}, nil
}

// strip cuts pieces by their size: free ones across a roll or along a hide,
// others as they are drawn.
func (p *piece) strip(panel allowance.CoverPanel) error {
	width, length := panel.Outline.Size()
	p.Cut.Cut = Size{width, length}
	switch {
	case p.goods.Kind == HideGoods:
		if panel.Free {
			p.Cut.Cut = Size{length, width}
		}
		p.wish.leather.grain = Grain{Way: AnyWay}
		p.Grain = p.wish.leather.grain.on()
	case !panel.Free:
		p.Grain = p.goods.grain()
	case p.goods.directed():
		p.Grain = "across"
	default:
		p.Grain = "either way"
	}
	if panel.Free {
		p.turn = layout.Railroad
	}
	if p.Bias != nil {
		p.Grain = "square to the grain; the strip runs at 45 degrees"
	}
	p.wish.railroad, p.wish.motif, p.wish.shade, p.wish.join = false, nil, 0, nil
	area, err := width.By(length)
	if err == nil {
		p.Area, err = area.Times(p.Count)
	}
	return err
}

// label names the piece on layouts.
func (c Cut) label() string { return c.Piece + ": " + c.Part }

// rectangular tells whether the cut line is the box round it.
func (c Cut) rectangular() bool {
	if c.Panel == nil {
		return true
	}
	low, high := corners(c.Panel.CutLine)
	if len(c.Panel.CutLine.Outer) != 4 {
		return false
	}
	for _, p := range c.Panel.CutLine.Outer {
		if p.X != low.X && p.X != high.X || p.Y != low.Y && p.Y != high.Y {
			return false
		}
	}
	return true
}

func corners(c shape.Contour) (low, high shape.Point) {
	for i, p := range c.Outer {
		if i == 0 {
			low, high = p, p
		}
		low = shape.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = shape.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return low, high
}

// on words the grain for the bench.
func (g Grain) on() string {
	switch g.Way {
	case AnyWay:
		return "any way"
	case OneWay:
		return strings.Replace(g.String(), "one way", "along the backbone, top to the neck", 1)
	}
	return strings.Replace(g.String(), "either way", "along the backbone", 1)
}

func edgeBasis(c allowance.PanelCut) []cite.Basis {
	var out []cite.Basis
	seen := map[cite.Basis]bool{}
	for _, e := range c.Edges {
		if e.Basis.Status != 0 && !seen[e.Basis] {
			seen[e.Basis] = true
			out = append(out, e.Basis)
		}
	}
	return out
}
