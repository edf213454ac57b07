package made

import (
	"errors"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// CushionKind is how a cushion is made: Boxed, KnifeEdge, Waterfall or
// BolsterKind. The zero value is boxed.
type CushionKind uint8

const (
	// Boxed has two plates of any outline with a strip between them.
	Boxed CushionKind = iota
	// KnifeEdge has two plates sewn to each other.
	KnifeEdge
	// Waterfall has one piece over the top, the front and the bottom.
	Waterfall
	// BolsterKind is a round pillow with flat ends.
	BolsterKind
)

var cushionNames = []string{"boxed", "knife edge", "waterfall", "bolster"}

// String gives the name, such as "knife edge".
func (k CushionKind) String() string { return enum.Name(k, "cushion", cushionNames) }

// MarshalText writes the name; a number outside the set wraps unit.ErrUnknown.
func (k CushionKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", cushionNames) }

// UnmarshalText reads a name as String writes it.
func (k *CushionKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "kind", cushionNames)
}

// Cushion is a cushion or pillow of one kind, with the goods of its parts. The
// zero value is refused.
type Cushion struct {
	Kind CushionKind `json:"kind,omitzero"`
	// Outline is the plate of a boxed or a knife-edge cushion.
	Outline shape.Outline `json:"outline,omitzero"`
	// Width and Depth are those of a waterfall cushion; of a bolster, Width is
	// its length and Depth its diameter.
	Width unit.Length `json:"width,omitzero"`
	Depth unit.Length `json:"depth,omitzero"`
	// Thickness is the finished height of the boxing; not of a knife edge or a
	// bolster.
	Thickness unit.Length `json:"thickness,omitzero"`

	Top    Goods `json:"top"`
	Bottom Goods `json:"bottom,omitzero"` // of the lower plate
	Boxing Goods `json:"boxing,omitzero"` // of boxing, sides and zip strip, or of the ends of a bolster

	// Cord is the diameter of the cord in the seams; zero has no welt. Bias
	// cuts the welt at 45 degrees.
	Cord  unit.Length `json:"cord,omitzero"`
	Bias  bool        `json:"bias,omitempty"`
	Welts Goods       `json:"welts,omitzero"`

	// ZipBack is the length of the back that opens, ZipEdge the edge whose
	// length that is where ZipBack is zero; without both a boxed cushion has no
	// zip.
	ZipBack unit.Length `json:"zip_back,omitzero"`
	ZipEdge string      `json:"zip_edge,omitempty"`
	// Zip puts a zip in the back of a waterfall cushion.
	Zip bool `json:"zip,omitempty"`

	// Fit is how the cover sits on its filling; not of waterfall and bolster.
	Fit        CushionFit  `json:"fit,omitzero"`
	RoundFront bool        `json:"round_front,omitempty"` // of a waterfall
	Smaller    unit.Length `json:"smaller,omitzero"`      // of a bolster; see Bolster
}

// Cover gives the panels of the cushion. No stretch is taken out of them: the
// filling is cut larger instead, and plates and boxing must keep the same length
// of seam. Errors name the fields of this type.
func (c Cushion) Cover() (allowance.Cover, error) {
	switch c.Kind {
	case Boxed, KnifeEdge:
		return c.plated()
	case Waterfall:
		return c.waterfall()
	case BolsterKind:
		return c.bolster()
	}
	return allowance.Cover{}, check.OneOf("kind", c.Kind.String(), cushionNames...)
}

// plated makes two plates of any outline and, of a boxed one, the strip between
// them.
func (c Cushion) plated() (allowance.Cover, error) {
	edge := allowance.Edge{Finish: allowance.BoxedSeam}
	switch {
	case c.Cord != 0:
		edge.Finish = allowance.WeltedSeam
	case c.Kind == KnifeEdge:
		edge.Finish = allowance.PlainSeam
	}
	panel := allowance.Panel{Outline: c.Outline, AllEdges: edge}
	thick := c.Thickness
	if err := enum.Check(c.Fit, "fit", fitNames[:]); err != nil {
		return allowance.Cover{}, err
	}
	if c.Fit == SnugFit {
		// Cut to the filling, so that the cover ends two allowances smaller.
		seam, _ := edge.Finish.Default()
		panel.Across, panel.Along = allowance.Stretch{Compression: 2 * seam}, allowance.Stretch{Compression: 2 * seam}
		var err error
		if thick, err = allowance.FinishedFromCut(c.Thickness, seam, seam); err != nil && c.Kind == Boxed {
			return allowance.Cover{}, atField("thickness", err)
		}
	}
	plate, err := panel.Cut()
	if err != nil {
		return allowance.Cover{}, err
	}
	var out allowance.Cover
	for _, p := range []struct {
		name string
		g    Goods
	}{{"top plate", c.Top}, {"bottom plate", c.Bottom}} {
		panel.Name = p.name
		out.Panels = append(out.Panels, allowance.CoverPanel{Panel: panel, Goods: p.g.ID})
	}
	var round unit.Length
	for _, e := range plate.Edges {
		round += e.Length
	}
	runs := []unit.Length{round}
	if c.Kind == Boxed {
		if err := c.boxing(&out, plate, round, thick); err != nil {
			return allowance.Cover{}, err
		}
		runs = append(runs, round)
	}
	return c.welted(out, runs)
}

// boxing adds the strip between the plates.
func (c Cushion) boxing(out *allowance.Cover, plate allowance.PanelCut, round, thick unit.Length) error {
	box := Boxing{Perimeter: round, Depth: thick, Zip: ZipStrip{Back: c.ZipBack}}
	if c.ZipBack == 0 && c.ZipEdge != "" {
		names := make([]string, len(plate.Edges))
		for i, e := range plate.Edges {
			if names[i] = e.Name; e.Name == c.ZipEdge {
				box.Zip.Back = e.Length
			}
		}
		if err := check.OneOf("zip_edge", c.ZipEdge, names...); err != nil {
			return err
		}
	}
	strips, err := box.Cover(c.Boxing)
	if err != nil {
		return atField(c.boxingField(err), err)
	}
	out.Panels, out.Rows = append(out.Panels, strips.Panels...), append(out.Rows, strips.Rows...)
	return nil
}

// boxingField gives the field of the cushion that an error of its boxing is
// about.
func (c Cushion) boxingField(err error) string {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return ""
	}
	switch name, _, _, _ := in.Field.Head(); name {
	case "depth":
		return "thickness"
	case "zip":
		if c.ZipBack == 0 {
			return "zip_edge"
		}
		return "zip_back"
	case "longest":
		return "boxing"
	}
	return "outline"
}

// welted adds the welt of all seams, where there is one.
func (c Cushion) welted(out allowance.Cover, runs []unit.Length) (allowance.Cover, error) {
	if c.Cord == 0 {
		return out, nil
	}
	w, err := Welt{Cord: c.Cord, Runs: runs, Bias: c.Bias}.Cover(c.Welts)
	if err != nil {
		return allowance.Cover{}, atField("cord", err)
	}
	out.Panels, out.Rows = append(out.Panels, w.Panels...), append(out.Rows, w.Rows...)
	return out, nil
}

func (c Cushion) waterfall() (allowance.Cover, error) {
	cut, err := WaterfallCushion{Width: c.Width, Depth: c.Depth, Thickness: c.Thickness, Round: c.RoundFront}.Cut()
	if err != nil {
		return allowance.Cover{}, err
	}
	main, err := shape.Rectangle(c.Width, cut.Wrap)
	if err != nil {
		return allowance.Cover{}, err
	}
	side, err := shape.Rectangle(c.Thickness, c.Depth)
	if c.RoundFront {
		r := c.Thickness / 2
		side, err = shape.RoundedRectangle(c.Thickness, c.Depth, shape.CornerRadii{BottomLeft: r, BottomRight: r})
	}
	if err != nil {
		return allowance.Cover{}, err
	}
	back, err := strip("back", c.Boxing, Strip{Count: 2, Width: cut.ZipWidth, Length: cut.ZipLength})
	if err != nil {
		return allowance.Cover{}, err
	}
	if c.Zip {
		back.ZipTape = c.Width
	}
	seam := allowance.Edge{Finish: allowance.BoxedSeam}
	return allowance.Cover{
		Panels: []allowance.CoverPanel{
			{Goods: c.Top.ID, Panel: allowance.Panel{Name: "top, front and bottom", Outline: main, AllEdges: seam}},
			{Goods: c.Boxing.ID, Count: 2, Panel: allowance.Panel{Name: "side", Outline: side, AllEdges: seam}},
			back,
		},
		Rows: []allowance.CoverRow{allowance.RowOn("back", c.Boxing.ID, 2*c.Width, allowance.SeamLayers)},
	}, nil
}

func (c Cushion) bolster() (allowance.Cover, error) {
	cut, err := Bolster{Length: c.Width, Diameter: c.Depth, Smaller: c.Smaller, Welted: c.Cord != 0}.Cut()
	if err != nil {
		return allowance.Cover{}, check.Renamed(err, map[string]string{"length": "width", "diameter": "depth"})
	}
	seam, _ := allowance.PlainSeam.Default()
	ends := allowance.Edge{Finish: allowance.PlainSeam, Allowance: allowance.Exactly(seam)}
	if c.Cord != 0 {
		ends.Finish = allowance.WeltedSeam
	}
	body, err := shape.Rectangle(cut.BodyLength-2*seam, cut.Girth)
	if err != nil {
		return allowance.Cover{}, err
	}
	end, err := shape.Circle(cut.End - 2*seam)
	if err != nil {
		return allowance.Cover{}, err
	}
	return c.welted(allowance.Cover{Panels: []allowance.CoverPanel{
		{Goods: c.Top.ID, Panel: allowance.Panel{Name: "body", Outline: body, Edges: map[string]allowance.Edge{"left": ends, "right": ends}}},
		{Goods: c.Boxing.ID, Count: 2, Panel: allowance.Panel{Name: "end", Outline: end, AllEdges: ends}},
	}}, cut.Welt)
}

// atField puts an error of an inner part at a field of this one, whatever field
// it names itself.
func atField(field string, err error) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return unit.InField(field, err)
	}
	out := *in
	out.Field = unit.Path(field)
	return &out
}
