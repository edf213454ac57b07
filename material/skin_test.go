package material_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

func inches(x, y unit.Length) shape.Point { return shape.Point{X: x * in, Y: y * in} }

func polygon(t testing.TB, corners ...shape.Point) shape.Outline {
	t.Helper()
	o, err := shape.Polygon(corners...)
	require.NoError(t, err)
	return o
}

func box(t testing.TB, x, y, w, h unit.Length) shape.Outline {
	return polygon(t, inches(x, y), inches(x+w, y), inches(x+w, y+h), inches(x, y+h))
}

// The skins that the package takes.
const leastSkin, mostSkin = unit.SquareFoot / 2, 120 * unit.SquareFoot

// A usual shape has the area it was asked for, whatever the kind, and grows in
// proportion.
func TestNaturalShapesHaveTheirArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(material.SkinKinds()).Draw(t, "kind")
		a := unit.Area(rapid.Int64Range(int64(leastSkin), int64(mostSkin)).Draw(t, "area"))
		o, err := material.NaturalShape(k, a)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(a), float64(o.Area()), 1e-6)
		low, _ := o.Bounds()
		assert.Equal(t, shape.Point{}, low)
		// Four times the area is twice the length.
		if 4*a <= mostSkin {
			big, err := material.NaturalShape(k, 4*a)
			require.NoError(t, err)
			_, h := o.Size()
			_, bigH := big.Size()
			assert.InEpsilon(t, 2, float64(bigH)/float64(h), 1e-6)
		}
	})
}

// Whole skins are drawn from one half, so they are the same left and right.
func TestWholeSkinsAreSymmetric(t *testing.T) {
	for _, k := range []material.SkinKind{material.WholeHide, material.Shoulder, material.Calf, material.Goat, material.Sheep} {
		o, err := material.NaturalShape(k, 20*unit.SquareFoot)
		require.NoError(t, err)
		w, _ := o.Size()
		assert.InDelta(t, float64(w)/2, float64(o.Centroid().X), 2e3, k)
	}
}

func TestSkinCheck(t *testing.T) {
	good := func() material.Skin { return material.Skin{Outline: box(t, 0, 0, 60, 60)} }
	require.NoError(t, good().Check())
	for name, c := range map[string]struct {
		do    func(*material.Skin)
		field string
		err   error
	}{
		"nothing":      {func(s *material.Skin) { *s = material.Skin{} }, "outline", unit.ErrRequired},
		"kind alone":   {func(s *material.Skin) { *s = material.Skin{Kind: material.Calf} }, "outline", unit.ErrRequired},
		"unknown kind": {func(s *material.Skin) { s.Kind = 99 }, "kind", unit.ErrUnknown},
		"huge area":    {func(s *material.Skin) { s.Area = 500 * unit.SquareFoot }, "area", unit.ErrRange},
		"tiny outline": {func(s *material.Skin) { s.Outline = box(t, 0, 0, 2, 2) }, "outline", unit.ErrRange},
		"backbone off": {func(s *material.Skin) { x := 61 * in; s.Backbone = &x }, "backbone", unit.ErrRange},
		"backbone of a usual shape": {func(s *material.Skin) {
			x := in
			*s = material.Skin{Kind: material.Calf, Area: 10 * unit.SquareFoot, Backbone: &x}
		}, "outline", unit.ErrRequired},
		"thick":         {func(s *material.Skin) { s.Thickness = in }, "thickness", unit.ErrRange},
		"forgotten":     {func(s *material.Skin) { s.Border = 5 }, "border", unit.ErrForgottenUnit},
		"grade":         {func(s *material.Skin) { s.Grade = 9 }, "grade", unit.ErrUnknown},
		"price":         {func(s *material.Skin) { s.PriceFactor = unit.Ratio(math.NaN()) }, "price_factor", unit.ErrNotFinite},
		"hole":          {func(s *material.Skin) { s.Holes = make([]shape.Outline, 1) }, "holes[0]", unit.ErrRequired},
		"defect":        {func(s *material.Skin) { s.Defects = []material.Defect{{Kind: material.Brand}} }, "defects[0].outline", unit.ErrRequired},
		"defect size":   {func(s *material.Skin) { s.Defects = []material.Defect{{Across: 2 * unit.Metre}} }, "defects[0].across", unit.ErrRange},
		"defect kind":   {func(s *material.Skin) { s.Defects = []material.Defect{{Kind: 77, Across: in}} }, "defects[0].kind", unit.ErrUnknown},
		"severity":      {func(s *material.Skin) { s.Defects = []material.Defect{{Severity: 7, Across: in}} }, "defects[0].severity", unit.ErrUnknown},
		"far mark":      {func(s *material.Skin) { s.Defects = []material.Defect{{At: inches(1e9, 0), Across: in}} }, "defects[0].at", unit.ErrRange},
		"zone":          {func(s *material.Skin) { s.Zones = []material.QualityZone{{Grade: material.FairGrade}} }, "zones[0].outline", unit.ErrRequired},
		"zone grade":    {func(s *material.Skin) { s.Zones = []material.QualityZone{{Grade: 9, Outline: box(t, 0, 0, 1, 1)}} }, "zones[0].grade", unit.ErrUnknown},
		"direction":     {func(s *material.Skin) { s.Stretch = []material.StretchRegion{{Direction: 1e9}} }, "stretch[0].direction", unit.ErrRange},
		"two rests":     {func(s *material.Skin) { s.Stretch = make([]material.StretchRegion, 2) }, "stretch[1].outline", unit.ErrRange},
		"too many":      {func(s *material.Skin) { s.Defects = make([]material.Defect, 500+1) }, "holes, defects and zones", unit.ErrRange},
		"infinite turn": {func(s *material.Skin) { s.Stretch = []material.StretchRegion{{Direction: unit.Angle(math.Inf(1))}} }, "stretch[0].direction", unit.ErrNotFinite},
	} {
		s := good()
		c.do(&s)
		err := s.Check()
		require.ErrorIs(t, err, c.err, name)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, name)
		assert.Equal(t, c.field, string(input.Field), name)
	}
}

func TestSkinInJSON(t *testing.T) {
	s := material.Skin{ID: "H1", Kind: material.WholeHide, Area: 50 * unit.SquareFoot, Thickness: 12 * unit.Millimetre / 10, Border: in, Grade: material.GoodGrade,
		Holes:   []shape.Outline{box(t, 30, 30, 2, 2)},
		Defects: []material.Defect{{Kind: material.Brand, At: inches(70, 25), Across: 5 * in}, {Kind: material.Wrinkle, Severity: material.FaintMark, Outline: box(t, 40, 40, 3, 1)}},
		Zones:   []material.QualityZone{{Name: "belly", Grade: material.FairGrade, Outline: box(t, 0, 20, 14, 50)}},
		Stretch: []material.StretchRegion{{Direction: 90}}, PriceFactor: 0.8}
	text, err := json.Marshal(s)
	require.NoError(t, err)
	var back material.Skin
	require.NoError(t, json.Unmarshal(text, &back))
	again, err := json.Marshal(back)
	require.NoError(t, err)
	assert.JSONEq(t, string(text), string(again))
	require.NoError(t, back.Check())
	assert.Contains(t, string(text), `"price_factor":"80 %"`)
	assert.Equal(t, 50*unit.SquareFoot, s.SoldArea())
	assert.Equal(t, 25*unit.SquareFoot, material.Skin{Outline: box(t, 0, 0, 60, 60)}.SoldArea())
}

func TestTablesOfSkinsAreFounded(t *testing.T) {
	founded := func(b cite.Basis, what string) {
		t.Helper()
		assert.NotZero(t, b.Status, what)
		_, known := cite.Lookup(b.Source)
		assert.Equal(t, b.Status == cite.Published || b.Status == cite.Standard || b.Status == cite.Derived, known, what)
	}
	for _, k := range material.SkinKinds() {
		require.NotEmpty(t, material.UsualAreas(k), k)
		for _, r := range material.UsualAreas(k) {
			assert.Less(t, r.From, r.To, k)
			assert.GreaterOrEqual(t, r.From, leastSkin)
			assert.LessOrEqual(t, r.To, mostSkin)
			founded(r.Basis, k.String())
		}
	}
	assert.Empty(t, material.UsualAreas(material.MeasuredSkin))
	for _, r := range material.UpholsteryThickness() {
		assert.Less(t, r.From, r.To, r.Use)
		founded(r.Basis, r.Use)
	}
	for s := range material.PieceSize(4) {
		require.NotEmpty(t, material.Yields(s), s)
		for _, y := range material.Yields(s) {
			assert.LessOrEqual(t, y.From, y.To)
			founded(y.Basis, s.String())
		}
	}
	sum := unit.Ratio(0)
	for _, p := range material.PartShares() {
		founded(p.Basis, p.Part)
		sum += p.Share
	}
	assert.InDelta(t, 2, float64(sum), 1e-12, "two divisions of a whole hide")
	for _, n := range append(material.PartNotes(), material.StretchNotes()...) {
		founded(n.Basis, n.Text)
	}
}

// A mark without a place, or in a place off the skin, is a fault, not a mark that
// counts for nothing.
func TestMarksOffTheSkin(t *testing.T) {
	hole, err := shape.Circle(3 * in)
	require.NoError(t, err)
	whole := material.Skin{Kind: material.WholeHide, Area: 50 * unit.SquareFoot}
	for field, change := range map[string]func(*material.Skin){
		"holes[0]":      func(s *material.Skin) { s.Holes = []shape.Outline{hole} },
		"holes[1]":      func(s *material.Skin) { s.Holes = []shape.Outline{box(t, 40, 40, 2, 2), box(t, 400, 40, 2, 2)} },
		"defects[0].at": func(s *material.Skin) { s.Defects = []material.Defect{{Kind: material.Brand, Across: in}} },
		"defects[1].at": func(s *material.Skin) {
			s.Defects = []material.Defect{{Kind: material.Brand, At: inches(40, 40), Across: in}, {Kind: material.Brand, At: inches(1, 1), Across: in}}
		},
		"defects[0]": func(s *material.Skin) { s.Defects = []material.Defect{{Outline: box(t, -5, 0, 5, 5)}} },
		"zones[0].outline": func(s *material.Skin) {
			s.Zones = []material.QualityZone{{Grade: material.FairGrade, Outline: box(t, 200, 20, 14, 50)}}
		},
		"stretch[0].outline":   func(s *material.Skin) { s.Stretch = []material.StretchRegion{{Outline: box(t, 0, 300, 5, 5)}} },
		"stretch[1].direction": func(s *material.Skin) { s.Stretch = []material.StretchRegion{{}, {Direction: unit.Angle(math.NaN())}} },
	} {
		s := whole
		change(&s)
		var in *unit.InputError
		require.ErrorAs(t, s.Check(), &in, field)
		assert.Equal(t, field, string(in.Field))
	}
	// On the border, and on a skin measured about its backbone.
	require.NoError(t, material.Skin{Outline: box(t, -30, 0, 60, 60), Holes: []shape.Outline{hole}, Zones: []material.QualityZone{{Outline: box(t, -40, -5, 100, 10)}}}.Check())
}

// A round mark lies about its place, as wide as it is across.
func TestRoundMarkLiesAboutItsPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := shape.Point{X: unit.Length(rapid.Int64Range(1, 3000).Draw(t, "x")) * unit.Millimetre, Y: unit.Length(rapid.Int64Range(-3000, 3000).Draw(t, "y")) * unit.Millimetre}
		across := unit.Length(rapid.Int64Range(1, 1000).Draw(t, "across")) * unit.Millimetre
		o, err := material.Defect{At: at, Across: across}.Border()
		require.NoError(t, err)
		low, high := o.Bounds()
		for _, side := range [][2]unit.Length{{at.X - low.X, high.X - at.X}, {at.Y - low.Y, high.Y - at.Y}} {
			assert.InDelta(t, int64(across), int64(2*side[0]), 2, "nanometres")
			assert.InDelta(t, int64(across), int64(2*side[1]), 2, "nanometres")
		}
	})
}

// The marked area and the outline agree within 10 %.
func TestMarkedAreaAgreesWithTheOutline(t *testing.T) {
	measured := material.Skin{Outline: box(t, 0, 0, 72, 72)} // 36 sq ft
	for area, good := range map[unit.Area]bool{0: true, 33 * unit.SquareFoot: true, 39 * unit.SquareFoot: true, 32 * unit.SquareFoot: false, 40 * unit.SquareFoot: false,
		5 * unit.SquareFoot: false, 100 * unit.SquareFoot: false} {
		measured.Area = area
		err := measured.Check()
		if good {
			assert.NoError(t, err, area)
			continue
		}
		require.ErrorIs(t, err, unit.ErrRange, area)
		require.ErrorContains(t, err, "36.0 sq ft inside the outline")
	}
}

// The area that is marked may be off that inside the outline by a tenth: 10 sq ft of
// 4 x 2.5 ft marked as 9 to 11.
func TestMarkedAreaAtItsLimits(t *testing.T) {
	o, err := shape.Rectangle(4*unit.Foot, 30*unit.Inch)
	require.NoError(t, err)
	for area, ok := range map[unit.Area]bool{11 * unit.SquareFoot: true, 11*unit.SquareFoot + unit.SquareFoot/1000: false, 9 * unit.SquareFoot: true, 9*unit.SquareFoot - unit.SquareFoot/1000: false} {
		err := material.Skin{ID: "H1", Kind: material.Calf, Area: area, Outline: o}.Check()
		if ok {
			require.NoError(t, err, area)
			continue
		}
		require.ErrorContains(t, err, "area", area)
	}
}
