package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Ottoman is a top with a boxing that is pulled down over the frame and fastened
// below. The zero value is refused.
type Ottoman struct {
	Width  unit.Length `json:"width,omitzero"` // finished
	Depth  unit.Length `json:"depth,omitzero"`
	Height unit.Length `json:"height"` // of the boxing, from the seam to the lower edge of the rail
	// Outline is a top of another shape, in place of width and depth; Back and
	// Front are edges of it, as those of a Cushion.
	Outline shape.Outline `json:"outline,omitzero"`
	Back    string        `json:"back,omitempty"`
	Front   string        `json:"front,omitempty"`

	Top    Goods `json:"top"`
	Boxing Goods `json:"boxing,omitzero"` // as the top when not given
	Under  Goods `json:"under,omitzero"`  // of the dust cover; none when not given

	Cord  unit.Length        `json:"cord,omitzero"` // of the welt round the top; zero has none
	Welt  string             `json:"welt,omitempty"`
	Bias  bool               `json:"bias,omitempty"`
	Seam  allowance.Override `json:"seam,omitzero"`
	Least allowance.Override `json:"least,omitzero"` // see Boxing
	// Rail is the thickness of the rail that the boxing goes round; 1 1/4 in by
	// default. Hold is what is turned in and stapled below, 1 in by default.
	Rail allowance.Override `json:"rail,omitzero"`
	Hold allowance.Override `json:"hold,omitzero"`
}

// Common practice for what is fastened below.
const (
	usualRail = 5 * unit.Inch / 4
	usualHold = unit.Inch
)

// Make gives the cover of the ottoman and how its boxing is joined: at the back
// corners first. Errors name the fields of this type.
func (o Ottoman) Make() (Part, error) {
	c := Cushion{Width: o.Width, Depth: o.Depth, Outline: o.Outline, Back: o.Back, Front: o.Front, Thickness: o.Height,
		Top: o.Top, Boxing: orGoods(o.Boxing, o.Top), Cord: o.Cord, Welt: o.Welt, Bias: o.Bias, Seam: o.Seam, Least: o.Least, Fit: NeutralFit}
	names := map[string]string{"thickness": "height"}
	if err := c.check(); err != nil {
		return Part{}, check.Renamed(err, names)
	}
	if o.Cord != 0 && o.Welt == "" {
		c.Welt = o.Top.ID
	}
	rail, err := ranged(o.Rail, "rail", usualRail, unit.Millimetre, 500*unit.Millimetre)
	if err != nil {
		return Part{}, err
	}
	hold, err := ranged(o.Hold, "hold", usualHold, 0, 500*unit.Millimetre)
	if err != nil {
		return Part{}, err
	}
	p, err := c.plate(0)
	if err != nil {
		return Part{}, err
	}
	b, err := c.boxing(p)
	if err != nil {
		return Part{}, err
	}
	cut, err := b.Cut(c.Boxing)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"perimeter": c.sized(), "depth": "height", "corners": c.sized(), "goods": "boxing"})
	}
	cover, err := b.strips(cut, c.Boxing)
	if err != nil {
		return Part{}, err
	}
	cover.Panels = append([]allowance.CoverPanel{sewnPanel("top", o.Top, p.outline)}, cover.Panels...)
	top, bottom := cut.sides()
	cover.Seams = append(cover.Seams, c.plated(p.side("top", cut.Pieces[0].From), top))
	below := allowance.Fastening{Name: "bottom", Side: bottom, Kind: allowance.TurnedBelow, To: "underside", Rail: rail, Hold: allowance.Exactly(hold)}
	if o.Under != (Goods{}) {
		below.HiddenBy = []string{dustCover}
	}
	cover.Fastenings = append(cover.Fastenings, below)
	if o.Under != (Goods{}) {
		cover = underneath(cover, o.Under, p.outline)
	}
	core, err := coreOf(p.outline, o.Height, 0)
	return Part{Cover: cover, Boxing: &cut, Core: core}, err
}

// dustCover names what closes the underside.
const dustCover = "dust cover"

// underneath adds a dust cover of the outline, turned in all round.
func underneath(c allowance.Cover, g Goods, o shape.Outline) allowance.Cover {
	c.Panels = append(c.Panels, sewnPanel(dustCover, g, o))
	var all allowance.Side
	for _, e := range o.Edges() {
		all = append(all, edgeOf(dustCover, e))
	}
	c.Fastenings = append(c.Fastenings, allowance.Fastening{Name: dustCover, Side: all, Kind: allowance.FoldedIn, To: "underside"})
	return c
}
