package job

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// jobWith is a job of one piece in cloth and lining.
func jobWith(t testing.TB, piece string) Spec {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "a job", "currency": "USD", "goods": [
		{"id": "cloth", "kind": "roll", "name": "plain tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"},
		{"id": "lining", "kind": "roll", "name": "decking", "material": "light woven", "price": "11.50 USD/yd", "width": "54 in"}],
		"pieces": [` + piece + `], "quote": {"labour_rate": "60.00 USD/h"}}`))
	require.NoError(t, err)
	return s
}

const (
	sixSeats = `{"name": "dining chair", "goods": "cloth", "from": "drop-in seat", "count": 6, "width": "19 in", "depth": "17 in", "foam": "2 in", "frame": "3/4 in", "build": "board"}`
	wing     = `{"name": "chair", "from": "wing chair", "goods": "cloth", "goods_for": {"lining": "lining"}, "measures": {
		"seat width": "25 in", "seat depth": "23 in", "front border height": "8 1/2 in", "arm front width": "4 in", "arm front height": "9 in",
		"inside arm depth": "25 in", "wing depth at the arm": "8 in", "wing height": "19 in", "inside back width": "23 in", "inside back height": "27 in",
		"outside arm width": "24 in", "outside arm height": "13 in", "outside back width": "24 1/2 in", "outside back height": "27 in"}%s}`
	footstool = `{"name": "stool", "from": "ottoman", "goods": "cloth", "goods_for": {"dust cover": "lining"}, "width": "24 in", "depth": "18 in", "height": "12 in"%s}`
)

// One line gives six seats: 19 + 2 (2 + 3/4 + 1) by 17 + 2 (2 + 3/4 + 1).
func TestSeatInALine(t *testing.T) {
	t.Parallel()
	d, err := prepare(context.Background(), jobWith(t, sixSeats))
	require.NoError(t, err)
	require.Len(t, d.cut.pieces, 1)
	c := d.cut.pieces[0].Cut
	assert.Equal(t, Size{53 * unit.Inch / 2, 49 * unit.Inch / 2}, c.Cut)
	assert.Equal(t, 6, c.Count)
}

// The measure beside from and that among the measures are the same.
func TestMeasuresBesideOrInTheMap(t *testing.T) {
	t.Parallel()
	a, err := prepare(context.Background(), jobWith(t, sixSeats))
	require.NoError(t, err)
	b, err := prepare(context.Background(), jobWith(t, `{"name": "dining chair", "goods": "cloth", "from": "drop-in seat", "count": 6,
		"measures": {"width": "19 in", "depth": "17 in", "foam": "2 in", "frame": "3/4 in"}}`))
	require.NoError(t, err)
	assert.Equal(t, a.cut, b.cut)
}

// faultsOf gives the fields of the faults of a job.
func faultsOf(t *testing.T, s Spec) []string {
	t.Helper()
	_, err := prepare(context.Background(), s)
	var found Faults
	require.ErrorAs(t, err, &found)
	var out []string
	for _, f := range found {
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		out = append(out, string(in.Field))
	}
	return out
}

// Every fault of a piece from a kind lies where the job file can mend it.
func TestFaultsOfKinds(t *testing.T) {
	t.Parallel()
	for piece, want := range map[string][]string{
		`{"name": "a", "from": "throne", "goods": "cloth"}`: {"pieces[0].from"},
		`{"name": "a", "from": "drop-in seat"}`:             {"pieces[0].width", "pieces[0].depth", "pieces[0].goods"},
		`{"name": "a", "from": "drop-in seat", "goods": "cloth", "width": "19 in", "depth": "300 in", "build": "webbed"}`:                                                               {"pieces[0].depth", "pieces[0].goods_for.dust cover"},
		`{"name": "a", "from": "drop-in seat", "goods": "cloth", "width": "19 in", "depth": "17 in", "measures": {"depth": "17 in"}}`:                                                   {"pieces[0].depth"},
		`{"name": "a", "from": "drop-in seat", "goods": "cloth", "width": "19 in", "depth": "17 in", "thickness": "1 in", "measures": {"wing height": "9 in"}}`:                         {"pieces[0].thickness", "pieces[0].measures.wing height"},
		`{"name": "a", "from": "drop-in seat", "goods": "silk", "width": "19 in", "depth": "17 in"}`:                                                                                    {"pieces[0].goods"},
		`{"name": "a", "from": "drop-in seat", "goods": "cloth", "width": "19 in", "depth": "17 in", "without": ["skirt"]}`:                                                             {"pieces[0].without[0]"},
		`{"name": "a", "from": "drop-in seat", "goods": "cloth", "width": "19 in", "panels": [{"name": "cap", "goods": "silk", "width": "3 in", "length": "3 in"}]}`:                    {"pieces[0].depth", "pieces[0].panels[0].goods"},
		`{"name": "a", "goods": "cloth", "width": "19 in", "build": "board", "panels": [{"name": "cap", "goods": "cloth", "width": "3 in", "length": "3 in"}]}`:                         {"pieces[0].goods", "pieces[0].build", "pieces[0].width"},
		strings.Replace(footstool, "%s", `, "without": ["boxing short"]`, 1):                                                                                                            slices.Repeat([]string{"pieces[0].from"}, 10),
		strings.Replace(footstool, "%s", `, "panels": [{"name": "strip", "goods": "cloth", "width": "3 in", "length": "3 in"}], "seams": [{"sew": "strip.top", "to": "strip.sky"}]`, 1): {"pieces[0].panels[0].bottom", "pieces[0].panels[0].left", "pieces[0].panels[0].right", "pieces[0].seams[0].to"},
	} {
		assert.ElementsMatch(t, want, faultsOf(t, jobWith(t, piece)), piece)
	}
}

// partsOf of a wing chair with something of its own.
func wingWith(t *testing.T, more string) Furniture {
	t.Helper()
	s := jobWith(t, strings.Replace(wing, "%s", more, 1))
	_, err := prepare(context.Background(), s)
	require.NoError(t, err, more)
	return expanded(t, s).Pieces[0]
}

// A panel of the job takes the place of the one of its name and keeps its edges'
// relations.
func TestPanelOfTheJob(t *testing.T) {
	t.Parallel()
	plain := wingWith(t, "")
	p := wingWith(t, `, "panels": [{"name": "outside back", "goods": "lining", "width": "26 in", "length": "30 in"}]`)
	require.Len(t, p.Panels, len(plain.Panels))
	for i, q := range p.Panels {
		if q.Name == "outside back" {
			assert.Equal(t, "lining", q.Goods)
			continue
		}
		assert.Equal(t, plain.Panels[i], q)
	}
	assert.Equal(t, plain.Seams, p.Seams)
	assert.Equal(t, plain.Fastenings, p.Fastenings)
}

// A relation of the job takes the place of that of the kind at its edge, for both
// hands, and no other.
func TestRelationOfTheJob(t *testing.T) {
	t.Parallel()
	plain := wingWith(t, "")
	p := wingWith(t, `, "fastenings": [{"fasten": ["outside arm left.left", "outside arm right.left"], "finish": "stapled flat"}]`)
	assert.Equal(t, plain.Seams, p.Seams)
	assert.Len(t, p.Fastenings, len(plain.Fastenings))
	for _, f := range p.Fastenings[:len(p.Fastenings)-1] {
		assert.NotContains(t, f.Fasten[0].String(), "outside arm.left")
	}
	// Only one hand is said: the other is missing.
	s := jobWith(t, strings.Replace(wing, "%s", `, "fastenings": [{"fasten": ["outside arm left.left"], "finish": "stapled flat"}]`, 1))
	assert.Equal(t, []string{"pieces[0].from"}, faultsOf(t, s))
	// An arm that is pleated onto its post in place of a seam, and no front.
	p = wingWith(t, `, "without": ["arm front"], "fastenings": [{"fasten": ["inside arm.front"], "on": "front post"}]`)
	assert.Len(t, p.Seams, len(plain.Seams)-1)
	for _, f := range p.Fastenings {
		assert.NotContains(t, f.HiddenBy, "arm front left")
	}
}

// What is left out is gone with its relations.
func TestWithout(t *testing.T) {
	t.Parallel()
	p := wingWith(t, `, "without": ["welt", "seat cushion", "dust cover"]`)
	assert.Empty(t, p.Trims)
	assert.Empty(t, p.Cushions)
	for _, s := range p.Seams {
		assert.Zero(t, s.Cord)
	}
	for _, f := range p.Fastenings {
		assert.NotContains(t, f.HiddenBy, "dust cover")
	}
	assert.Len(t, p.Meets, 3, "without those of the cushion")
}

// An option puts other goods in the place of the cover of a kind.
func TestKindInOtherGoods(t *testing.T) {
	t.Parallel()
	s := jobWith(t, strings.Replace(footstool, "%s", "", 1))
	other, f := s.with(OptionSpec{Name: "x", Replace: []Replace{{Goods: "cloth", With: "lining"}}})
	require.NoError(t, f.err())
	for _, p := range expanded(t, other).Pieces[0].Panels {
		assert.Equal(t, "lining", p.Goods)
	}
	assert.Equal(t, "cloth", s.Pieces[0].Goods)
}

// cautioned gives what the order says is not priced.
func cautioned(t *testing.T, s Spec) string {
	t.Helper()
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	var out []string
	for _, c := range o.Cautions {
		if c.About == "not priced" {
			out = append(out, c.Text)
		}
	}
	return strings.Join(out, "\n")
}

// The order says which times and fillings its price lacks, and what the job fills
// has the size of the kind.
func TestWhatIsNotPriced(t *testing.T) {
	t.Parallel()
	const filling = `"filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"%s}`
	bare := jobWith(t, sixSeats)
	assert.Equal(t, "dining chair: time to strip, pad and cover; filling: pad 19 x 17 x 2 in.", cautioned(t, bare))
	full := jobWith(t, strings.TrimSuffix(sixSeats, "}")+`, `+strings.Replace(filling, "%s", "", 1)+`, "labour": [{"task": "cover", "time": "1 h"}]}`)
	assert.Empty(t, cautioned(t, full))
	o, err := Build(context.Background(), full, quick)
	require.NoError(t, err)
	require.Len(t, o.Foam, 1)
	assert.Equal(t, 6, o.Foam[0].Count)
	assert.Equal(t, []unit.Length{19 * unit.Inch, 17 * unit.Inch, 2 * unit.Inch}, []unit.Length{o.Foam[0].Cut.Length, o.Foam[0].Cut.Width, o.Foam[0].Cut.Thickness})
	wrong := jobWith(t, strings.TrimSuffix(sixSeats, "}")+`, `+strings.Replace(filling, "%s", `, "sitter": "9000 kg"`, 1)+`}`)
	assert.Equal(t, []string{"pieces[0].filling.sitter"}, faultsOf(t, wrong))
	assert.Equal(t, "chair: time to strip, check frame, renew webbing, to pad and cover, to sew cushion and welt; filling: seat cushion.",
		cautioned(t, jobWith(t, strings.Replace(wing, "%s", "", 1))))
}
