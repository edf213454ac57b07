package findings

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	coilMargin = one("coil springs", "margin from the outer edge", 3*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", ""))
	coilTop    = one("coil springs", "top coil", 5*unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "number 3"))
	coilGap    = Figure[unit.Length]{"coil springs", "gap between top coils", 2 * unit.Inch, unit.Inch, 3 * unit.Inch,
		cite.Practice("a school text leaves 2 in one way of its frame and 1 1/2 in the other")}
	coilSewing = one("coil springs", "stitching twine a spring", 24*unit.Inch, cite.Practice("at least three loops"))
	coilClips  = one("coil springs", "clips a spring", 4, cite.Practice("in place of sewing"))
	coilTacks  = one("coil springs", "tacks at each end of a strand", 2, cite.Practice("of 10 oz; a school text drives one at the first end and two at the last"))
	coilHeight = one("coil springs", "rail widths in the height", 2, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II"))
	coilKnots  = one[unit.Ratio]("spring twine", "strand in run, with knots", 5./3, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter VI: 1 2/3"))

	coilLengths = []Figure[unit.Length]{
		coilMargin, coilTop, coilGap, coilSewing,
		one("coil springs", "margin inside the rails, club chair", 2*unit.Inch, cite.Practice("")),
		{"coil springs", "height sold", 0, 3 * unit.Inch, 16 * unit.Inch, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II")},
	}
	coilCounts = []Figure[int]{
		coilClips, coilTacks, coilHeight,
		{"coil springs", "loops of sewing to the webbing", 0, 3, 3, cite.In("UPHOLSTERY-FOR-SCHOOLS", "at least")},
		one("coil springs", "ties a spring", 8, cite.In("UPHOLSTERY-FOR-SCHOOLS", "four strands, for lasting work")),
		one("coil springs", "ties a spring, light work", 4, cite.Practice("without the diagonals")),
		{"coil springs", "gauge of wire, 3 to 8 in high", 0, 9, 14, cite.Practice("a lower number is stiffer")},
		one("coil springs", "a gross", 144, cite.In("UNECE-R20", "code GRO")),
	}
	coilShares = []Figure[unit.Ratio]{coilKnots}
	coilMasses = []Figure[unit.Mass]{
		{"coil springs", "a gross", 0, 22 * unit.Pound, 100 * unit.Pound, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II")},
		{"coil springs", "each", 0, 22 * unit.Pound / 144, 100 * unit.Pound / 144, cite.Basis{Status: cite.Derived, Source: "UPHOLSTERY-FOR-SCHOOLS", Note: "a gross divided"}},
		one("spring twine", "ball", unit.Pound, cite.In("UPHOLSTERY-FOR-SCHOOLS", "")),
		one("stitching twine", "ball", unit.Pound/2, cite.In("UPHOLSTERY-FOR-SCHOOLS", "")),
	}
)

// Coils is a seat of coil springs on webbing, tied down with twine. The zero
// value is refused.
type Coils struct {
	Width  unit.Length `json:"width"` // from side to side, between the places that Margin counts from; to 10 m
	Depth  unit.Length `json:"depth"`
	Margin unit.Length `json:"margin,omitzero"` // of the outermost coils; zero takes 3 in, from the outer edge of the frame
	Coil   unit.Length `json:"coil,omitzero"`   // diameter of the top coil; zero takes 5 in
	Gap    unit.Length `json:"gap,omitzero"`    // wanted between top coils; zero takes 2 in
	Light  bool        `json:"light,omitempty"` // four ties: no diagonal strands
	Clips  bool        `json:"clips,omitempty"` // to hold the springs to the webbing, in place of sewing
	Rail   unit.Length `json:"rail,omitzero"`   // width of the rail, for the height; zero leaves the height out
}

// CoilPlan is the springs with what ties and holds them.
type CoilPlan struct {
	Across    int         `json:"across"` // springs from side to side
	Deep      int         `json:"deep"`   // springs from front to back
	Springs   int         `json:"springs"`
	GapAcross unit.Length `json:"gap_across,omitzero"` // true; zero with one spring
	GapDeep   unit.Length `json:"gap_deep,omitzero"`
	Strands   int         `json:"strands"`            // of spring twine
	Twine     unit.Length `json:"twine"`              // for all strands, with knots
	Tacks     int         `json:"tacks"`              // for the ends of the strands
	Stitching unit.Length `json:"stitching,omitzero"` // twine to sew the springs to the webbing
	Clips     int         `json:"clips,omitzero"`
	Height    unit.Length `json:"height,omitzero"` // of the springs; zero without a rail
	// OddGap says that a gap is under 1 in or over 3 in: change margin or coil.
	OddGap bool       `json:"odd_gap,omitempty"`
	Basis  cite.Basis `json:"basis"`
}

// Plan places the springs and counts the twine. Each way, over A, with margin m,
// coil d and gap s:
//
//	n = floor((A - 2 m + s) / (d + s) + 1/2), at least 1, so that coils do not overlap
//	true gap = (A - 2 m - n d) / (n - 1)
//	pitch p = d + true gap; of a single spring A / 2
//
// and over width W and depth D:
//
//	strands = nx + ny + 2 (nx + ny - 1)
//	twine = 5/3 [ny W + nx D + 2 (nx ny + nx + ny - 1) √(px² + py²)], rounded up
//	height = 2 rail
//
// The last term of each is the diagonals: one over k springs runs k + 1 steps.
// Springs that are kept take twine all the same. Errors name the field and wrap
// unit.ErrRange or unit.ErrForgottenUnit.
func (c Coils) Plan() (CoilPlan, error) {
	on, err := c.usual()
	if err != nil {
		return CoilPlan{}, err
	}
	var p CoilPlan
	var px, py unit.Length
	p.Across, p.GapAcross, px = c.row(c.Width)
	p.Deep, p.GapDeep, py = c.row(c.Depth)
	p.Springs = p.Across * p.Deep
	p.OddGap = p.Across > 1 && outside(coilGap, p.GapAcross) || p.Deep > 1 && outside(coilGap, p.GapDeep)
	p.Strands = p.Across + p.Deep
	run := unit.Length(p.Deep)*c.Width + unit.Length(p.Across)*c.Depth
	if !c.Light {
		diagonals := p.Across + p.Deep - 1
		p.Strands += 2 * diagonals
		step := math.Ceil(math.Sqrt(float64(float64(px)*float64(px)) + float64(float64(py)*float64(py))))
		run += 2 * unit.Length(p.Springs+diagonals) * unit.Length(step) // about 2 million steps of 14 mm, or 4 of 7 m
	}
	if p.Twine, err = run.MulDiv(5, 3, unit.Up); err != nil {
		return CoilPlan{}, err
	}
	p.Tacks = 2 * coilTacks.Usual * p.Strands
	held := coilSewing.Basis
	if c.Clips {
		p.Clips, held = coilClips.Usual*p.Springs, coilClips.Basis
	} else {
		p.Stitching = unit.Length(p.Springs) * coilSewing.Usual
	}
	p.Height = unit.Length(coilHeight.Usual) * c.Rail
	p.Basis = on.by("twine at 1 2/3 of the run; sewing and tacks by custom", coilKnots.Basis, coilTacks.Basis, held)
	return p, nil
}

// StripAt gives where the webbing under the outermost row of springs starts,
// from the outer edge of the frame, for webbing of a width w:
//
//	m + d / 2 - w / 2
//
// Errors name the field and wrap unit.ErrRange or unit.ErrForgottenUnit.
func (c Coils) StripAt(strip unit.Length) (unit.Length, error) {
	if _, err := c.usual(); err != nil {
		return 0, err
	}
	if err := check.Length("strip", strip, unit.Millimetre, 2*c.Margin+c.Coil); err != nil {
		return 0, err
	}
	return c.Margin + (c.Coil-strip)/2, nil
}

// usual fills in what is not given and checks all.
func (c *Coils) usual() (on founded, err error) {
	c.Margin, c.Coil, c.Gap = or(&on, c.Margin, coilMargin), or(&on, c.Coil, coilTop), or(&on, c.Gap, coilGap)
	err = all(within{"margin", c.Margin, unit.Millimetre, unit.Metre}, within{"coil", c.Coil, unit.Centimetre, 300 * unit.Millimetre},
		within{"gap", c.Gap, unit.Millimetre, 300 * unit.Millimetre})
	least := 2*c.Margin + c.Coil
	if err == nil {
		err = all(within{"width", c.Width, least, widest}, within{"depth", c.Depth, least, widest}, within{"rail", c.Rail, 0, unit.Metre})
	}
	return on, err
}

// row places springs over a: how many, the true gap and the pitch.
func (c Coils) row(a unit.Length) (n int, gap, pitch unit.Length) {
	room, each := a-2*c.Margin, c.Coil+c.Gap
	k := max(1, (2*(room+c.Gap)+each)/(2*each))
	for k > 1 && k*c.Coil > room { // rounded up beyond what has room
		k--
	}
	if k == 1 {
		return 1, 0, a / 2
	}
	gap = (room - k*c.Coil) / (k - 1)
	return int(k), gap, c.Coil + gap
}

func outside(f Figure[unit.Length], l unit.Length) bool { return l < f.From || l > f.To }
