package table

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
	"STRETCHSHARE":       0.25 / 10.25,
	"EASESHARE":          0.025,
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

	"BOARDFEET":         24 * 24 * 4 * 2 / 144.0,
	"FOAMDENSITYPCF":    2.5 / (24 * 24 * 4 / 1728.0),
	"FOAMMASSLB":        2.8 * 24 * 24 * 4 / 1728,
	"SHEETTHICKNESSIN":  4.0,
	"SUPPORTFACTOR":     2.4,
	"ILDLOWLBF":         nil,
	"ILDHIGHLBF":        nil,
	"ILDTARGETLBF":      nil,
	"FOAMDENSITYLOWPCF": nil,
	"SINKIN":            4 * (0.25 + 0.4*math.Log(0.75*180*50/(math.Pi*math.Pow(360/25.4, 2)/4)/35)/math.Log(80/35.0)),
	"BOTTOMSOUT":        0.0,
	"MARKUPPRICE":       125.0,
	"MARGINPRICE":       125.0,
	"MARGINOF":          0.2,
	"MARKUPOF":          0.25,
	"MARKUPTOMARGIN":    0.2,
	"MARGINTOMARKUP":    0.25,
	"SHOPRATE":          64.55,  // (31.30 + 20.34) / 0.8
	"LABOURPRICE":       613.23, // 9.5 x 64.55 = 613.225
	"LEARNINGHOURS":     1 + 0.95 + math.Pow(3, math.Log2(0.95)) + 0.9025 + math.Pow(5, math.Log2(0.95)) + math.Pow(6, math.Log2(0.95)),
	"TAX":               7.72, // 7.7156
	"TAXINSIDE":         20.0,
	"DISCOUNT":          20.0,                                           // 19.999
	"DEPOSIT":           500.01,                                         // 500.005, half up
	"PRICELINE":         [][]any{{153.0, 206.55, 20.66, 15.34, 201.23}}, // 2.25 x 68; x 1.35; 20.655; 185.89 x 0.0825 = 15.336
	"ROUNDAMOUNT":       20.0,
	"ALLOCATE":          []float64{33.34, 33.33, 33.33},
	"SPLIT":             []float64{50.01, 50.0},
	"GOODSCOST":         2.25 * 68, // one back of 31 in at 0, one at 27, small pieces beside them; the last ends at 54 + 22 = 76 in

	"WHY": "thickness: “0 in”: out of range; want a length above zero",

	// 22 + 1 and 20 + 1; half the boxing of 84 in and the zip panel of 31 in, each with 1 in; 4/2 + 1/2 + 3/4.
	"CUSHIONCUTSIN":    [][]any{{"top plate", 23.0, 21.0, 1.0}, {"bottom plate", 23.0, 21.0, 1.0}, {"boxing", 84 - 31 + 1.0, 5.0, 1.0}, {"zip panel upper", 32.0, 3.25, 1.0}, {"zip panel lower", 32.0, 3.25, 1.0}},
	"CUSHIONFOAMIN":    [][]any{{22.5, 20.5, 4.0}}, // the snug take-up of 1/2 in
	"CUSHIONZIPIN":     32.0,                       // 31 in that open, 1/2 in at each end
	"CUSHIONSEWNYD":    242 / 36.0,
	"GATHERCLOTHIN":    96.0,
	"GATHEREDSKIRTIN":  [][]any{{"skirt", 192/4 + 1.0, 7 + 2.0, 4.0}}, // 192 in of 53; with 1/2 in and a hem of 1 1/2 in,
	"PLEATEDSKIRTIN":   [][]any{{"skirt", (96+24*4*2)/6 + 1.0, 9.0, 6.0}},
	"KICKPLEATSKIRTIN": [][]any{{"skirt panel", 30 + 9.0, 9.0, 2.0}, {"skirt panel", 32 + 9.0, 9.0, 2.0}, {"underlay", 9.0, 9.0, 4.0}},

	"HIDESBYLAYOUT":  1.0,
	"STAPLECOUNT":    25 + 20.0, // 24 steps and 19 steps
	"STAPLELEGIN":    0.375,     // 1/8 + 1/4
	"ZIPSLIDERS":     4.0,
	"BATTINGSQFT":    29 * 49 / 144.0,
	"BATTINGCROWNIN": 0.75, // 2 x 3/4 / 2
	"BATTINGCUTIN":   [][]any{{24 + 4 + 1.0, 22 + 22 + 4 + 1.0}},
}

func TestEveryExampleGivesWhatItMust(t *testing.T) {
	n := 0
	for i := range Functions() {
		f := &Functions()[i]
		if f.Of != "" {
			continue // TestATwinGivesTheSameInMetric
		}
		n++
		t.Run(f.Name(), func(t *testing.T) {
			r, bad := f.Call(f.Example)
			require.Nil(t, bad)
			assert.Equal(t, f.Result, r.Kind)
			w, ok := want[f.Name()]
			require.True(t, ok, "the table of this test has no row for it")
			switch x := w.(type) {
			case float64:
				if f.Result == Amount {
					assert.Equal(t, x, r.Number) //nolint:testifylint // to the last bit
				}
				assert.InEpsilon(t, 1+x, 1+r.Number, 1e-5) // sink is rounded to a micrometre, the rest closer
			case string:
				assert.Equal(t, x, r.Text)
			case []float64:
				require.Len(t, r.Column, len(x))
				for k := range x {
					assert.InDelta(t, x[k], r.Column[k], 1e-9)
				}
			case [][]any:
				sameGrid(t, x, r.Grid)
			default:
				t.Logf("%v %q", r.Number, r.Text)
			}
		})
	}
	assert.Len(t, want, n, "a row without a function")
}

func sameGrid(t *testing.T, want, got [][]any) {
	t.Helper()
	require.Len(t, got, len(want), "%v", got)
	for i := range want {
		require.Len(t, got[i], len(want[i]), "%v", got)
		for k, x := range want[i] {
			if y, ok := x.(float64); ok {
				assert.InEpsilon(t, 1+y, 1+got[i][k].(float64), 1e-5, "%v", got) //nolint:forcetypeassert // fails the test
				continue
			}
			assert.Equal(t, x, got[i][k], "%v", got)
		}
	}
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

// keywords of Python and of the interface description that a shop might use.
var keywords = []string{"yield", "in", "is", "as", "from", "with", "for", "pass", "class", "global", "raise", "return", "del", "lambda", "try", "any", "long", "short", "string", "module", "service", "property", "out", "get", "set", "type", "union"}

func TestNamesFitEverySpreadsheet(t *testing.T) {
	seen := map[string]bool{}
	for i := range Functions() {
		f := &Functions()[i]
		assert.Regexp(t, `^[a-z][a-zA-Z0-9]*$`, f.Method)
		assert.False(t, seen[f.Name()], f.Name())
		seen[f.Name()] = true
		assert.LessOrEqual(t, len(Prefix)+1+len(f.Name()), 64)
		if f.Method != whyMethod {
			assert.LessOrEqual(t, len(f.Args), MostArgs)
		}
		assert.NotEmpty(t, f.Group)
		assert.True(t, strings.HasSuffix(f.Help, ".") || strings.HasSuffix(f.Help, ")"), f.Help)
		optional := false
		for _, a := range f.Args {
			assert.Regexp(t, `^[a-z][a-z0-9]*(_[a-z0-9]+)*$`, a.Name)
			assert.NotContains(t, keywords, a.Name, "%s: a word of the languages of the add-in", f.Name())
			assert.NotEmpty(t, a.Help, f.Name())
			assert.False(t, optional && !a.Optional(), "%s: optional arguments come last", f.Name())
			optional = a.Optional()
		}
	}
}

func TestNumbersCarryTheirUnit(t *testing.T) {
	// Names of plain counts and factors, by what they count.
	plain := []string{"across", "down", "count", "parts", "layers", "stitch", "weights", "stitches_per_inch", "count_tex", "quantity", "fullness"}
	for i := range Functions() {
		f := &Functions()[i]
		for _, a := range f.Args {
			if (a.Kind == Number || a.Kind == Range) && !slices.Contains(plain, a.Name) {
				assert.NotEmpty(t, a.UnitName(), "%s %s", f.Name(), a.Name)
			}
		}
		if m, ok := metricResults[f.Unit]; ok && !f.alone && f.Of == "" {
			assert.NotEmpty(t, f.Twin, f.Name())
			assert.True(t, strings.HasSuffix(f.Method, m.ending), "%s gives %s", f.Method, f.Unit)
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
		{"BOARDFEET", []any{1.0, [][]any{{1.0, 2.0}, {1.0, 2.0}}, 1.0}, Value},
		{"BOARDFEET", []any{1.0, [][]any{}, 1.0}, Value},
		{"BOARDFEET", []any{[][]any{{1.0}, {2.0}}, [][]any{{1.0}, {2.0}, {3.0}}, 1.0}, Value},
		{"BOARDFEET", []any{[][]any{{1.0}, {2.0}}, [][]any{{1.0, 2.0}}, 1.0}, Value},
		{"EASEMARKSIN", []any{40.0, 41.0, [][]any{{10.0}, {5.0}}}, Value},
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
		{"SUMAREASQFT", []any{[][]any{{1.0, 1.0, "2 in"}}}, Value},
		{"SUMAREASQFT", []any{[][]any{{1.0, "1", 2.0}}}, Value},
		{"ALLOCATE", []any{1.0, [][]any{{"1 in"}}}, Value},
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

// A panic does not end the program behind a sheet, but it is told apart, so
// that the laws find it.
func TestAPanicIsAnInternalFault(t *testing.T) {
	f := &Function{Method: "boom", Result: Number, call: func(*args) (Result, error) { panic("boom") }}
	_, bad := f.Call(nil)
	require.NotNil(t, bad)
	assert.Equal(t, Value, bad.Code)
	assert.True(t, bad.Internal)
	assert.Contains(t, bad.Message, "internal fault in BOOM: boom")
	f = &Function{Method: "huge", Result: Number, call: func(*args) (Result, error) { return number(math.Inf(1)), nil }}
	_, bad = f.Call(nil)
	require.NotNil(t, bad)
	assert.Equal(t, Num, bad.Code)
	assert.False(t, bad.Internal)
}
