package table

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// want holds what each example must give, worked out by hand from exact
// definitions, or marked as a figure of the library's own tables whose value
// the check rows of internal/dev/reference hold.
var want = map[string]any{
	"APILEVEL":    float64(Level),
	"VERSIONTEXT": Version,

	"READLENGTHIN":    25.625,
	"READLENGTHMM":    1.5 * 914.4,
	"READAREASQFT":    27.0,
	"READTHICKNESSMM": 3 * 25.4 / 64,
	"FRACTIONTEXT":    "25 5/8 in",
	"FEETINCHTEXT":    `2' 1 5/8"`,
	"ROUNDUPIN":       25.625,
	"INTOMM":          25.625 * 25.4,
	"MMTOIN":          652 / 25.4,
	"YDTOM":           14.5 * 0.9144,
	"MTOYD":           3.2 / 0.9144,
	"SQFTTOSQDM":      50 * 9.290304,
	"SQDMTOSQFT":      450 / 9.290304,
	"OZTOMM":          3 * 25.4 / 64,
	"MMTOOZ":          1.1 * 64 / 25.4,
	"MARKEDAREASQFT":  50.75,

	"ALLOWANCEIN":        0.5, // half an inch, the table of finishes
	"ALLOWANCEBASISTEXT": nil, // a text of the library
	"CUTSIZEIN":          23 + 0.5 + 3.0,
	"CUTFORFINISHIN":     24.5 + 0.5 + 0.5, // with the 1/2 in of both finishes
	"LEATHERSEAMIN":      20 * (1 - 0.25/10),
	"STRETCHPERCENT":     100 * 0.25 / 10.25,
	"EASEPERCENT":        2.5,
	"EASETEXT":           "gather",
	"EASEMARKSIN":        []float64{10, 20, 30},
	"WELTSTRIPIN":        1.5, // pi x 5/32 + 1 = 1.49, up to an eighth
	"DOUBLEWELTSTRIPIN":  3.0,
	"WELTCUTIN":          180 + 3*1.5, // 2 x (88 + 2), four strips of 53 in, three joins
	"BOXINGWIDTHIN":      4 + 2*0.5,
	"BOXINGLENGTHIN":     88 + 2*2*0.5,            // two pieces
	"BOXINGJOINSIN":      []float64{22, 66},       // two pieces of 44 in, one over the front
	"BIASLENGTHIN":       16 * 35.5 * math.Sqrt2,  // 35.5 / (1.5 x root 2) = 16.7
	"BIASSQUAREIN":       10*1.5*math.Sqrt2 + 0.5, // n = root of 100
	"TUFTSPACINGIN":      10.0,
	"TUFTCUTWIDTHIN":     4*(8+4) + 2.0,
	"TUFTCUTHEIGHTIN":    4*(5+4) + 2.0,
	"TUFTBUTTONS":        5*4 + 4*5.0, // tops and sides of the diamonds
	"CHANNELCOVERIN":     math.Pi * 2,
	"PLEATCLOTHIN":       48 + 12*2*2*2.0,
	"RINGIN":             math.Pi * 18,
	"BOLSTERGIRTHIN":     math.Pi*8 + 1,

	"SUMAREASQFT":         8 + 9.0,
	"BUYAREASQFT":         100.0,
	"HIDESTOBUY":          2.0,
	"LEATHERFORCLOTHSQFT": 18.0,
	"REPEATLENGTHIN":      54.0,
	"YARDAGEYD":           2.25, // one back of 31 in at 0, one at 27, small pieces beside them; the last ends at 54 + 22 = 76 in
	"WIDTHBYCHARTYD":      2.75, // a row of the chart
	"WIDTHBYAREAYD":       9.0,
	"PATTERNEDYD":         8 * 1.2,
	"NAILCOUNT":           54 + 40 + 1.0,         // (24 - 0.21875) / 0.4375 = 54.4 and (18 - 0.21875) / 0.4375 = 40.6: an end starts with a whole head
	"WEBBINGIN":           5*(20+6) + 5*(22+6.0), // 21 / 4.5 and 19 / 4.5, rounded up
	"ZIPCHAININ":          110 + 3*2.0,

	"THREADSIZE":        92.0,
	"THREADTEX":         1380.0 / 9,
	"COUNTTOTEX":        840.0 / 9,
	"TEXTOCOUNT":        30.0,
	"THREADFORTEXT":     nil,
	"NEEDLEFORTEXT":     nil,
	"NEEDLESTEXT":       nil,
	"STITCHLENGTHMM":    25.4 / 8,
	"THREADUSEYD":       88 * (2 + 2*(2/25.4)*6) / 36,
	"CONELENGTHYD":      4 * 28.349523125 / (920.0 / 9) * 1000 / 0.9144,
	"SEAMSTRENGTHLBFIN": nil,

	"BOARDFEET":             24 * 24 * 4 * 2 / 144.0,
	"FOAMDENSITYPCF":        2.5 / (24 * 24 * 4 / 1728.0),
	"FOAMMASSLB":            2.8 * 24 * 24 * 4 / 1728,
	"SHEETTHICKNESSIN":      4.0,
	"SUPPORTFACTOR":         2.4,
	"ILDLOWLBF":             nil,
	"ILDHIGHLBF":            nil,
	"ILDTARGETLBF":          nil,
	"FOAMDENSITYLOWPCF":     nil,
	"SINKIN":                4 * (0.25 + 0.4*math.Log(0.75*180*50/(math.Pi*math.Pow(360/25.4, 2)/4)/35)/math.Log(80/35.0)),
	"BOTTOMSOUT":            0.0,
	"MARKUPCENTS":           12500.0,
	"MARGINCENTS":           12500.0,
	"MARGINPERCENT":         20.0,
	"MARKUPPERCENT":         25.0,
	"MARKUPTOMARGINPERCENT": 20.0,
	"MARGINTOMARKUPPERCENT": 25.0,
	"SHOPRATECENTS":         6455.0,  // (31.30 + 20.34) / 0.8
	"LABOURCENTS":           61323.0, // 9.5 x 64.55 = 613.225
	"LEARNINGHOURS":         1 + 0.95 + math.Pow(3, math.Log2(0.95)) + 0.9025 + math.Pow(5, math.Log2(0.95)) + math.Pow(6, math.Log2(0.95)),
	"TAXCENTS":              772.0, // 771.56
	"TAXINSIDECENTS":        2000.0,
	"ROUNDCENTS":            2000.0,
	"ALLOCATECENTS":         []float64{3334, 3333, 3333},
	"SPLITCENTS":            []float64{5001, 5000},
	"GOODSCENTS":            2.25 * 6800, // one back of 31 in at 0, one at 27, small pieces beside them; the last ends at 54 + 22 = 76 in
}

func TestEveryExampleGivesWhatItMust(t *testing.T) {
	for i := range Functions() {
		f := &Functions()[i]
		t.Run(f.Name(), func(t *testing.T) {
			r, bad := f.Call(f.Example)
			require.Nil(t, bad)
			assert.Equal(t, f.Result, r.Kind)
			w, ok := want[f.Name()]
			require.True(t, ok, "the table of this test has no row for it")
			switch x := w.(type) {
			case float64:
				if f.Unit == "cents" {
					assert.Equal(t, x, r.Number)
				}
				assert.InEpsilon(t, 1+x, 1+r.Number, 1e-5) // sink is rounded to a micrometre, the rest closer
			case string:
				assert.Equal(t, x, r.Text)
			case []float64:
				require.Len(t, r.Column, len(x))
				for k := range x {
					assert.InDelta(t, x[k], r.Column[k], 1e-9)
				}
			default:
				t.Logf("%v %q", r.Number, r.Text)
			}
		})
	}
	assert.Len(t, want, len(Functions()), "a row without a function")
	assert.GreaterOrEqual(t, len(Functions()), 45)
}

func TestEveryErrorOfTheTableIsGiven(t *testing.T) {
	for i := range Functions() {
		f := &Functions()[i]
		for _, b := range f.Bad {
			_, bad := f.Call(b.Args)
			if assert.NotNil(t, bad, "%s %v", f.Name(), b.Args) {
				assert.Equal(t, b.Code, bad.Code, "%s %v: %s", f.Name(), b.Args, bad.Message)
				assert.NotEmpty(t, bad.Message)
			}
		}
		assert.Contains(t, f.Codes(), Value, f.Name())
	}
}

func TestNamesFitEverySpreadsheet(t *testing.T) {
	seen := map[string]bool{}
	for i := range Functions() {
		f := &Functions()[i]
		assert.Regexp(t, `^[a-z][a-zA-Z0-9]*$`, f.Method)
		assert.False(t, seen[f.Name()], f.Name())
		seen[f.Name()] = true
		assert.LessOrEqual(t, len(Prefix)+1+len(f.Name()), 64)
		assert.LessOrEqual(t, len(f.Args), 8)
		assert.NotEmpty(t, f.Group)
		assert.True(t, strings.HasSuffix(f.Help, ".") || strings.HasSuffix(f.Help, ")"), f.Help)
		optional := false
		for _, a := range f.Args {
			assert.Regexp(t, `^[a-z][a-z0-9]*(_[a-z0-9]+)*$`, a.Name)
			assert.NotEmpty(t, a.Help, f.Name())
			assert.False(t, optional && !a.Optional(), "%s: optional arguments come last", f.Name())
			optional = a.Optional()
		}
	}
}

// units are the suffixes of arguments and results that have a unit.
var units = []string{"in", "mm", "yd", "m", "sqft", "sqdm", "oz", "tex", "lb", "lbf", "pcf", "cents", "hours", "percent", "hide"}

func TestNumbersCarryTheirUnit(t *testing.T) {
	// Names of plain counts, by what they count.
	plain := []string{"across", "down", "count", "parts", "layers", "stitch", "pieces", "weights"}
	for i := range Functions() {
		for _, a := range Functions()[i].Args {
			if a.Kind == Text || slices.Contains(plain, a.Name) {
				continue
			}
			parts := strings.Split(a.Name, "_")
			assert.Contains(t, units, parts[len(parts)-1], "%s %s", Functions()[i].Name(), a.Name)
		}
	}
}

func TestOutOfPlaceValuesAreRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		args []any
		want Code
	}{
		{"BOARDFEET", []any{1.0, 1.0, 1.0, 1.0, 1.0}, Value},
		{"BOARDFEET", []any{1.0, nil, 1.0}, Value},
		{"BOARDFEET", []any{1.0, true, 1.0}, Value},
		{"BOARDFEET", []any{1.0, "1", 1.0}, Value},
		{"BOARDFEET", []any{1.0, [][]any{{1.0}}, 1.0}, Value},
		{"BOARDFEET", []any{math.Inf(1), 1.0, 1.0}, Num},
		{"BOARDFEET", []any{math.NaN(), 1.0, 1.0}, Num},
		{"BOARDFEET", []any{1e300, 1.0, 1.0}, Num},
		{"BOARDFEET", []any{1.0, 1.0, 1.0, 1.5}, Num},
		{"READLENGTHIN", []any{1.5}, Value},
		{"READLENGTHIN", []any{strings.Repeat("9", 40_000) + " in"}, Value},
		{"SUMAREASQFT", []any{[][]any{{1.0, 1.0, 1.0, 1.0}}}, Value},
		{"SUMAREASQFT", []any{[][]any{{math.NaN(), 1.0, 1.0}}}, Num},
		{"SUMAREASQFT", []any{[][]any{{"", nil, " "}}}, Value},
		{"SUMAREASQFT", []any{[][]any{{true, 1.0, 1.0}}}, Value},
		{"SUMAREASQFT", []any{make([][]any, MostRows+1)}, Value},
		{"nosuch", nil, Name},
	} {
		_, bad := Call(c.name, c.args)
		if assert.NotNil(t, bad, "%s %v", c.name, c.args) {
			assert.Equal(t, c.want, bad.Code, "%s: %s", c.name, bad.Message)
		}
	}
	r, bad := Call("sumAreaSqft", []any{[][]any{{12.0, 12.0, 3.0, "", nil}, {"", nil, ""}, {nil, 5.0}}})
	require.Nil(t, bad)
	assert.Equal(t, 3.0, r.Number)
}

func TestAPanicIsAFault(t *testing.T) {
	f := &Function{Method: "boom", call: func(*args) (Result, error) { panic("boom") }}
	_, bad := f.Call(nil)
	require.NotNil(t, bad)
	assert.Equal(t, Value, bad.Code)
	f = &Function{Method: "huge", call: func(*args) (Result, error) { return number(math.Inf(1)), nil }}
	_, bad = f.Call(nil)
	require.NotNil(t, bad)
	assert.Equal(t, Num, bad.Code)
}

// Whatever comes in, a function gives a finite value or an error that its
// row names, and the same twice.
func TestFunctionsKeepToTheirRow(t *testing.T) {
	numbers := rapid.OneOf(
		rapid.SampledFrom([]float64{0, 1, 2, 0.5, -1, 4, 24, 54, 100, 1e-9, 1e9, 1e15, 1e300, -1e300, 5e-324}),
		rapid.Float64Range(0, 60), rapid.Float64())
	words := rapid.SampledFrom([]string{"", "leather", "woven", "seat", "heavy", "board", "25 5/8 in", "plain seam", "groove", "half-even", "nylon", "92", "up", "=1+1", "tex", "tenths"})
	cell := rapid.Custom(func(t *rapid.T) any {
		switch rapid.IntRange(0, 9).Draw(t, "cell") {
		case 0:
			return nil
		case 1:
			return words.Draw(t, "word")
		default:
			return numbers.Draw(t, "number")
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		f := &Functions()[rapid.IntRange(0, len(Functions())-1).Draw(t, "function")]
		values := slices.Clone(f.Example)
		for i := range values {
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0:
				values[i] = cell.Draw(t, "value")
			case 1:
				if f.Args[i].Kind == Range {
					values[i] = rapid.SliceOfN(rapid.SliceOfN(cell, 1, 4), 0, 4).Draw(t, "range")
				}
			}
		}
		r, bad := f.Call(values)
		again, badAgain := f.Call(values)
		if bad != nil {
			if !slices.Contains(f.Codes(), bad.Code) {
				t.Fatalf("%s %v gives %v, which its row does not name", f.Name(), values, bad)
			}
			if badAgain == nil || *badAgain != *bad {
				t.Fatalf("%s %v: %v, then %v", f.Name(), values, bad, badAgain)
			}
			return
		}
		if badAgain != nil || !assert.ObjectsAreEqual(r, again) {
			t.Fatalf("%s %v: %v, then %v", f.Name(), values, r, again)
		}
	})
}
