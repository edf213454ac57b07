package reference

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/unit/cite"
)

// Value is what an evaluator computes: numbers in the row's unit, or text.
type Value struct {
	numbers []float64
	text    string
	bases   []cite.Basis
}

// On says what the called calculator says of its own footing, where it does:
// the basis of every figure that the value rests on.
func (v Value) On(bases ...cite.Basis) Value {
	v.bases = append(slices.Clone(v.bases), bases...)
	return v
}

// Numbers is a value of one or more numbers.
func Numbers(x ...float64) Value { return Value{numbers: x} }

// Text is a value to be compared letter by letter, such as an exact amount of
// money or true and false.
func Text(s string) Value { return Value{text: s} }

// Evaluator computes our value for a row. It calls the public API of its
// package with the row's inputs and does no arithmetic of its own beyond
// unit conversion of the result.
type Evaluator func(in *Inputs, unit string) (Value, error)

// Suite is the check table of one package.
type Suite struct {
	Package    string
	Rows       []Row
	Evaluators map[string]Evaluator
	Cells      []string          // quantities that are read out of a table of ours; all others are computed
	Why        map[string]string // by quantity: why its figures of our own rest on nothing outside
}

// Result is a row with our value beside the expected one.
type Result struct {
	ID        string      `json:"id"`
	Package   string      `json:"package"`
	Quantity  string      `json:"quantity"`
	Inputs    string      `json:"inputs"`
	Expected  string      `json:"expected"`
	Got       string      `json:"got"`
	Unit      string      `json:"unit"`
	Tolerance string      `json:"tolerance"`
	Deviation string      `json:"deviation"`
	OK        bool        `json:"ok"`
	Status    cite.Status `json:"status"`
	Strength  Strength    `json:"strength"`
	Why       string      `json:"why,omitempty"` // why nothing outside speaks for it
	Basis     cite.Status `json:"basis"`         // the worst that the called calculator says of itself, none where it says nothing
	Source    string      `json:"source"`
	Note      string      `json:"note,omitempty"`
}

// Summary counts the rows.
type Summary struct {
	Rows       int            `json:"rows"`
	Failed     int            `json:"failed"`
	ByStatus   map[string]int `json:"by_status"`
	ByStrength map[string]int `json:"by_strength"`
	ByPackage  map[string]int `json:"by_package"`
	Sources    int            `json:"sources"` // distinct documents that rows name
}

// Of counts the rows of some strengths.
func (s Summary) Of(strengths ...Strength) int {
	n := 0
	for _, st := range strengths {
		n += s.ByStrength[st.String()]
	}
	return n
}

// Report is the whole check table, evaluated.
type Report struct {
	Rows    []Result `json:"rows"`
	Summary Summary  `json:"summary"`
}

// Run evaluates every row of every suite, in order.
func Run(suites []Suite) Report {
	rep := Report{Rows: []Result{}, Summary: Summary{ByStatus: map[string]int{}, ByStrength: map[string]int{}, ByPackage: map[string]int{}}}
	for _, st := range cite.Statuses() {
		rep.Summary.ByStatus[st.String()] = 0
	}
	for _, st := range Strengths() {
		rep.Summary.ByStrength[st.String()] = 0
	}
	sources := map[string]bool{}
	for _, s := range suites {
		for _, row := range s.Rows {
			r := evaluate(row, s.Evaluators[row.Quantity])
			r.Strength = strengthOf(row, slices.Contains(s.Cells, row.Quantity))
			r.Why = why(r, s.Why[row.Quantity])
			rep.Rows = append(rep.Rows, r)
			rep.Summary.Rows++
			rep.Summary.ByStatus[row.Status.String()]++
			rep.Summary.ByStrength[r.Strength.String()]++
			rep.Summary.ByPackage[row.Package]++
			if row.Source != "" {
				sources[row.Source] = true
			}
			if !r.OK {
				rep.Summary.Failed++
			}
		}
	}
	rep.Summary.Sources = len(sources)
	return rep
}

func evaluate(row Row, ev Evaluator) Result {
	res := Result{ID: row.ID, Package: row.Package, Quantity: row.Quantity, Inputs: row.Inputs, Expected: row.Expected,
		Unit: row.Unit, Tolerance: row.Tolerance, Status: row.Status, Source: row.Source, Note: row.Note}
	if ev == nil {
		res.Got = "no evaluator for " + row.Quantity
		return res
	}
	in := ParseInputs(row.Inputs)
	v, err := ev(in, row.Unit)
	if err == nil {
		err = in.Err()
	}
	if err != nil {
		res.Got = "error: " + err.Error()
		if readErr := in.Err(); readErr != nil {
			res.Got = "error: " + readErr.Error()
		}
		return res
	}
	res.Got, res.Deviation, res.OK = compare(row, v)
	for _, b := range v.bases {
		res.Basis = max(res.Basis, b.Status) // the statuses stand in their order, the worst last
	}
	return res
}

// compare gives our value as text, the largest deviation and the verdict. The
// deviation is that of the digits shown, so that the last bit of a machine does
// not change the page.
func compare(row Row, v Value) (got, deviation string, ok bool) {
	if v.numbers == nil {
		if row.Tolerance != "exact" {
			return v.text, "", false
		}
		return v.text, "", v.text == row.Expected
	}
	texts := make([]string, len(v.numbers))
	for i, x := range v.numbers {
		texts[i] = strconv.FormatFloat(x, 'g', 12, 64)
	}
	got = strings.Join(texts, ";")
	want := strings.Split(row.Expected, ";")
	if len(want) != len(v.numbers) {
		return got, "", false
	}
	ok = true
	worst := 0.0
	for i, w := range want {
		x, err := strconv.ParseFloat(strings.TrimSpace(w), 64)
		if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
			return got, "", false
		}
		d := math.Abs(v.numbers[i] - x)
		limit, err := tolerance(row.Tolerance, x)
		if err != nil || math.IsNaN(d) || d > limit {
			ok = false
		}
		shown, _ := strconv.ParseFloat(texts[i], 64) //nolint:errcheck // written above
		worst = math.Max(worst, math.Abs(shown-x))
	}
	return got, strconv.FormatFloat(worst, 'g', 3, 64), ok
}

// tolerance gives the limit of |ours - expected|. A tolerance of 0 still
// allows the last bit of float64 arithmetic.
func tolerance(s string, expected float64) (float64, error) {
	if s == "exact" {
		s = "0"
	}
	num, relative := strings.CutSuffix(s, "%")
	x, err := strconv.ParseFloat(strings.TrimSpace(num), 64)
	if err != nil || !(x >= 0) || math.IsInf(x, 0) { // a NaN would let every value pass
		return 0, fmt.Errorf("tolerance %q", s)
	}
	if relative {
		x *= math.Abs(expected) / 100
	}
	return x + 4e-16*math.Abs(expected), nil
}

// Faults lists what is wrong with the table itself, apart from values: rows
// without evaluator, evaluators and cells without row, doubled ids, sources
// without row, suites without rows.
func Faults(suites []Suite) []string {
	var out []string
	ids := map[string]bool{}
	used := map[string]bool{}
	for _, s := range suites {
		if len(s.Rows) == 0 {
			out = append(out, "package "+s.Package+": no rows")
		}
		quantities := map[string]bool{}
		for _, r := range s.Rows {
			if ids[r.ID] {
				out = append(out, "row "+r.ID+": id stands twice")
			}
			ids[r.ID] = true
			quantities[r.Quantity] = true
			used[r.Source] = true
			if s.Evaluators[r.Quantity] == nil {
				out = append(out, "row "+r.ID+": no evaluator for "+r.Quantity)
			}
		}
		for _, q := range sortedKeys(s.Evaluators) {
			if !quantities[q] {
				out = append(out, "package "+s.Package+": no row uses evaluator "+q)
			}
		}
		for _, q := range s.Cells {
			if !quantities[q] {
				out = append(out, "package "+s.Package+": no row uses cell "+q)
			}
		}
	}
	for _, src := range cite.Sources() {
		if !used[src.Key] {
			out = append(out, "source "+src.Key+": no row uses it")
		}
	}
	return out
}
