package unit

import (
	"math/big"
	"sort"
	"strings"
	"unicode/utf8"
)

// measure is the text side of one kind of quantity: its units by every name a
// shop writes, each with its exact size in quanta.
type measure struct {
	kind    string // "length", for messages
	example string // "25 5/8 in", for messages
	list    string // the accepted units, for messages
	bare    bool   // a number without a unit counts as ones
	plies   bool   // a stroke sets off the plies, as in 210/3
	units   []namedUnit
}

type namedUnit struct {
	name    string // lower case, single spaces
	size    *big.Rat
	inverse bool // the number counts units per quantity, as in yards per pound
	prefix  bool // the unit may stand before the number, as in "Nm 30"
}

// newMeasure takes units as rows of size and names; names are sorted so that
// the longest match wins. The first name of each row goes into messages.
func newMeasure(kind, example string, rows ...unitRow) *measure {
	m := &measure{kind: kind, example: example}
	var first []string
	for _, r := range rows {
		name, _, _ := strings.Cut(r.names, "|")
		first = append(first, name)
		for _, n := range strings.Split(r.names, "|") {
			m.units = append(m.units, namedUnit{lowerASCII(n), r.size, r.inverse, r.prefix})
		}
	}
	m.list = strings.Join(first, ", ")
	sort.SliceStable(m.units, func(i, j int) bool { return len(m.units[i].name) > len(m.units[j].name) })
	return m
}

type unitRow struct {
	size    *big.Rat
	names   string // separated by |
	inverse bool
	prefix  bool
}

func units(num, den int64, names string) unitRow {
	return unitRow{size: big.NewRat(num, den), names: names}
}

// maxText bounds the work of reading hostile text.
const maxText = 160

// normal maps the many signs for one thing to one.
var normal = strings.NewReplacer(
	"′′", `"`, "’’", `"`, "''", `"`,
	"’", "'", "‘", "'", "′", "'", "`", "'",
	"”", `"`, "“", `"`, "″", `"`,
	"²", "2", "³", "3", "⁄", "/", "−", "-", "–", "-", "‑", "-",
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
	"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅙", " 1/6", "⅚", " 5/6",
	"⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5",
	"µ", "u", "μ", "u", "Μ", "u", "°", "deg",
)

func lowerASCII(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, s)
}

// parser reads one quantity.
type parser struct {
	m    *measure
	text string // as given
	s    string // normalised
	i    int

	stroke bool // the number has a fraction stroke
}

func (p *parser) fail(err error, want string) error {
	return &InputError{Value: p.text, Err: err, Want: want}
}

func (p *parser) syntax() error {
	return p.fail(ErrSyntax, p.m.one()+" such as "+p.m.example)
}

// one gives the kind with its article.
func (m *measure) one() string {
	if strings.HasPrefix(m.kind, "a") {
		return "an " + m.kind
	}
	return "a " + m.kind
}

// parse gives the quantity in quanta, exactly.
func (m *measure) parse(text string) (*big.Rat, error) {
	p := &parser{m: m, text: text}
	if len(text) > maxText {
		return nil, p.fail(ErrSyntax, "at most 160 characters")
	}
	if !utf8.ValidString(text) {
		return nil, p.fail(ErrSyntax, "UTF-8 text")
	}
	if strings.Contains(text, ",") {
		return nil, p.fail(ErrDecimalComma, "a decimal point and no thousands sign, such as 1250.5")
	}
	p.s = strings.TrimSpace(lowerASCII(normal.Replace(text)))
	if p.s == "" {
		return nil, p.syntax()
	}
	neg := false
	if p.s[0] == '-' || p.s[0] == '+' {
		neg = p.s[0] == '-'
		p.i++
		p.space()
	}
	x, err := p.terms()
	if err != nil {
		return nil, err
	}
	if neg {
		x.Neg(x)
	}
	return x, nil
}

func (p *parser) space() {
	for p.i < len(p.s) && p.s[p.i] == ' ' {
		p.i++
	}
}

func (p *parser) end() bool { return p.i >= len(p.s) }

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func (p *parser) digit(at int) bool { return at < len(p.s) && isDigit(p.s[at]) }

// terms reads number unit (number unit)...: 2' 1 5/8".
func (p *parser) terms() (*big.Rat, error) {
	if u, ok := p.unitBefore(); ok {
		v, _, err := p.number()
		if err != nil {
			return nil, err
		}
		if p.space(); !p.end() {
			return nil, p.syntax()
		}
		return p.apply(v, u)
	}
	sum := new(big.Rat)
	var last *namedUnit
	whole := true
	glued := false // the number follows a letter, as in ft2
	for {
		if last != nil && !whole {
			return nil, p.fail(ErrSyntax, "only the last part of a compound such as 2 ft 1 5/8 in may have a fraction")
		}
		v, w, err := p.number()
		if err != nil {
			return nil, err
		}
		whole = w
		p.space()
		if p.end() && last == nil && (p.m.bare || v.Sign() == 0) {
			return v, nil // zero needs no unit
		}
		if p.end() && glued {
			return nil, p.unknown()
		}
		u, err := p.unit()
		if err != nil {
			return nil, err
		}
		if last != nil {
			if u.inverse || last.inverse {
				return nil, p.syntax()
			}
			if u.size.Cmp(last.size) >= 0 {
				return nil, p.fail(ErrSyntax, "the larger unit first, each once")
			}
			times := new(big.Rat).Quo(last.size, u.size)
			if !times.IsInt() { // 1'250 mm is hardly a foot and 250 mm
				return nil, p.fail(ErrSyntax, "parts of one system, such as 2 ft 1 5/8 in")
			}
			if v.Cmp(times) >= 0 {
				return nil, p.fail(ErrSyntax, "a second part smaller than one "+last.name)
			}
		}
		if v, err = p.apply(v, u); err != nil {
			return nil, err
		}
		sum.Add(sum, v)
		last = u
		if !p.end() && p.s[p.i] == '-' && p.digit(p.i+1) { // 2'-1 5/8"
			p.i++
		}
		glued = !p.end() && p.digit(p.i) && isLetter(p.s[p.i-1])
		p.space()
		if p.end() {
			return sum, nil
		}
	}
}

func (p *parser) apply(v *big.Rat, u *namedUnit) (*big.Rat, error) {
	if p.m.plies && p.stroke && (!u.inverse || v.Cmp(ratOne) < 0) {
		return nil, p.fail(ErrSyntax, "the count of the whole thread: three plies of 210 den are 630 den")
	}
	if !u.inverse {
		return v.Mul(v, u.size), nil
	}
	if v.Sign() == 0 {
		return nil, p.fail(ErrRange, "a count above zero")
	}
	return v.Quo(u.size, v), nil
}

// number reads 25, 25.625, .5, 5/8, 25 5/8 and 25-5/8; whole tells that
// nothing stood after the point.
func (p *parser) number() (v *big.Rat, whole bool, err error) {
	start := p.i
	for p.digit(p.i) {
		p.i++
	}
	intPart := p.s[start:p.i]
	if p.i < len(p.s) && p.s[p.i] == '.' && p.digit(p.i+1) {
		p.i++
		for p.digit(p.i) {
			p.i++
		}
		p.exponent()
		return p.rat(p.s[start:p.i]), false, nil
	}
	if intPart == "" {
		return nil, false, p.syntax()
	}
	if p.i < len(p.s) && p.s[p.i] == '/' {
		p.i++
		v, err = p.over(intPart)
		return v, false, err
	}
	// A fraction after the whole part, joined by spaces or one hyphen.
	j := p.i
	if j < len(p.s) && p.s[j] == '-' {
		j++
	} else {
		for j < len(p.s) && p.s[j] == ' ' {
			j++
		}
	}
	if k := j; j > p.i && p.digit(k) {
		for p.digit(k) {
			k++
		}
		if k < len(p.s) && p.s[k] == '/' {
			num := p.s[j:k]
			p.i = k + 1
			f, err := p.over(num)
			if err != nil {
				return nil, false, err
			}
			if f.Cmp(ratOne) >= 0 {
				return nil, false, p.fail(ErrSyntax, "a fraction below one after the whole number")
			}
			return f.Add(f, p.rat(intPart)), false, nil
		}
	}
	if p.exponent() {
		return p.rat(p.s[start:p.i]), false, nil
	}
	return p.rat(intPart), true, nil
}

var ratOne = big.NewRat(1, 1) // read only

// exponent reads e-7, as very small and very large floats are written.
func (p *parser) exponent() bool {
	j := p.i
	if j >= len(p.s) || p.s[j] != 'e' {
		return false
	}
	j++
	if j < len(p.s) && (p.s[j] == '-' || p.s[j] == '+') {
		j++
	}
	k := j
	for p.digit(k) {
		k++
	}
	if k == j || k-j > 3 {
		return false
	}
	p.i = k
	return true
}

func (p *parser) rat(s string) *big.Rat {
	v, ok := new(big.Rat).SetString(s)
	if !ok { // cannot be: s is digits, point and a short exponent
		return new(big.Rat)
	}
	return v
}

// over reads the denominator of num/den.
func (p *parser) over(num string) (*big.Rat, error) {
	start := p.i
	for p.digit(p.i) {
		p.i++
	}
	den := p.s[start:p.i]
	if den == "" || strings.Trim(den, "0") == "" {
		return nil, p.fail(ErrSyntax, "a fraction such as 5/8")
	}
	p.stroke = true
	return p.rat(num + "/" + den), nil
}

// unit reads the longest unit name that stands here.
func (p *parser) unit() (*namedUnit, error) {
	if p.end() {
		return nil, p.fail(ErrMissingUnit, "one of: "+p.m.list)
	}
	for k := range p.m.units {
		u := &p.m.units[k]
		n, ok := matchName(p.s[p.i:], u.name)
		if !ok {
			continue
		}
		p.i += n
		if p.i < len(p.s) && p.s[p.i] == '.' {
			p.i++
		}
		return u, nil
	}
	if p.digit(p.i) || strings.IndexByte("/.-+", p.s[p.i]) >= 0 {
		return nil, p.syntax()
	}
	return nil, p.unknown()
}

func (p *parser) unknown() error {
	return p.fail(ErrUnknownUnit, p.m.one()+" in one of: "+p.m.list)
}

// unitBefore reads a unit that stands before its number, such as Nm 30.
func (p *parser) unitBefore() (*namedUnit, bool) {
	for k := range p.m.units {
		u := &p.m.units[k]
		if !u.prefix {
			continue
		}
		if n, ok := matchName(p.s[p.i:], u.name); ok {
			p.i += n
			p.space()
			return u, true
		}
	}
	return nil, false
}

// matchName matches a unit name, taking any run of spaces or points for a
// space in the name, and refuses to stop in the middle of a word.
func matchName(s, name string) (int, bool) {
	i := 0
	for k := range len(name) {
		if name[k] == ' ' {
			j := i
			for j < len(s) && (s[j] == ' ' || s[j] == '.') {
				j++
			}
			if j == i {
				return 0, false
			}
			i = j
			continue
		}
		if i >= len(s) || s[i] != name[k] {
			return 0, false
		}
		i++
	}
	if i > 0 && i < len(s) && isLetter(s[i-1]) && (isLetter(s[i]) || s[i] >= utf8.RuneSelf || s[i] == '/' || s[i] == '^') {
		return 0, false
	}
	if i > 0 && i < len(s) && isDigit(s[i-1]) && (isDigit(s[i]) || s[i] == '.' && i+1 < len(s) && isDigit(s[i+1])) {
		return 0, false
	}
	return i, true
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' }

// exact reads a quantity into whole quanta, to the nearest.
func (m *measure) exact(text string) (int64, error) {
	x, err := m.parse(text)
	if err != nil {
		return 0, err
	}
	n, err := toInt(x, Nearest, m.kind)
	if err != nil {
		return 0, &InputError{Value: text, Err: ErrOverflow, Want: m.one() + " that fits the type"}
	}
	return n, nil
}

// float reads a quantity into a float64, to the nearest.
func (m *measure) float(text string) (float64, error) {
	x, err := m.parse(text)
	if err != nil {
		return 0, err
	}
	f, _ := x.Float64()
	if f > maxFloat || f < -maxFloat {
		return 0, &InputError{Value: text, Err: ErrOverflow, Want: m.one() + " that fits the type"}
	}
	return f, nil
}

const maxFloat = 1.7976931348623157e308
