package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// CushionKind is how a cushion is made: [Boxed], [KnifeEdge], [Waterfall],
// [Bolster] or [Round]. The zero value is boxed.
type CushionKind uint8

const (
	// Boxed has two plates of any outline with a strip between them.
	Boxed CushionKind = iota
	// KnifeEdge has two plates sewn to each other.
	KnifeEdge
	// Waterfall has one piece over the top, the front and the bottom.
	Waterfall
	// Bolster is a round pillow with flat ends.
	Bolster
	// Round is boxed, with round plates.
	Round
)

var cushionNames = []string{"boxed", "knife edge", "waterfall", "bolster", "round"}

// String gives the name, such as "knife edge".
func (k CushionKind) String() string { return enum.Name(k, "cushion", cushionNames) }

// MarshalText writes the name; a number outside the set wraps unit.ErrUnknown.
func (k CushionKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", cushionNames) }

// UnmarshalText reads a name as String writes it.
func (k *CushionKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "kind", cushionNames)
}

// Cushion is a cushion or pillow of one kind, with the goods of its parts. Sizes
// are finished, from seam line to seam line. The zero value is refused.
type Cushion struct {
	Kind CushionKind `json:"kind,omitzero"`
	// Width and Depth are those of the plate, ears included, with the front below; of a bolster,
	// Width is its length and Depth its diameter; of a round cushion, Width is
	// its diameter.
	Width unit.Length `json:"width,omitzero"`
	Depth unit.Length `json:"depth,omitzero"`
	// LeftEar and RightEar are how far a boxed or knife-edge cushion stands out
	// before the arms: a T has both, the end cushion of a sofa one. Left is the
	// sitter's, on the right of the plate as drawn. EarDepth is theirs from front
	// to back.
	LeftEar  unit.Length `json:"left_ear,omitzero"`
	RightEar unit.Length `json:"right_ear,omitzero"`
	EarDepth unit.Length `json:"ear_depth,omitzero"`
	// Outline is the plate of any other boxed or knife-edge cushion, as seen from
	// above, in place of width and depth. Back and Front name edges of it: the
	// zip lies on the back, and the front is best one piece. Where they are not
	// given, edges called back or top, front or bottom.
	Outline shape.Outline `json:"outline,omitzero"`
	Back    string        `json:"back,omitempty"`
	Front   string        `json:"front,omitempty"`
	// Thickness is the finished height of the boxing; not of a knife edge or a
	// bolster.
	Thickness unit.Length `json:"thickness,omitzero"`

	Top    Goods `json:"top"`
	Bottom Goods `json:"bottom,omitzero"` // of the lower plate; as the top when not given
	Boxing Goods `json:"boxing,omitzero"` // of boxing, sides and zip panel, or of the ends of a bolster; as the top when not given

	// Cord is the diameter of the cord in the seams round the plates; zero has no
	// welt. Welt is the id of the goods that cover it, as the top when not given.
	Cord unit.Length `json:"cord,omitzero"`
	Welt string      `json:"welt,omitempty"`
	Bias bool        `json:"bias,omitempty"` // of the welt: cut at 45 degrees
	// TopStitch turns the allowances to the plates and sews them down there.
	TopStitch bool `json:"top_stitch,omitempty"`

	// Zip opens the cushion at its back; without it a length there is closed by
	// hand. ZipLength, the finished length that opens, is worked out when it is
	// zero. Pocket and Least are those of Boxing.
	Zip       bool               `json:"zip,omitempty"`
	ZipLength unit.Length        `json:"zip_length,omitzero"`
	Pocket    unit.Length        `json:"pocket,omitzero"`
	Least     allowance.Override `json:"least,omitzero"`

	// Seam is the allowance of every seam but the zip; 1/2 in by default. ZipSeam
	// is that along the zip. From 0 to 500 mm.
	Seam    allowance.Override `json:"seam,omitzero"`
	ZipSeam allowance.Override `json:"zip_seam,omitzero"`

	// Fit is how tight the cover sits, TakeUp replaces the take-up of the fit,
	// from 0 to 4 in. CoreGiven says that width and depth are those of the core:
	// the cover is made smaller by the take-up.
	Fit       CushionFit         `json:"fit,omitzero"`
	TakeUp    allowance.Override `json:"take_up,omitzero"`
	CoreGiven bool               `json:"core_given,omitempty"`

	// Taper draws the corners of a knife edge of width and depth in, both ways, from
	// the quarter points of its sides, so that they do not stand out when it is
	// filled: 1/2 in over loose filling, 3/4 in over foam, as common practice has
	// it. Zero leaves them square; at most an eighth of the smaller side.
	Taper unit.Length `json:"taper,omitzero"`
	// Rise is how far the filling of a boxed cushion of width and depth stands
	// above its boxing in the middle; its plates are bowed for it. See
	// Cushion.Make. At most a quarter of the smaller side.
	Rise unit.Length `json:"rise,omitzero"`
	// GatheredEnds makes a bolster without ends: its body is longer by half the
	// diameter at each, and drawn up there to a button.
	GatheredEnds bool `json:"gathered_ends,omitempty"`
	// Attached is an edge of the upper plate of a boxed or knife-edge cushion at
	// which the cushion is sewn to the piece: the seam of the lower plate is open
	// there, under the name of the edge. Where nothing is sewn to it, it is plain.
	Attached string `json:"attached,omitempty"`

	// Pattern is which way the pattern of a boxed cushion runs on from the upper
	// plate over the boxing at the front; it must be of the same goods.
	Pattern allowance.PatternWay `json:"pattern,omitzero"`

	RoundFront bool `json:"round_front,omitempty"` // of a waterfall
	// BackThickness makes a boxed cushion of width and depth a wedge: Thickness is
	// that at the front. Its top slopes, so it is joined at its four corners.
	BackThickness unit.Length `json:"back_thickness,omitzero"`
	// Pair makes a boxed or knife-edge cushion and its mirror image, such as those
	// of port and starboard: what is drawn is the left one.
	Pair bool `json:"pair,omitempty"`
}

// Part is a made-up part of a piece of furniture.
type Part struct {
	Cover allowance.Cover `json:"cover"`
	// Boxing says how the ring is made up and where it is joined.
	Boxing *BoxingCut `json:"boxing,omitempty"`
	Core   Core       `json:"core,omitzero"`
}

// Make gives the cover of the cushion, how its boxing is joined and the core it
// must have. No stretch is taken out: plates and boxing must keep the same length
// of seam. Errors name the fields of this type.
//
// With P the girth of the plate, W its width, L the length of a bolster and d its
// diameter, the zip is
//
//	boxed       in the boxing, see [Boxing.Cut]
//	knife edge  W - 3 in, in the back seam
//	waterfall   W, across the back
//	bolster     L - 3 in, in the body seam
//
// all of it common practice. Over a filling that rises by h a plate must be longer
// in the middle than the chord c between its edges, by an arc: where that is more
// than 1 %, the sides at its ends are bowed outwards, in their middles, by
//
//	bow = (arc - c) / 2
//
// Finished sizes, and the core, are those without the bow. The bottom plate is the mirror image of the top, or
// the same where the two differ by 1/16 in at most.
func (c Cushion) Make() (Part, error) {
	if err := c.check(); err != nil {
		return Part{}, err
	}
	k, err := c.takeUp()
	if err != nil {
		return Part{}, err
	}
	c.Bottom, c.Boxing = orGoods(c.Bottom, c.Top), orGoods(c.Boxing, c.Top)
	if c.Cord != 0 && c.Welt == "" {
		c.Welt = c.Top.ID
	}
	switch c.Kind {
	case Waterfall:
		return c.waterfall(k)
	case Bolster:
		return c.bolster(k)
	}
	p, err := c.plate(k)
	if err != nil {
		return Part{}, err
	}
	var part Part
	switch {
	case c.Kind == KnifeEdge:
		part, err = c.knifeEdge(p, k)
	case c.BackThickness != 0:
		part, err = c.wedge(p, k)
	default:
		part, err = c.boxed(p, k)
	}
	if err == nil && (c.Taper != 0 || c.Rise != 0) {
		part.Core, err = c.flatCore(k)
	}
	if c.Pair {
		for i := range part.Cover.Panels {
			part.Cover.Panels[i].Pair = true
		}
	}
	return part, err
}

// orGoods gives goods, or others in their place.
func orGoods(g, or Goods) Goods {
	if g == (Goods{}) {
		return or
	}
	return g
}

// check refuses what means nothing on the kind.
func (c Cushion) check() error {
	if err := check.OneOf("kind", c.Kind.String(), cushionNames...); err != nil {
		return err
	}
	plated := c.Kind == Boxed || c.Kind == KnifeEdge
	ring := c.Kind == Boxed || c.Kind == Round
	for _, x := range []struct {
		field string
		given bool
		kinds bool
	}{
		{"outline", !c.Outline.IsZero(), plated}, {"back", c.Back != "", plated}, {"front", c.Front != "", plated},
		{"attached", c.Attached != "", plated && c.BackThickness == 0},
		{"taper", c.Taper != 0, c.Kind == KnifeEdge && c.plain()}, {"rise", c.Rise != 0, c.Kind == Boxed && c.plain() && c.BackThickness == 0},
		{"gathered_ends", c.GatheredEnds, c.Kind == Bolster}, {"cord", c.Cord != 0, !c.GatheredEnds}, {"boxing", c.Boxing != Goods{}, !c.GatheredEnds},
		{"left_ear", c.LeftEar != 0, plated}, {"right_ear", c.RightEar != 0, plated}, {"ear_depth", c.EarDepth != 0, plated},
		{"thickness", c.Thickness != 0, c.Kind != KnifeEdge && c.Kind != Bolster}, {"depth", c.Depth != 0, c.Kind != Round},
		{"pocket", c.Pocket != 0, ring && c.Zip}, {"zip_length", c.ZipLength != 0, c.Zip && c.Kind != Waterfall}, {"round_front", c.RoundFront, c.Kind == Waterfall},
		{"pair", c.Pair, plated && c.BackThickness == 0}, {"pattern", c.Pattern != 0, c.Kind == Boxed},
		{"back_thickness", c.BackThickness != 0, c.Kind == Boxed && c.Outline.IsZero() && c.LeftEar == 0 && c.RightEar == 0 && c.ZipLength == 0 && c.Pocket == 0},
		{"bottom", c.Bottom != Goods{}, c.Kind != Waterfall && c.Kind != Bolster}, {"top_stitch", c.TopStitch, c.Cord == 0 && !c.GatheredEnds},
	} {
		if x.given && !x.kinds {
			return check.Refuse(x.field, "", unit.ErrRange, "only fields of this kind of cushion ("+c.Kind.String()+")")
		}
	}
	for _, x := range []struct {
		field string
		o     allowance.Override
	}{{"seam", c.Seam}, {"zip_seam", c.ZipSeam}} {
		if _, err := given(x.o, x.field, 0); err != nil {
			return err
		}
	}
	if c.Cord != 0 {
		if err := inRange("cord", c.Cord, unit.Millimetre, 100*unit.Millimetre); err != nil {
			return err
		}
	}
	if !c.Outline.IsZero() {
		for _, x := range []struct {
			field string
			given bool
		}{{"width", c.Width != 0}, {"depth", c.Depth != 0}, {"ear_depth", c.EarDepth != 0 || c.LeftEar != 0 || c.RightEar != 0}, {"core_given", c.CoreGiven}} {
			if x.given {
				return check.Refuse(x.field, "", unit.ErrRange, "an outline or sizes, not both")
			}
		}
	}
	return nil
}

// plate gives the ring of the upper plate.
func (c Cushion) plate(k unit.Length) (plate, error) {
	if !c.Outline.IsZero() {
		return plateOf(c.Outline, c.Back)
	}
	w, err := c.finished("width", c.Width, k)
	if err != nil {
		return plate{}, err
	}
	if c.Kind == Round {
		o, err := shape.Circle(w)
		if err == nil { // from the front anticlockwise; the back lies opposite
			return plateOf(o, "")
		}
		return plate{}, check.Renamed(err, map[string]string{"diameter": "width"})
	}
	d, err := c.finished("depth", c.Depth, k)
	if err != nil {
		return plate{}, err
	}
	o, err := c.eared(w, d, k)
	if err != nil {
		return plate{}, err
	}
	return plateOf(o, "back")
}

// eared gives a plate with its ears: the front below, the sitter's left on the
// right.
func (c Cushion) eared(w, d, k unit.Length) (shape.Outline, error) {
	if c.LeftEar == 0 && c.RightEar == 0 {
		if c.EarDepth != 0 {
			return shape.Outline{}, check.Refuse("ear_depth", c.EarDepth.String(), unit.ErrRange, "none, or ears")
		}
		return c.rectangular(w, d)
	}
	ear, err := c.finished("ear_depth", c.EarDepth, k)
	if err != nil {
		return shape.Outline{}, err
	}
	if err := inRange("ear_depth", ear, 2*unit.Millimetre, d-2*unit.Millimetre); err != nil {
		return shape.Outline{}, err
	}
	right, left := c.LeftEar, c.RightEar // as drawn
	for _, e := range []struct {
		field string
		l     unit.Length
	}{{"left_ear", right}, {"right_ear", left}} {
		if e.l == 0 {
			continue
		}
		if err := inRange(e.field, e.l, 2*unit.Millimetre, w); err != nil {
			return shape.Outline{}, err
		}
		if left+right > w-unit.Centimetre {
			return shape.Outline{}, check.Refuse(e.field, e.l.String(), unit.ErrRange, "ears that leave a back between them")
		}
	}
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	t := shape.TraceFrom(at(0, 0)).Edge("front").Line(at(w, 0))
	if right != 0 {
		t = t.Edge("right ear").Line(at(w, ear)).Edge("right ear back").Line(at(w-right, ear))
	}
	t = t.Edge("right").Line(at(w-right, d)).Edge("back").Line(at(left, d)).Edge("left")
	if left != 0 {
		t = t.Line(at(left, ear)).Edge("left ear back").Line(at(0, ear)).Edge("left ear")
	}
	return t.Close()
}
