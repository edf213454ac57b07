package pages

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// Result is what a sum by hand comes to, as it is written.
type Result struct {
	Value float64
	Half  float64 // half a unit of the last place that is written, 0 where it is exact
	Unit  string
}

// Is tells whether a text has the result in it: a number that rounds to it, in
// the same unit.
func (r Result) Is(text string) bool {
	for _, m := range amount.FindAllStringSubmatch(text, -1) {
		v, _, err := number(m[1])
		if err == nil && math.Abs(v-r.Value) <= r.Half+1e-9*math.Max(1, math.Abs(v)) && (r.Unit == "" || m[2] == r.Unit) {
			return true
		}
	}
	return false
}

const numeral = `\d+ \d+/\d+|(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?`

var (
	amount  = regexp.MustCompile(`(-?(?:\d+/\d+|` + numeral + `)) ?(%|°|[A-Za-z]+[²³]?(?:/[A-Za-z]+[²³]?)?)?`)
	lexemes = regexp.MustCompile(`^(?:` + numeral + `|[\p{L}_][\p{L}\d_₀₁₂₃₄₅₆₇₈₉']*|.)`)
)

// Work goes through a block of sums. Each line has one or more, set apart by
// "; ":
//
//	w = 24 in; h = 3 in
//	R = w² / (8 h) + h / 2 = 576 / 24 + 1.5 = 25.5 in
//	s = √2 R ≈ 36.06 in
//
// All parts of a sum must come to the same. What stands after ≈ is rounded to the
// places that it shows. A name stands from then on for what is written last. Side
// by side means times; + - × / ^, powers ² and ³, √, brackets, ⌈up⌉, ⌊down⌋, π, 30°,
// 15 %, mixed fractions and sin, cos, tan, asin, acos, atan, ln, Φ, min, max are known. A
// word behind a number, not named before, is a unit, which sums do not look at. Work
// gives the last result.
func Work(block string) (Result, error) {
	names := map[string]float64{"π": math.Pi}
	var last Result
	for line := range strings.Lines(strings.TrimSpace(block)) {
		for sum := range strings.SplitSeq(strings.TrimSpace(line), "; ") {
			r, err := worked(sum, names)
			if err != nil {
				return Result{}, fmt.Errorf("%s: %w", sum, err)
			}
			last = r
		}
	}
	return last, nil
}

// worked checks one sum and gives its result, which the name gets.
func worked(sum string, names map[string]float64) (Result, error) {
	sides := regexp.MustCompile(` ([=≈]) `).FindAllStringSubmatchIndex(sum, -1)
	if len(sides) == 0 {
		return Result{}, errors.New("says nothing")
	}
	name := strings.TrimSpace(sum[:sides[0][0]])
	var values []float64
	for i, at := range sides {
		end := len(sum)
		if i+1 < len(sides) {
			end = sides[i+1][0]
		}
		v, err := evaluate(sum[at[1]:end], names)
		if err != nil {
			return Result{}, err
		}
		values = append(values, v)
	}
	final := sides[len(sides)-1]
	m := amount.FindStringSubmatch(strings.TrimSpace(sum[final[1]:]))
	if m == nil {
		return Result{}, errors.New("ends in no number")
	}
	r := Result{Unit: m[2]}
	_, place, err := number(m[1])
	if err != nil {
		return Result{}, err
	}
	r.Value, _, _ = number(m[1]) //nolint:errcheck // just read
	if r.Unit == "°" || r.Unit == "%" {
		place = scaled(place, r.Unit)
	}
	tolerance := 0.0
	if strings.Contains(sum[final[0]:final[1]], "≈") {
		tolerance = place / 2
		r.Half = tolerance
		if r.Unit == "°" || r.Unit == "%" {
			_, whole, _ := number(m[1]) //nolint:errcheck // just read
			r.Half = whole / 2
		}
	}
	got := values[len(values)-1]
	for _, v := range values {
		if math.Abs(v-got) > tolerance*(1+1e-9)+1e-9*math.Max(1, math.Abs(got)) {
			return Result{}, fmt.Errorf("%g is not %g", v, got)
		}
	}
	if _, again := names[name]; again {
		return Result{}, fmt.Errorf("%s is known already", name)
	}
	names[name] = got
	return r, nil
}

func scaled(v float64, sign string) float64 {
	if sign == "°" {
		return v * math.Pi / 180
	}
	return v / 100
}

// number reads a whole, decimal or mixed number, and gives the value of its last
// place.
func number(text string) (value, place float64, err error) {
	sign := 1.0
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		text, sign = rest, -1
	}
	whole, fraction, mixed := strings.Cut(text, " ")
	if !mixed && strings.Contains(text, "/") {
		whole, fraction, mixed = "0", text, true
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(whole, ",", ""), 64)
	if err != nil {
		return 0, 0, err
	}
	if !mixed {
		_, decimals, _ := strings.Cut(whole, ".")
		return sign * v, math.Pow10(-len(decimals)), nil
	}
	over, under, _ := strings.Cut(fraction, "/")
	a, err := strconv.ParseFloat(over, 64)
	if err != nil {
		return 0, 0, err
	}
	b, err := strconv.ParseFloat(under, 64)
	if err != nil || b == 0 {
		return 0, 0, fmt.Errorf("%q is no fraction", fraction)
	}
	return sign * (v + a/b), 1 / b, nil
}

// reader reads an expression, token by token.
type reader struct {
	tokens []string
	names  map[string]float64
}

func evaluate(text string, names map[string]float64) (float64, error) {
	r := &reader{names: names}
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimLeft(text, " ") {
		t := lexemes.FindString(text)
		r.tokens = append(r.tokens, t)
		text = text[len(t):]
	}
	v, err := r.terms()
	if err != nil {
		return 0, err
	}
	// What is left is the unit, such as in, °, ft².
	for _, t := range r.tokens {
		if !unicode.IsLetter([]rune(t)[0]) && t != "/" && t != "²" && t != "³" {
			return 0, fmt.Errorf("%q is not understood", strings.Join(r.tokens, " "))
		}
	}
	return v, nil
}

func (r *reader) next() string {
	if len(r.tokens) == 0 {
		return ""
	}
	return r.tokens[0]
}

func (r *reader) take(one ...string) string {
	for _, t := range one {
		if r.next() == t {
			r.tokens = r.tokens[1:]
			return t
		}
	}
	return ""
}

func (r *reader) terms() (float64, error) {
	v, err := r.factors()
	for err == nil {
		var w float64
		switch r.take("+", "-") {
		case "+":
			w, err = r.factors()
			v += w
		case "-":
			w, err = r.factors()
			v -= w
		default:
			return v, nil
		}
	}
	return v, err
}

func (r *reader) factors() (float64, error) {
	v, err := r.signed()
	for err == nil {
		var w float64
		switch {
		case r.take("×", "·") != "":
			w, err = r.signed()
			v *= w
		case r.next() == "/" && !r.unitAt(1):
			r.take("/")
			w, err = r.signed()
			v /= w
		case r.begins():
			w, err = r.power()
			v *= w
		default:
			return v, nil
		}
	}
	return v, err
}

// unitAt tells whether a token is a word that nobody named.
func (r *reader) unitAt(i int) bool {
	if i >= len(r.tokens) || !unicode.IsLetter([]rune(r.tokens[i])[0]) {
		return false
	}
	_, named := r.names[r.tokens[i]]
	return !named && functions[r.tokens[i]] == nil
}

// begins tells whether a factor begins here without a sign of times.
func (r *reader) begins() bool {
	t := r.next()
	if t == "" || r.unitAt(0) {
		return false
	}
	c := []rune(t)[0]
	return unicode.IsLetter(c) || unicode.IsDigit(c) || strings.ContainsRune("(√⌈⌊", c)
}

func (r *reader) signed() (float64, error) {
	if r.take("-") != "" {
		v, err := r.power()
		return -v, err
	}
	return r.power()
}

func (r *reader) power() (float64, error) {
	v, err := r.atom()
	for err == nil {
		switch r.take("²", "³", "^", "°", "%") {
		case "²":
			v *= v
		case "³":
			v *= v * v
		case "^":
			var w float64
			w, err = r.signed()
			v = math.Pow(v, w)
		case "°":
			v = scaled(v, "°")
		case "%":
			v = scaled(v, "%")
		default:
			return v, nil
		}
	}
	return v, err
}

var functions = map[string]func(...float64) float64{
	"sin": one(math.Sin), "cos": one(math.Cos), "tan": one(math.Tan),
	"asin": one(math.Asin), "acos": one(math.Acos), "atan": one(math.Atan), "ln": one(math.Log),
	"Φ":   one(func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }),
	"min": func(v ...float64) float64 { return extreme(v, math.Min) },
	"max": func(v ...float64) float64 { return extreme(v, math.Max) },
}

func one(f func(float64) float64) func(...float64) float64 {
	return func(v ...float64) float64 { return f(v[0]) }
}

func extreme(v []float64, f func(a, b float64) float64) float64 {
	e := v[0]
	for _, w := range v {
		e = f(e, w)
	}
	return e
}

func (r *reader) atom() (float64, error) {
	t := r.next()
	if t == "" {
		return 0, errors.New("a number is missing")
	}
	r.tokens = r.tokens[1:]
	switch t {
	case "(":
		return r.inside(")")
	case "⌈":
		v, err := r.inside("⌉")
		return math.Ceil(v - 1e-9), err
	case "⌊":
		v, err := r.inside("⌋")
		return math.Floor(v + 1e-9), err
	case "√":
		v, err := r.power()
		return math.Sqrt(v), err
	}
	if unicode.IsDigit([]rune(t)[0]) {
		v, _, err := number(t)
		return v, err
	}
	if f := functions[t]; f != nil {
		return r.call(f)
	}
	if v, ok := r.names[t]; ok {
		return v, nil
	}
	return 0, fmt.Errorf("%q is not known", t)
}

func (r *reader) inside(closing string) (float64, error) {
	v, err := r.terms()
	if err == nil && r.take(closing) == "" {
		err = fmt.Errorf("%s is missing", closing)
	}
	return v, err
}

// call takes the arguments of a function in brackets, or one factor without.
func (r *reader) call(f func(...float64) float64) (float64, error) {
	if r.take("(") == "" {
		v, err := r.power()
		return f(v), err
	}
	var args []float64
	for {
		v, err := r.terms()
		if err != nil {
			return 0, err
		}
		args = append(args, v)
		if r.take(",") == "" {
			break
		}
	}
	if r.take(")") == "" {
		return 0, errors.New(") is missing")
	}
	return f(args...), nil
}
