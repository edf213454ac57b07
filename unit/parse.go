package unit

import (
	"math"
	"sort"
	"strconv"
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
	symbol  string // the first name of the row, for messages
	name    string // lower case, single spaces
	num     uint64 // the size is num/den
	den     uint64
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
			m.units = append(m.units, namedUnit{name, lowerASCII(n), uint64(r.num), uint64(r.den), r.inverse, r.prefix})
		}
	}
	m.list = strings.Join(first, ", ")
	sort.SliceStable(m.units, func(i, j int) bool { return len(m.units[i].name) > len(m.units[j].name) })
	return m
}

type unitRow struct {
	num, den int64  // the size, both above zero
	names    string // separated by |
	inverse  bool
	prefix   bool
}

func units(num, den int64, names string) unitRow { return unitRow{num: num, den: den, names: names} }

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

// normalised maps a text to the one way of writing it.
func normalised(text string) string {
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || c == '`' || c == '\t' || c == '\'' && i > 0 && text[i-1] == '\'' {
			text = normal.Replace(text)
			break
		}
	}
	return strings.TrimSpace(lowerASCII(text))
}

// parser reads one quantity.
type parser struct {
	m    *measure
	text string // as given
	s    string // normalised
	i    int
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

// parse takes the text apart.
func (m *measure) parse(text string) (reading, error) {
	p := parser{m: m, text: text}
	if len(text) > maxText {
		return reading{}, p.fail(ErrSyntax, "at most 160 characters")
	}
	if !utf8.ValidString(text) {
		return reading{}, p.fail(ErrSyntax, "UTF-8 text")
	}
	if strings.Contains(text, ",") {
		return reading{}, p.fail(ErrDecimalComma, "a decimal point and no thousands sign, such as 1250.5")
	}
	p.s = normalised(text)
	if p.s == "" {
		return reading{}, p.syntax()
	}
	neg := false
	if p.s[0] == '-' || p.s[0] == '+' {
		neg = p.s[0] == '-'
		p.i++
		p.space()
	}
	x, err := p.terms()
	x.neg = neg
	return x, err
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
func (p *parser) terms() (reading, error) {
	if u, ok := p.unitBefore(); ok {
		n, err := p.number()
		if err != nil {
			return reading{}, err
		}
		if p.space(); !p.end() {
			return reading{}, p.syntax()
		}
		return reading{last: n, unit: u}, p.suits(n, u)
	}
	var x reading
	glued := false // the number follows a letter, as in ft2
	for {
		before := x.unit
		if before != nil && !x.last.isWhole() {
			return x, p.fail(ErrSyntax, "only the last part of a compound such as 2 ft 1 5/8 in may have a fraction")
		}
		n, err := p.number()
		if err != nil {
			return x, err
		}
		p.space()
		if p.end() && before == nil && (p.m.bare || n.isZero()) {
			x.last = n
			return x, nil // zero needs no unit
		}
		if p.end() && glued {
			return x, p.unknown()
		}
		u, err := p.unit()
		if err != nil {
			return x, err
		}
		if before != nil {
			if err := p.follows(&x, n, u); err != nil {
				return x, err
			}
		}
		if err := p.suits(n, u); err != nil {
			return x, err
		}
		x.last, x.unit = n, u
		if !p.end() && p.s[p.i] == '-' && p.digit(p.i+1) { // 2'-1 5/8"
			p.i++
		}
		glued = !p.end() && p.digit(p.i) && isLetter(p.s[p.i-1])
		p.space()
		if p.end() {
			return x, nil
		}
	}
}

// follows checks that n of u may stand after what was read, and counts that in
// u.
func (p *parser) follows(x *reading, n number, u *namedUnit) error {
	before := x.unit
	if u.inverse || before.inverse || n.exp != 0 {
		return p.syntax()
	}
	here, there := product(u.num, before.den), product(before.num, u.den)
	if here.hi > there.hi || here.hi == there.hi && here.lo >= there.lo {
		return p.fail(ErrSyntax, "the larger unit first, each once")
	}
	times, ok := before.times(u)
	if !ok { // 1'250 mm is hardly a foot and 250 mm
		return p.fail(ErrSyntax, "parts of one system, such as 2 ft 1 5/8 in")
	}
	if whole, ok := digits(n.whole); !ok || whole >= times {
		return p.fail(ErrSyntax, "a second part smaller than one "+before.symbol)
	}
	x.carry(times)
	return nil
}

// suits checks that n counts units of u.
func (p *parser) suits(n number, u *namedUnit) error {
	if p.m.plies && n.den != "" && (!u.inverse || strings.Trim(n.whole, "0") == "" && less(n.num, n.den)) {
		return p.fail(ErrSyntax, "the count of the whole thread: three plies of 210 den are 630 den")
	}
	if u.inverse && n.isZero() {
		return p.fail(ErrRange, "a count above zero")
	}
	return nil
}

// number reads 25, 25.625, .5, 5/8, 25 5/8 and 25-5/8.
func (p *parser) number() (n number, err error) {
	n.whole = p.digits()
	if p.i < len(p.s) && p.s[p.i] == '.' && p.digit(p.i+1) {
		p.i++
		n.decimals = p.digits()
		n.exp = p.exponent()
		return n, nil
	}
	if n.whole == "" {
		return n, p.syntax()
	}
	if p.i < len(p.s) && p.s[p.i] == '/' {
		n.whole, n.num = "", n.whole
		return n, p.over(&n)
	}
	// A fraction after the whole part, joined by spaces or one hyphen.
	start := p.i
	if p.i < len(p.s) && p.s[p.i] == '-' {
		p.i++
	} else {
		p.space()
	}
	if p.i > start {
		n.num = p.digits()
		if n.num != "" && p.i < len(p.s) && p.s[p.i] == '/' {
			if err := p.over(&n); err != nil {
				return n, err
			}
			if !less(n.num, n.den) {
				return n, p.fail(ErrSyntax, "a fraction below one after the whole number")
			}
			return n, nil
		}
		n.num, p.i = "", start
	}
	n.exp = p.exponent()
	return n, nil
}

// digits reads what digits stand here.
func (p *parser) digits() string {
	start := p.i
	for p.digit(p.i) {
		p.i++
	}
	return p.s[start:p.i]
}

// exponent reads e-7, as very small and very large floats are written.
func (p *parser) exponent() int {
	j := p.i
	if j >= len(p.s) || p.s[j] != 'e' {
		return 0
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
		return 0
	}
	exp, _ := strconv.Atoi(p.s[p.i+1 : k]) //nolint:errcheck // three digits and a sign
	p.i = k
	return exp
}

// over reads the stroke and the denominator.
func (p *parser) over(n *number) error {
	p.i++
	n.den = p.digits()
	if strings.Trim(n.den, "0") == "" {
		return p.fail(ErrSyntax, "a fraction such as 5/8")
	}
	return nil
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
	n, ok := x.quanta()
	if !ok {
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
	f := x.float()
	if math.IsInf(f, 0) {
		return 0, &InputError{Value: text, Err: ErrOverflow, Want: m.one() + " that fits the type"}
	}
	return f, nil
}
