package kind

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Every file is read, without a field that means nothing, and says what a card
// needs.
func TestFiles(t *testing.T) {
	entries, err := files.ReadDir("kinds")
	require.NoError(t, err)
	all := All()
	require.Len(t, all, len(entries))
	names := map[string]bool{}
	for _, e := range entries {
		text, err := files.ReadFile("kinds/" + e.Name())
		require.NoError(t, err)
		d := json.NewDecoder(strings.NewReader(string(text)))
		d.DisallowUnknownFields()
		var k Kind
		require.NoError(t, d.Decode(&k), e.Name())
		assert.NotEmpty(t, k.About)
		assert.NotEmpty(t, k.Tasks, k.Name)
		assert.NotEmpty(t, k.Photos, k.Name)
		assert.NotEmpty(t, k.Cautions, k.Name)
		assert.False(t, names[k.Name], k.Name)
		names[k.Name] = true
		same, err := Named(k.Name)
		require.NoError(t, err)
		assert.Equal(t, k, same)
		measures := map[string]bool{}
		for _, m := range k.Measures {
			assert.False(t, measures[m.Name], "%s: %s", k.Name, m.Name)
			measures[m.Name] = true
			assert.NotEmpty(t, m.Tape, "%s: %s", k.Name, m.Name)
			assert.Less(t, m.Least, m.Most, "%s: %s", k.Name, m.Name)
			if m.Usual == "" {
				assert.Zero(t, m.Status, "%s: %s", k.Name, m.Name)
				assert.GreaterOrEqual(t, m.Like, m.Least, "%s: %s", k.Name, m.Name)
				assert.LessOrEqual(t, m.Like, m.Most, "%s: %s", k.Name, m.Name)
			} else {
				assert.Contains(t, []cite.Status{cite.Derived, cite.CommonPractice, cite.FromMemory}, m.Status, "%s: %s", k.Name, m.Name)
			}
		}
		_, err = k.Sizes(k.Likely())
		require.NoError(t, err, k.Name)
	}
}

// fields gives the fields of joined errors.
func fields(t *testing.T, err error) []string {
	t.Helper()
	var out []string
	var walk func(error)
	walk = func(err error) {
		var joined interface{ Unwrap() []error }
		if errors.As(err, &joined) {
			for _, e := range joined.Unwrap() {
				walk(e)
			}
			return
		}
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		out = append(out, string(in.Field))
	}
	walk(err)
	return out
}

// What is missing, unknown or out of range is named, all at once.
func TestFaults(t *testing.T) {
	k, err := Named("ottoman")
	require.NoError(t, err)
	_, err = k.Write(Given{Build: "webbed", Goods: map[string]string{"lace": "a"},
		Measures: map[string]unit.Length{"width": 400 * unit.Inch, "wing height": unit.Inch}})
	assert.Equal(t, []string{"measures.wing height", "measures.width", "measures.depth", "measures.height", "cover", "build", "goods.dust cover", "goods.lace"}, fields(t, err))
	// What is usual by a measure that is wrong is not named too.
	k, err = Named("drop-in seat")
	require.NoError(t, err)
	_, err = k.Sizes(map[string]unit.Length{"width": 0, "depth": 17 * unit.Inch})
	assert.Equal(t, []string{"measures.width"}, fields(t, err))
	_, err = k.Sizes(map[string]unit.Length{"width": 19 * unit.Inch, "depth": 17 * unit.Inch, "front width": unit.Inch})
	assert.Equal(t, []string{"measures.front width"}, fields(t, err))
	_, err = Named("throne")
	assert.ErrorContains(t, err, "wing chair")
}

// Formulas by hand.
func TestFormula(t *testing.T) {
	k := Kind{Measures: []Measure{{Name: "seat depth"}, {Name: "tuck", Usual: "seat depth / 4"}, {Name: "loop", Usual: "loop + 1 in"}}}
	for text, want := range map[string]unit.Length{
		"seat depth":                         20 * unit.Inch,
		"seat depth - 1 1/4 in":              75 * unit.Inch / 4,
		"2 * (seat depth + tuck) - 1/2 in":   99 * unit.Inch / 2,
		"max(seat depth, 25.4 mm) / 3":       169333333,
		"min(tuck, 3 in) + 0 in":             3 * unit.Inch,
		"seat depth * 19 / 16 - tuck":        75 * unit.Inch / 4,
		"1 in - 3 in":                        -2 * unit.Inch,
		"seat depth / (1 in) * 2 in - 39 in": unit.Inch,
	} {
		s := sizes{kind: k, known: map[string]unit.Length{"seat depth": 20 * unit.Inch}, busy: map[string]bool{}}
		v, err := s.formula(text)
		require.NoError(t, err, text)
		l, err := v.nanometres()
		require.NoError(t, err, text)
		assert.Equal(t, want, l, text)
	}
	for _, text := range []string{"", "2", "seat depth +", "seat depth * tuck", "seat", "loop", "(tuck", "tuck)", "3 in tuck", "tuck / 0", "2 / tuck", "max(tuck)", "tuck + 2", "tuck & tuck", "9999999999999 * tuck"} {
		s := sizes{kind: k, known: map[string]unit.Length{"seat depth": 20 * unit.Inch}, busy: map[string]bool{}}
		v, err := s.formula(text)
		if err == nil {
			_, err = v.nanometres()
		}
		assert.Error(t, err, text)
	}
}

// No text makes a formula panic or give a length that none of its parts explains.
func FuzzFormula(f *testing.F) {
	f.Add("seat depth - 1 1/4 in")
	f.Add("max(seat depth, 2 in) / 3")
	k := Kind{Measures: []Measure{{Name: "seat depth"}}}
	f.Fuzz(func(t *testing.T, text string) {
		work := func(depth unit.Length) (unit.Length, error) {
			s := sizes{kind: k, known: map[string]unit.Length{"seat depth": depth}, busy: map[string]bool{}}
			v, err := s.formula(text)
			if err != nil {
				return 0, err
			}
			return v.nanometres()
		}
		a, err := work(20 * unit.Inch)
		b, again := work(20 * unit.Inch)
		if a != b || (err == nil) != (again == nil) {
			t.Fatalf("%q: %v, then %v", text, a, b)
		}
		if c, err := work(21 * unit.Inch); err == nil && c != a && !strings.Contains(text, "seat depth") {
			t.Fatalf("%q: %v, then %v", text, a, c)
		}
	})
}
