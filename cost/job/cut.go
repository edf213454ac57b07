package job

import (
	"context"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// piece is a line of the cut list with what the layout must know of it.
type piece struct {
	Cut
	at       unit.Path // of the job file
	goods    GoodsSpec
	old      *allowance.Recovered
	lives    thread.Exposure
	ofStrips bool // boxing, welt and the like, which may be cut shorter
	turn     layout.Turn
	lies     laying // on the pattern
	wish     wish
}

// row is rows of stitching on all pieces of a kind.
type row struct {
	allowance.CoverRow
	at      unit.Path // of the cover, in the job file
	piece   string    // of furniture
	part    string    // the made-up part that stands alone and has seams of its own
	lives   thread.Exposure
	times   int  // one in each cover
	share   bool // of the seams of a panel, half of each
	inOrder bool // of sewing, with the other rows of its cover
}

// name says where the row is.
func (r row) name() string { return r.piece + ": " + r.Of }

// cutting is what the covers of a job come to before they are laid out.
type cutting struct {
	pieces   []piece
	rows     []row
	assembly []Assembly
	of       []int // of each assembly, the piece of furniture
	commons  int   // of pieces that lie on the pattern alike
}

// cutAll cuts every panel of the covers, and notes the rows of stitching that
// they bring and how they go together.
// A context that ends meanwhile ends the stage with its error.
func cutAll(ctx context.Context, covers []whole, c catalog) (cutting, faults, error) {
	var f faults
	var out cutting
	goods := c.sewn()
	for _, w := range covers {
		if err := ctx.Err(); err != nil {
			return out, nil, err
		}
		var own faults
		if len(w.cover.Seams)+len(w.cover.Fastenings)+len(w.cover.Trims) > 0 {
			own = out.assemble(w, c, goods)
		} else {
			own = out.apart(w, c, goods)
		}
		f = append(f, own...)
	}
	return out, f, nil
}

// apart cuts the panels of a cover whose edges are not joined: each works from
// its own edges.
func (o *cutting) apart(w whole, c catalog, goods map[string]allowance.SewnGoods) faults {
	flow, f := o.flows(w, allowance.CoverWork{}, c, goods)
	if len(f) > 0 {
		return f
	}
	if len(flow.Crossings) > 0 { // the bench must know what the pattern runs over
		work, err := w.cover.Work(goods)
		if err != nil {
			return w.faults(err)
		}
		o.of = append(o.of, w.furniture())
		o.assembly = append(o.assembly, Assembly{Piece: w.piece, Part: w.alone(), Count: w.count, Cover: w.cover, Work: work, Pattern: &flow.PatternFlow})
	}
	from := 0
	for i, p := range w.cover.Panels {
		g, _, _ := c.find(p.Goods) //nolint:errcheck // the cover was made with it
		of := w.of[i]
		cut := w.line(i, of.nameOf(p.Name), g)
		cut.Count, cut.Pair = p.Copies()*w.count, p.Pair
		if p.Pair {
			cut.Count *= 2
		}
		n := cut.Count / w.count
		cut.lies = flow.lies[from]
		for k := range n {
			if !cut.lies.alike(flow.lies[from+k], p.Pair && k >= p.Copies()) {
				f.add(of.at, check.Refuse("", flow.Pieces[from+k].Name, ErrMisplaced, "copies that lie on the pattern alike, or a panel of its own"))
				return f
			}
		}
		if len(flow.Crossings) > 0 {
			cut.Assembly = len(o.assembly)
			for k := range n {
				cut.Pieces = append(cut.Pieces, from+k)
			}
		}
		from += n
		sewn, err := cut.size(p, of)
		if err != nil {
			// The fields of a panel, in the words of the file.
			f.add(of.at, check.Renamed(err, map[string]string{"edges": "by_edge", "all_edges": "edges", "height": "length"}))
			return f // its other panels would only say the same
		}
		o.pieces = append(o.pieces, cut)
		if sewn.Length > 0 {
			o.rows = append(o.rows, sewn)
		}
		if top := cut.topStitched(sewn); top.Length > 0 {
			o.rows = append(o.rows, top)
		}
	}
	for _, r := range w.cover.Rows {
		r.Of = w.of[0].nameOf(r.Of)
		if r.Length > 0 {
			o.rows = append(o.rows, w.row(r))
		}
	}
	return f
}

// row gives a row of each of the covers.
func (w whole) row(r allowance.CoverRow) row {
	return row{CoverRow: r, at: w.at, piece: w.piece, lives: w.lives, times: w.count}
}

// line begins the line of the cut list of one panel of a cover. The last panel of
// a made-up part carries what the bench must know of all of it.
func (w whole) line(i int, part string, g GoodsSpec) piece {
	p, of := w.cover.Panels[i], w.of[i]
	out := piece{at: of.at, goods: g, old: of.old, lives: w.lives, wish: of.wish, turn: layout.KeepGrain,
		Cut: Cut{Piece: w.piece, Part: part, Goods: g.ID, Made: w.count, Cord: p.Cord, Welt: p.Welt}}
	if p.Free {
		out.wish.join, out.wish.joinable = nil, false // boxing is joined already
	}
	if i == len(w.of)-1 || w.of[i+1].at != of.at {
		out.Bias, out.Channels, out.Boxing, out.Tufting = of.bench.bias, of.bench.channels, of.bench.boxing, of.bench.tufting
	}
	if !p.Strip && !p.Free {
		out.Tolerance = of.bench.taped
	}
	if g.Kind == HideGoods {
		out.Grade, out.Marks = of.wish.leather.grade, of.wish.leather.marks
	}
	return out
}

// nameOf names a panel of the part, or something else of it.
func (c covered) nameOf(inner string) string {
	if c.part == "" || inner == "" {
		return c.part + inner
	}
	return c.part + ", " + inner
}

// nameIn names a panel of a cover that the part is nested in.
func (c covered) nameIn(name string) string {
	if c.part == "" {
		return name
	}
	return strings.Replace(name, ".", ", ", 1)
}

// size cuts the panel of a line.
func (p *piece) size(panel allowance.CoverPanel, of covered) (row, error) {
	p.ofStrips = panel.Strip || panel.Free
	if panel.Strip {
		return row{}, p.strip(panel)
	}
	if panel.Free { // boxing: across directed goods, any way in others
		p.wish.railroad, p.wish.leather.grain = true, Grain{Way: AnyWay}
	}
	sewn, err := p.shaped(panel.Panel)
	if t := p.Tufting; t != nil {
		p.Basis = append(p.Basis, t.Basis)
		if len(of.cover.Panels) == 1 {
			p.Finished = of.bench.finished
		}
	}
	sewn.at, sewn.lives, sewn.times, sewn.share = p.at, p.lives, p.Count, true
	return sewn, err
}

// topStitched gives the rows that are seen on the face beside the top-stitched
// seams of a panel: half of each, through both allowances and one panel.
func (p *piece) topStitched(sewn row) row {
	if p.Panel == nil {
		return row{}
	}
	half := (p.Panel.SeamLength(allowance.TopStitchedSeam) + 1) / 2
	sewn.CoverRow = allowance.RowOn(p.Part, p.Goods, half, allowance.SeamLayers+1)
	sewn.Kind = allowance.TopRow
	return sewn
}

// shaped cuts a panel by its lines.
func (p *piece) shaped(panel allowance.Panel) (row, error) {
	if p.wish.railroad && !p.goods.directed() {
		p.turn = layout.Railroad
	}
	cut, err := panel.Cut()
	if err != nil {
		return row{}, err
	}
	cut.Name = ""
	width, height := panel.Outline.Size()
	p.Finished, p.Trim, p.Cut.Cut = Size{width, height}, Size{cut.TrimWidth, cut.TrimHeight}, Size{cut.Width, cut.Height}
	p.Outline, p.Panel, p.Basis = panel.Outline, &cut, edgeBasis(cut)
	switch p.Grain = p.grain(); {
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

// grain words how a piece lies on its goods.
func (p piece) grain() string {
	if p.lies.phase.Axes == layout.Unbound {
		return strings.Replace(p.goods.grain(), "on the repeat", "unmatched", 1)
	}
	return p.goods.grain()
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
	p.wish.railroad, p.wish.shade, p.wish.join, p.wish.joinable = false, 0, nil, false
	area, err := width.By(length)
	if err == nil {
		p.Area, err = area.Times(p.Count)
	}
	return err
}

// label names the piece on layouts.
func (c Cut) label() string { return c.Piece + ": " + c.Part }

// Rectangular tells whether the cut line is the box round it. An edge may be divided.
func (c Cut) Rectangular() bool {
	if c.Panel == nil {
		return true
	}
	low, high := corners(c.Panel.CutLine)
	found := map[shape.Point]bool{}
	for _, p := range c.Panel.CutLine.Outer {
		x, y := p.X == low.X || p.X == high.X, p.Y == low.Y || p.Y == high.Y
		if !x && !y {
			return false
		}
		if x && y {
			found[p] = true
		}
	}
	return len(found) == 4
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
