package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// TuftRule says how much cloth a deep button takes up: [HalfAgain],
// [TwiceDepth], [OnceDepth] or [Groove]. The rules disagree:
// for diamonds 8 in wide and 5 in high on 2 in foam they give 12 × 7 1/2,
// 12 × 9 and 10 × 7 in. Tuft a sample. The zero value is refused, so that the
// choice is made and seen.
type TuftRule uint8

const (
	// HalfAgain adds 1 1/2 in to every 3 in space both ways: spacing × 1.5,
	// whatever the depth (an old handbook of the trade).
	HalfAgain TuftRule = iota + 1
	// TwiceDepth adds twice the depth to the spacing both ways (common
	// practice for foam).
	TwiceDepth
	// OnceDepth adds the depth once to the spacing, both ways for diamonds
	// (common practice for foam).
	OnceDepth
	// Groove follows a straight V down to the button and up again:
	// 2 √((p/2)² + d²). It is geometry; no source uses it.
	Groove
)

var tuftRuleNames = [...]string{"", "half again", "twice the depth", "once the depth", "groove"}

var tuftRuleBases = [...]cite.Basis{
	{},
	{Status: cite.CommonPractice, Note: "1 1/2 in added to each 3 in space, in an old handbook of the trade"},
	{Status: cite.CommonPractice, Note: "twice the depth added both ways"},
	{Status: cite.CommonPractice, Note: "the depth added once both ways"},
	{Status: cite.Derived, Note: "geometry of a straight V; no source uses it"},
}

// TuftRules lists the rules.
func TuftRules() []TuftRule { return []TuftRule{HalfAgain, TwiceDepth, OnceDepth, Groove} }

// Basis gives what the rule is founded on.
func (r TuftRule) Basis() cite.Basis {
	if int(r) >= len(tuftRuleBases) {
		return cite.Basis{}
	}
	return tuftRuleBases[r]
}

// String gives the name, such as "twice the depth".
func (r TuftRule) String() string {
	if r == 0 {
		return "none"
	}
	return enum.Name(r, "rule", tuftRuleNames[:])
}

func (r TuftRule) check(field string) error {
	if r == 0 || int(r) >= len(tuftRuleNames) {
		return check.OneOf(field, r.String(), tuftRuleNames[1:]...)
	}
	return nil
}

// MarshalText writes the name, nothing for the zero value; an unknown rule wraps
// unit.ErrUnknown.
func (r TuftRule) MarshalText() ([]byte, error) { return enum.Text(r, "rule", tuftRuleNames[:]) }

// UnmarshalText reads what MarshalText writes.
func (r *TuftRule) UnmarshalText(text []byte) error {
	return enum.Read(r, text, "rule", tuftRuleNames[:])
}

// Spacing gives the distance between two buttons on the cloth, for their
// distance on the finished face and the depth of the button below it. The face
// is above zero, depth from 0 to 500 mm.
func (r TuftRule) Spacing(face, depth unit.Length) (unit.Length, error) {
	if err := r.check("rule"); err != nil {
		return 0, err
	}
	if err := check.Positive("face", face); err != nil {
		return 0, err
	}
	if err := check.Length("depth", depth, 0, 500*unit.Millimetre); err != nil {
		return 0, err
	}
	switch r {
	case HalfAgain:
		return face.MulDiv(3, 2, unit.Nearest)
	case TwiceDepth:
		return face + 2*depth, nil
	case OnceDepth:
		return face + depth, nil
	}
	return nano.Length(2 * geom.Hypot(float64(face)/2, float64(depth)))
}

// Tufting is a field of deep-buttoned diamonds. The zero value is refused.
type Tufting struct {
	Width  unit.Length `json:"width"`  // of the finished panel
	Height unit.Length `json:"height"` // of the finished panel
	// Border is left plain all round the field; zero runs the field to the edge.
	Border unit.Length `json:"border,omitempty"`
	Across int         `json:"across"` // whole diamonds side by side, 1 to 200
	Down   int         `json:"down"`   // whole diamonds one above the other, 1 to 200
	Depth  unit.Length `json:"depth"`  // of the buttons below the face, up to 500 mm; HalfAgain gives the same cloth for any
	Rule   TuftRule    `json:"rule"`
	// Tack is added all round the cloth; by default that of a pull-over,
	// 1 in (Cutting and Draping). From 0 to 500 mm.
	Tack allowance.Override `json:"tack,omitzero"`
}

// TuftPlan is a tufted panel: where to mark the foam and the cloth, and the
// cloth to cut.
type TuftPlan struct {
	FieldWidth  unit.Length `json:"field_width"` // tufted field on the face
	FieldHeight unit.Length `json:"field_height"`

	DiamondWidth  unit.Length `json:"diamond_width"` // on the face, rounded to the nanometre
	DiamondHeight unit.Length `json:"diamond_height"`

	ClothDiamondWidth  unit.Length `json:"cloth_diamond_width"` // on the cloth
	ClothDiamondHeight unit.Length `json:"cloth_diamond_height"`

	NetWidth  unit.Length `json:"net_width"` // cloth for the panel, border included
	NetHeight unit.Length `json:"net_height"`
	CutWidth  unit.Length `json:"cut_width"` // with the tack edge
	CutHeight unit.Length `json:"cut_height"`

	// Rows are the rows of buttons from the top, as places on the face and on
	// the cloth measured from the top left corner of the net panel. Rows stand
	// half a diamond apart and are staggered.
	Rows    []TuftRow `json:"rows"`
	Buttons int       `json:"buttons"`
	// EdgePleats run from the outermost buttons to the edge, all round: one from
	// each. They take up cloth that is not in the sizes.
	EdgePleats int        `json:"edge_pleats"`
	Basis      cite.Basis `json:"basis"` // of the spacing rule
}

// TuftRow is one row of buttons.
type TuftRow struct {
	FaceY  unit.Length   `json:"face_y"`
	ClothY unit.Length   `json:"cloth_y"`
	FaceX  []unit.Length `json:"face_x"`
	ClothX []unit.Length `json:"cloth_x"`
}

// Plan gives the marking grids and the cloth. The field is the panel less the
// border on every side, and holds a whole number of diamonds each way:
//
//	diamond = field / count            on the face
//	diamond = Rule.Spacing(diamond, d) on the cloth
//	net     = count × cloth diamond + 2 border
//	cut     = net + 2 tack
//
// Buttons stand at the corners of the diamonds: rows half a diamond apart,
// alternately in the middles and at the sides of the diamonds. Pleats from the
// outermost buttons to the edge take up cloth too; the border does not allow
// for them.
//
// Drawing: allowance/doc/tufting.svg
func (t Tufting) Plan() (TuftPlan, error) {
	if err := t.check(); err != nil {
		return TuftPlan{}, err
	}
	tackDefault, _ := allowance.PullOver.Default()
	tack, err := ranged(t.Tack, "tack", tackDefault, 0, 500*unit.Millimetre)
	if err != nil {
		return TuftPlan{}, err
	}
	p := TuftPlan{FieldWidth: t.Width - 2*t.Border, FieldHeight: t.Height - 2*t.Border, Basis: t.Rule.Basis()}
	cloth := [2]unit.Length{}
	for i, side := range []struct {
		field unit.Length
		count int
		face  *unit.Length
		cloth *unit.Length
	}{
		{p.FieldWidth, t.Across, &p.DiamondWidth, &p.ClothDiamondWidth},
		{p.FieldHeight, t.Down, &p.DiamondHeight, &p.ClothDiamondHeight},
	} {
		if *side.face, err = side.field.MulDiv(1, side.count, unit.Nearest); err != nil {
			return TuftPlan{}, err
		}
		if *side.cloth, err = t.Rule.Spacing(*side.face, t.Depth); err != nil {
			return TuftPlan{}, check.Renamed(err, map[string]string{"face": [2]string{"across", "down"}[i]})
		}
		if cloth[i], err = side.cloth.Times(side.count); err != nil {
			return TuftPlan{}, err
		}
	}
	p.NetWidth, p.NetHeight = cloth[0]+2*t.Border, cloth[1]+2*t.Border
	p.CutWidth, p.CutHeight = p.NetWidth+2*tack, p.NetHeight+2*tack
	if err := p.place(t, cloth); err != nil {
		return TuftPlan{}, err
	}
	return p, nil
}

// place fills in the rows of buttons from the half-diamond lines both ways.
func (p *TuftPlan) place(t Tufting, cloth [2]unit.Length) error {
	var lines [4][]unit.Length // face x, cloth x, face y, cloth y
	for i, axis := range []struct {
		field  unit.Length
		halves int
	}{{p.FieldWidth, 2 * t.Across}, {cloth[0], 2 * t.Across}, {p.FieldHeight, 2 * t.Down}, {cloth[1], 2 * t.Down}} {
		for k := range axis.halves + 1 {
			l, err := axis.field.MulDiv(k, axis.halves, unit.Nearest)
			if err != nil {
				return err
			}
			lines[i] = append(lines[i], l+t.Border)
		}
	}
	for r := range 2*t.Down + 1 {
		row := TuftRow{FaceY: lines[2][r], ClothY: lines[3][r]}
		for k := 1 - r%2; k <= 2*t.Across; k += 2 {
			row.FaceX = append(row.FaceX, lines[0][k])
			row.ClothX = append(row.ClothX, lines[1][k])
		}
		p.Buttons += len(row.FaceX)
		p.Rows = append(p.Rows, row)
	}
	p.EdgePleats = 2 * (t.Across + t.Down)
	return nil
}

func (t Tufting) check() error {
	if err := check.Positives([]string{"width", "height"}, t.Width, t.Height); err != nil {
		return err
	}
	if err := check.Count("across", t.Across, 1, 200); err != nil {
		return err
	}
	if err := check.Count("down", t.Down, 1, 200); err != nil {
		return err
	}
	if err := check.Length("depth", t.Depth, 0, 500*unit.Millimetre); err != nil {
		return err
	}
	if err := t.Rule.check("rule"); err != nil {
		return err
	}
	most := min(t.Width-unit.Length(t.Across)*unit.Millimetre, t.Height-unit.Length(t.Down)*unit.Millimetre) / 2
	return check.Length("border", t.Border, 0, most)
}

// TuftEdge gives what is left over at each end of a panel when whole diamonds
// of a fixed size are set in its middle: (panel - count × diamond) / 2.
func TuftEdge(panel, diamond unit.Length, count int) (unit.Length, error) {
	if err := check.Positives([]string{"panel", "diamond"}, panel, diamond); err != nil {
		return 0, err
	}
	if err := check.Count("count", count, 1, 200); err != nil {
		return 0, err
	}
	field, err := diamond.Times(count)
	if err != nil {
		return 0, err
	}
	if field > panel {
		return 0, check.Refuse("count", field.String(), unit.ErrRange, "diamonds that fit into "+panel.String())
	}
	return (panel - field).MulDiv(1, 2, unit.Nearest)
}

// TuftCover is the cloth one rule asks for.
type TuftCover struct {
	Rule   TuftRule    `json:"rule"`
	Width  unit.Length `json:"width"` // of the diamond on the cloth
	Height unit.Length `json:"height"`
	Basis  cite.Basis  `json:"basis"`
}

// CompareTuftRules gives the diamond on the cloth by every rule, so that the
// disagreement is in view.
func CompareTuftRules(width, height, depth unit.Length) ([]TuftCover, error) {
	var out []TuftCover
	for _, r := range TuftRules() {
		w, err := r.Spacing(width, depth)
		if err != nil {
			return nil, check.Renamed(err, map[string]string{"face": "width"})
		}
		h, err := r.Spacing(height, depth)
		if err != nil {
			return nil, check.Renamed(err, map[string]string{"face": "height"})
		}
		out = append(out, TuftCover{Rule: r, Width: w, Height: h, Basis: r.Basis()})
	}
	return out, nil
}

// BiscuitCut is the cloth for biscuit tufting.
type BiscuitCut struct {
	Width  unit.Length `json:"width"`
	Height unit.Length `json:"height"`
	Basis  cite.Basis  `json:"basis"`
}

// BiscuitCover gives the cloth for biscuit tufting by the rule of Cutting and
// Draping: mark the frame in squares, set the buttons at their diagonals, and
// count the squares along the diagonal each way:
//
//	cover = squares × square + 2 tack
//
// Ten by ten squares of 3 in give 30 × 30 in before the tack edge. Counts are
// 1 to 500, the square above zero, tack from 0 to 2 m.
func BiscuitCover(across, down int, square, tack unit.Length) (BiscuitCut, error) {
	if err := check.Count("across", across, 1, 500); err != nil {
		return BiscuitCut{}, err
	}
	if err := check.Count("down", down, 1, 500); err != nil {
		return BiscuitCut{}, err
	}
	if err := check.Positive("square", square); err != nil {
		return BiscuitCut{}, err
	}
	if err := check.Length("tack", tack, 0, allowance.MostAllowance); err != nil {
		return BiscuitCut{}, err
	}
	return BiscuitCut{Width: square*unit.Length(across) + 2*tack, Height: square*unit.Length(down) + 2*tack, // at most 500 km
		Basis: cite.Practice("squares counted along the diagonal, in an old handbook of the trade")}, nil
}
