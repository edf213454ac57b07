package kind

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// A formula has lengths such as 1 1/4 in, whole numbers, names of measures, + - *
// /, brackets, and min and max of two. What it gives is a length or a plain
// number.

// value is a number of nanometres, or a plain one.
type value struct {
	n      *big.Rat
	length bool
}

var tokens = regexp.MustCompile(`^(?:(\d+(?: \d+/\d+|/\d+|\.\d+)? (?:in|mm))\b|(\d+)|([a-z][a-z ]*[a-z]|[a-z])|([-+*/(),]))`)

var errFormula = errors.New("not a formula")

// sizes works measures out.
type sizes struct {
	kind   Kind
	known  map[string]unit.Length
	busy   map[string]bool
	faults []error
}

func (s *sizes) fail(name string, err error) {
	if err != nil {
		s.faults = append(s.faults, unit.InField(unit.Path("measures").Dot(unit.Path(name)), err))
	}
}

func (s *sizes) err() error { return errors.Join(s.faults...) }

// length gives one measure.
func (s *sizes) length(name string) (unit.Length, error) {
	if l, ok := s.known[name]; ok {
		return l, nil
	}
	i := slices.IndexFunc(s.kind.Measures, func(m Measure) bool { return m.Name == name })
	if i < 0 || s.busy[name] {
		return 0, fmt.Errorf("%w: no measure %q", errFormula, name)
	}
	if s.kind.Measures[i].Usual == "" {
		return 0, check.Required("", "this measure")
	}
	s.busy[name] = true
	defer delete(s.busy, name)
	v, err := s.formula(s.kind.Measures[i].Usual)
	if err != nil {
		return 0, err
	}
	l, err := v.nanometres()
	if err == nil {
		s.known[name] = l
	}
	return l, err
}

// formula works out a text.
func (s *sizes) formula(text string) (value, error) {
	p := parser{sizes: s, text: text}
	for rest := strings.TrimSpace(text); rest != ""; {
		m := tokens.FindStringSubmatch(rest)
		if m == nil {
			return value{}, fmt.Errorf("%w: %q", errFormula, text)
		}
		p.tokens = append(p.tokens, m)
		rest = strings.TrimSpace(rest[len(m[0]):])
	}
	v, err := p.sum()
	if err == nil && len(p.tokens) > 0 {
		err = fmt.Errorf("%w: %q", errFormula, text)
	}
	return v, err
}

type parser struct {
	*sizes
	text   string
	tokens [][]string
}

// sign takes the next token if it is one of some signs.
func (p *parser) sign(of string) string {
	if len(p.tokens) == 0 || p.tokens[0][4] == "" || !strings.Contains(of, p.tokens[0][4]) {
		return ""
	}
	out := p.tokens[0][4]
	p.tokens = p.tokens[1:]
	return out
}

func (p *parser) wrong() error { return fmt.Errorf("%w: %q", errFormula, p.text) }

func (p *parser) sum() (value, error) {
	v, err := p.product()
	for err == nil {
		op := p.sign("+-")
		if op == "" {
			return v, nil
		}
		var w value
		if w, err = p.product(); err == nil && v.length != w.length {
			err = p.wrong()
		}
		if err == nil && op == "+" {
			v.n = new(big.Rat).Add(v.n, w.n)
		} else if err == nil {
			v.n = new(big.Rat).Sub(v.n, w.n)
		}
	}
	return v, err
}

func (p *parser) product() (value, error) {
	v, err := p.factor()
	for err == nil {
		op := p.sign("*/")
		if op == "" {
			return v, nil
		}
		var w value
		switch w, err = p.factor(); {
		case err != nil:
		case op == "*" && !(v.length && w.length):
			v = value{new(big.Rat).Mul(v.n, w.n), v.length || w.length}
		case op == "/" && w.n.Sign() != 0 && (v.length || !w.length):
			v = value{new(big.Rat).Quo(v.n, w.n), v.length && !w.length}
		default:
			err = p.wrong()
		}
	}
	return v, err
}

func (p *parser) factor() (value, error) {
	if len(p.tokens) == 0 {
		return value{}, p.wrong()
	}
	if p.sign("(") != "" {
		v, err := p.sum()
		if err == nil && p.sign(")") == "" {
			err = p.wrong()
		}
		return v, err
	}
	t := p.tokens[0]
	p.tokens = p.tokens[1:]
	switch {
	case t[1] != "":
		l, err := unit.ParseLength(t[1])
		return value{new(big.Rat).SetInt64(int64(l)), true}, err
	case t[2] != "":
		n, _ := new(big.Rat).SetString(t[2])
		return value{n, false}, nil
	case t[3] == "min" || t[3] == "max":
		return p.extreme(t[3] == "max")
	case t[3] != "":
		l, err := p.length(t[3])
		return value{new(big.Rat).SetInt64(int64(l)), true}, err
	}
	return value{}, p.wrong()
}

// extreme reads what stands in the brackets of min and max.
func (p *parser) extreme(greater bool) (value, error) {
	if p.sign("(") == "" {
		return value{}, p.wrong()
	}
	a, err := p.sum()
	if err != nil || p.sign(",") == "" {
		return value{}, cmp.Or(err, p.wrong())
	}
	b, err := p.sum()
	if err != nil || p.sign(")") == "" || a.length != b.length {
		return value{}, cmp.Or(err, p.wrong())
	}
	if (a.n.Cmp(b.n) > 0) == greater {
		return a, nil
	}
	return b, nil
}

// nanometres rounds a length to the nearest.
func (v value) nanometres() (unit.Length, error) {
	if !v.length {
		return 0, fmt.Errorf("%w of a length", errFormula)
	}
	n, err := v.whole()
	return unit.Length(n), err
}

// whole rounds to the nearest whole number, halves up.
func (v value) whole() (int64, error) {
	twice := new(big.Int).Mul(v.n.Num(), big.NewInt(2))
	twice.Add(twice, v.n.Denom())
	q := new(big.Int).Div(twice, new(big.Int).Mul(v.n.Denom(), big.NewInt(2)))
	if !q.IsInt64() {
		return 0, check.Refuse("", q.String(), unit.ErrRange, "a measure of furniture")
	}
	return q.Int64(), nil
}

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
