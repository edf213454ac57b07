package pattern_test

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A round plate of a cushion, drawn and described.
func ExampleOf() {
	plate, err := shape.Circle(18 * unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{Name: "top plate", Outline: plate}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	p := pattern.Of(cut)
	p.Count, p.Goods = 2, "linen"
	for _, t := range p.Texts(pattern.Inches) {
		fmt.Println(t)
	}
	svg, err := p.SVG(pattern.Inches)
	fmt.Println(strings.HasPrefix(svg, "<svg"), err)
	// Output:
	// top plate
	// cut 2 of linen
	// 19 x 19 in
	// face up, grain along the arrow
	// true <nil>
}

// A boxing strip as a file for a cutting machine.
func ExampleStrip() {
	p, err := pattern.Strip(5*unit.Inch, 54*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	dxf, err := p.DXF(pattern.Metric)
	if err != nil {
		fmt.Println(err)
		return
	}
	lines := strings.Split(dxf, "\r\n")
	fmt.Println(strings.TrimSpace(lines[0]), lines[1])
	fmt.Println(strings.Count(dxf, "POLYLINE"), "lines;", p.Texts(pattern.Metric)[1])
	// Output:
	// 999 millimetres; x across the goods, y along the grain
	// 3 lines; 127 x 1372 mm
}

// A wing on four sheets of printer paper in place of six: what each shows is data, to
// be drawn with any library, and what the two left out would show is ruled.
func ExamplePattern_Tile() {
	wing, err := shape.Trapezoid(14*unit.Inch, 9*unit.Inch, 18*unit.Inch, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{Outline: wing}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	p := pattern.Of(cut)
	tiling, err := p.Tile(pattern.Letter())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(tiling.Rows, "x", tiling.Columns, "across:", tiling.Across)
	for _, t := range tiling.Tiles {
		var next []string
		for _, j := range t.Joins {
			next = append(next, j.Label)
		}
		fmt.Println(t.Label, "joins", strings.Join(next, ", "), "and shows", len(t.Lines(p.Lines())), "lines")
	}
	for _, g := range tiling.Gaps {
		far, _, err := g.Rule(pattern.Inches)
		fmt.Println(g.Kind, "line: rule", far, "from", g.Off, "to", g.On, err)
	}
	// Output:
	// 2 x 3 across: false
	// A1 joins B1, A2 and shows 2 lines
	// A2 joins A1 and shows 4 lines
	// B1 joins A1 and shows 2 lines
	// B3 joins  and shows 2 lines
	// cut line: rule 7 3/8 in from B1 to B3 <nil>
	// cut line: rule 4 13/16 in from B3 to A2 <nil>
	// seam line: rule 7 3/8 in from B1 to B3 <nil>
	// seam line: rule 2 7/8 in from B3 to A2 <nil>
}

// A crowned back is alike on both sides: half of it serves, on a fold of the goods.
func ExamplePattern_Half() {
	back, err := shape.Crowned(24*unit.Inch, 28*unit.Inch, 2*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{Name: "inside back", Outline: back}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	half, ok := pattern.Of(cut).Half()
	b := half.Bounds()
	fmt.Println(ok, pattern.Inches.Size(b.High.X-b.Low.X, b.High.Y-b.Low.Y), "of", half.Texts(pattern.Inches)[2])
	for _, l := range half.Lettering() {
		fmt.Println(l.Text)
	}
	// Output:
	// true 12 1/2 x 31 in of 25 x 31 in unfolded
	// place on fold
	// place on fold
	// place on fold
	// top: plain seam
	// left, other half right: plain seam
	// bottom: plain seam
}

// Small pieces on sheets that they share, and on paper from a roll.
func ExampleShare() {
	var pieces []pattern.Pattern
	for _, w := range []unit.Length{5, 3, 2, 30} {
		p, err := pattern.Strip(w*unit.Inch, 4*unit.Inch)
		if err != nil {
			fmt.Println(err)
			return
		}
		pieces = append(pieces, p)
	}
	for _, on := range []pattern.Sheet{pattern.Letter(), pattern.RollOf(36 * unit.Inch)} {
		sheets, over, err := pattern.Share(pieces, on)
		for _, s := range sheets {
			fmt.Println(s.Sheet.Name, s.Sheet.Height, "long:", len(s.Places), "pieces")
		}
		fmt.Println("too large:", over, err)
	}
	// Output:
	// Letter 11 in long: 3 pieces
	// too large: [3] <nil>
	// roll 237.2 mm long: 4 pieces
	// too large: [] <nil>
}

// The other hand of a piece that is cut in pairs.
func ExamplePattern_Mirror() {
	p, err := pattern.Strip(10*unit.Inch, 20*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	p.Name, p.Count, p.Pair = "inside arm", 2, true
	p.Marks = []shape.Point{{X: 2 * unit.Inch, Y: 5 * unit.Inch}}
	m := p.Mirror()
	fmt.Println(p.Tally(), "with a mark", p.Marks[0].X, "from the left")
	fmt.Println(m.Tally(), "with a mark", m.Marks[0].X, "from the left")
	// Output:
	// cut 1 and 1 mirrored with a mark 2 in from the left
	// cut 1 mirrored with a mark 8 in from the left
}

// Two pieces drawn small, to one scale.
func ExamplePicture_ScaleOf() {
	var scale unit.Ratio
	var pieces []pattern.Pattern
	for _, w := range []unit.Length{10 * unit.Inch, 28 * unit.Inch} {
		p, err := pattern.Strip(w, 12*unit.Inch)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := pattern.Picture{Plain: true}.ScaleOf(p)
		if err != nil {
			fmt.Println(err)
			return
		}
		if scale == 0 || r < scale {
			scale = r
		}
		pieces = append(pieces, p)
	}
	for _, p := range pieces {
		svg, err := p.Picture(pattern.Picture{Plain: true, Scale: scale})
		if err != nil {
			fmt.Println(err)
			return
		}
		_, path, _ := strings.Cut(svg, `d="`)
		path, _, _ = strings.Cut(path, `"`)
		fmt.Println(path)
	}
	// Output:
	// M20,26 40,26 40,2 20,2Z
	// M2,26 58,26 58,2 2,2Z
}

// The map of a seat of two panels.
func ExampleMap() {
	var c allowance.Cover
	err := json.Unmarshal([]byte(`{
		"panels": [
			{"name": "seat", "goods": "vinyl", "outline": {"rectangle": {"width": "22 in", "height": "18 in"}}},
			{"name": "nose", "goods": "vinyl", "outline": {"rectangle": {"width": "22 in", "height": "6 in"}}}],
		"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "top-stitched seam"}],
		"fastenings": [
			{"side": "seat.right + seat.top + seat.left"},
			{"side": "nose.left + nose.bottom + nose.right", "finish": "turned below", "rail": "3/4 in"}]}`), &c)
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, _ := allowance.FirmLeather.Limits() // of vinyl too
	w, err := c.Work(map[string]allowance.SewnGoods{"vinyl": {Ease: limits}})
	if err != nil {
		fmt.Println(err)
		return
	}
	drawing, err := pattern.Map{Title: "A seat"}.Draw(c, w)
	for _, text := range []string{">1 seat<", ">2 nose<", ">A<", ">turned below<", ">top-stitched seam: 1 bottom to 2 top<"} {
		fmt.Println(text, strings.Contains(drawing, text))
	}
	fmt.Println(err)
	// Output:
	// >1 seat< true
	// >2 nose< true
	// >A< true
	// >turned below< true
	// >top-stitched seam: 1 bottom to 2 top< true
	// <nil>
}

// The front of a seat in goods of which a motif lies every 9 in across and every 12 in
// along.
func ExampleFront() {
	var c allowance.Cover
	err := json.Unmarshal([]byte(`{
		"panels": [
			{"name": "seat", "goods": "print", "outline": {"rectangle": {"width": "22 in", "height": "18 in"}}},
			{"name": "nose", "goods": "print", "outline": {"rectangle": {"width": "22 in", "height": "6 in"}}}],
		"seams": [{"sides": ["seat.bottom", "nose.top"], "pattern": {"way": "both"}}],
		"fastenings": [{"side": "seat.right + seat.top + seat.left"}, {"side": "nose.left + nose.bottom + nose.right"}]}`), &c)
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, _ := allowance.FirmWoven.Limits()
	goods := map[string]allowance.SewnGoods{"print": {Ease: limits}}
	w, err := c.Work(goods)
	if err != nil {
		fmt.Println(err)
		return
	}
	middle := allowance.MotifWish{Panel: "seat", At: shape.Point{X: 11 * unit.Inch, Y: 9 * unit.Inch}, Way: allowance.BothWays}
	flow, err := c.Flow(goods, []allowance.MotifWish{middle})
	if err != nil {
		fmt.Println(err)
		return
	}
	cloth := pattern.Cloth{Across: 9 * unit.Inch, Along: 12 * unit.Inch}
	drawing, err := pattern.Front{Title: "A seat", Cloths: map[string]pattern.Cloth{"print": cloth}}.Draw(w, flow)
	fmt.Println(strings.Count(drawing, `class="motif"`), "motifs", strings.Contains(drawing, ">the pattern runs on<"), err)
	drawing, err = pattern.Front{Title: "A seat", Cloths: map[string]pattern.Cloth{"print": cloth}, Plain: true}.Draw(w, flow)
	fmt.Println(strings.Count(drawing, `class="seam"`), "pieces", strings.Count(drawing, "<text"), "texts", err)
	// Output:
	// 6 motifs true <nil>
	// 2 pieces 0 texts <nil>
}

// The pattern of one piece of a cover says what its edges and notches meet.
func ExampleOfPiece() {
	var c allowance.Cover
	err := json.Unmarshal([]byte(`{
		"panels": [
			{"name": "seat", "goods": "vinyl", "outline": {"rectangle": {"width": "22 in", "height": "18 in"}}},
			{"name": "nose", "goods": "vinyl", "outline": {"rectangle": {"width": "22 in", "height": "6 in"}}}],
		"seams": [{"sides": ["seat.bottom", "nose.top"], "finish": "top-stitched seam"}],
		"fastenings": [
			{"side": "seat.right + seat.top + seat.left"},
			{"side": "nose.left + nose.bottom + nose.right", "finish": "turned below", "rail": "3/4 in"}]}`), &c)
	if err != nil {
		fmt.Println(err)
		return
	}
	limits, _ := allowance.FirmLeather.Limits()
	w, err := c.Work(map[string]allowance.SewnGoods{"vinyl": {Ease: limits}})
	if err != nil {
		fmt.Println(err)
		return
	}
	nose, err := pattern.OfPiece(w.Pieces[1])
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range nose.Lettering() {
		fmt.Println(l.Text)
	}
	// Output:
	// A1, to seat bottom
	// A2, to seat bottom
	// A3, to seat bottom
	// A4, to seat bottom
	// A5, to seat bottom
	// bottom: turned below
	// right: turned below
	// top: top-stitched seam A, to seat bottom
	// left: turned below
}

// Where a motif falls on a back, in words for the bench.
func ExampleLanding() {
	o, err := shape.Rectangle(22*unit.Inch, 24*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	cut, err := allowance.Panel{Name: "back", Outline: o}.Cut()
	if err != nil {
		fmt.Println(err)
		return
	}
	l := pattern.Landing{At: shape.Point{X: 13 * unit.Inch, Y: 25 * unit.Inch / 2}, Way: allowance.BothWays}
	fmt.Println(l.Words(pattern.Of(cut), pattern.Inches))
	// Output:
	// motif 1 1/2 in right of the middle, 12 in above the lower seam line
}
