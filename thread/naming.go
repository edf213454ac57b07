package thread

import (
	"encoding/json"
	"errors"
	"iter"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// ErrAmbiguous says a text means more than one size.
var ErrAmbiguous = errors.New("means more than one size")

// Naming is a way of naming a size of thread. The zero value is none.
//
// Its values: TradeNumber, TexLabel, TicketNumber, GovernmentLetter, CordCount,
// FinishedDenier, GreigeDenier.
type Naming uint8

// The ways of naming a size.
const (
	// TradeNumber is a tenth of the finished denier: 92, V-92, #92.
	TradeNumber Naming = iota + 1
	// TexLabel is the tex number on the label: T-90, tex 90.
	TexLabel
	// TicketNumber is the metric ticket: M30, Tkt 30.
	TicketNumber
	// GovernmentLetter is the letter of the federal specifications: FF.
	GovernmentLetter
	// CordCount is the number of cords of the federal specifications: 3 cord.
	CordCount
	// FinishedDenier is the denier of the finished thread: 920 den.
	FinishedDenier
	// GreigeDenier is the denier of the unfinished thread: 840 den, 280/3.
	GreigeDenier
)

var namingNames = []string{"", "trade number", "tex label", "metric ticket", "government letter", "cords", "finished denier", "greige denier"}

// String names the way of naming.
func (n Naming) String() string { return enum.Name(n, "Naming", namingNames) }

// MarshalText writes the name, an empty text for none. It wraps unit.ErrUnknown.
func (n Naming) MarshalText() ([]byte, error) { return enum.Text(n, "naming", namingNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (n *Naming) UnmarshalText(text []byte) error {
	return enum.Read(n, text, "naming", namingNames)
}

// SizeMatch is one meaning of a text.
type SizeMatch struct {
	Size   Size   `json:"size"`
	Naming Naming `json:"naming"`
}

// SizeMatches are the meanings of a text, lightest size first. The zero value is
// empty.
type SizeMatches struct {
	m [maxMatches]SizeMatch
	n int
}

// maxMatches: a bare number can be a trade number, a label, a ticket and a
// cord count, and 30 two of them for size 33.
const maxMatches = 8

// Len gives the number of meanings.
func (m *SizeMatches) Len() int { return m.n }

// All ranges over the meanings, lightest size first.
func (m *SizeMatches) All() iter.Seq[SizeMatch] {
	return func(yield func(SizeMatch) bool) {
		for _, x := range m.m[:m.n] {
			if !yield(x) {
				return
			}
		}
	}
}

// Size gives the size that all meanings agree on, and false when there is
// none or more than one.
func (m *SizeMatches) Size() (Size, bool) {
	if m.n == 0 || m.m[0].Size != m.m[m.n-1].Size {
		return 0, false
	}
	return m.m[0].Size, true
}

// MarshalJSON writes the list of meanings.
func (m SizeMatches) MarshalJSON() ([]byte, error) { return json.Marshal(m.m[:m.n]) }

// UnmarshalJSON reads a list of meanings, eight at the most; a longer one wraps
// unit.ErrRange.
func (m *SizeMatches) UnmarshalJSON(data []byte) error {
	var list []SizeMatch
	if err := json.Unmarshal(data, &list); err != nil {
		return err
	}
	if err := check.Count("number of meanings", len(list), 0, maxMatches); err != nil {
		return err
	}
	*m = SizeMatches{}
	for _, x := range list {
		m.add(x.Size, x.Naming)
	}
	return nil
}

func (m *SizeMatches) add(s Size, n Naming) {
	i := m.n
	if i == maxMatches {
		return
	}
	for ; i > 0 && m.m[i-1].Size > s; i-- {
		m.m[i] = m.m[i-1]
	}
	m.m[i] = SizeMatch{s, n}
	m.n++
}

// String lists the meanings: "33 by tex label, 92 by metric ticket".
func (m *SizeMatches) String() string {
	var b strings.Builder
	for i, x := range m.m[:m.n] {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(x.Size.String() + " by " + x.Naming.String())
	}
	return b.String()
}

const sizeWant = `a size such as "92", "T-90", "tex 90", "M30", "FF", "3 cord", "920 den" or "280/3"`

// ParseSize reads a size in any naming, see FindSizes. A text that means more than
// one size wraps ErrAmbiguous and its error lists them: "30" is the tex label
// of 33 and the ticket of 92. A text that means none wraps unit.ErrUnknown.
func ParseSize(text string) (Size, error) {
	m := find(text)
	if s, ok := m.Size(); ok {
		return s, nil
	}
	if m.n == 0 {
		return 0, check.Refuse("size", text, unit.ErrUnknown, sizeWant)
	}
	return 0, check.Refuse("size", text, ErrAmbiguous, "one of "+m.String())
}

// FindSizes gives every size a text can mean:
//
//	92           trade number; also tex label, ticket and cords: any that fits
//	V-92, #92    trade number
//	T-90, tex 90 tex label
//	M30, tkt 30  metric ticket
//	FF           government letter
//	3 cord       cords
//	920 den      denier, finished or unfinished
//	280/3        denier of a ply and plies
//
// Case and spaces do not matter. A text that means none wraps unit.ErrUnknown.
// FindSizes does not allocate unless it fails.
func FindSizes(text string) (SizeMatches, error) {
	m := find(text)
	if m.n == 0 {
		return m, check.Refuse("size", text, unit.ErrUnknown, sizeWant)
	}
	return m, nil
}

// term is a text cut into a word, a number and what follows.
type term struct {
	word   string // letters before the number, or the whole text
	number int
	after  string // what follows the number
	digits bool
}

func find(text string) (m SizeMatches) {
	text = strings.TrimSpace(text)
	t := cutTerm(text)
	if !t.digits || t.after == "" && text[0] == '0' {
		m.byLetter(text)
		return m
	}
	switch {
	case t.word == "" && t.after == "":
		m.byNumber(TradeNumber, t.number)
		m.byNumber(TexLabel, t.number)
		m.byNumber(TicketNumber, t.number)
		m.byNumber(CordCount, t.number)
	case t.after == "" && fold(t.word, "v", "#", "no", "no.", "size", "trade", "trade number"):
		m.byNumber(TradeNumber, t.number)
	case t.after == "" && fold(t.word, "t", "tex"), t.word == "" && fold(t.after, "tex"):
		m.byNumber(TexLabel, t.number)
	case t.after == "" && fold(t.word, "m", "tkt", "tkt.", "ticket", "metric ticket"):
		m.byNumber(TicketNumber, t.number)
	case t.word == "" && fold(t.after, "cord", "cords"):
		m.byNumber(CordCount, t.number)
	case t.word == "" && fold(t.after, "d", "den", "denier"):
		m.byNumber(FinishedDenier, t.number)
		m.byNumber(GreigeDenier, t.number)
	case t.word == "":
		m.byBuild(t.number, t.after)
	}
	return m
}

// cutTerm cuts "T-90" into "T" and 90, "3 cord" into 3 and "cord". A text with
// more digits than any size has is one without a number: no letter is so long.
func cutTerm(text string) (t term) {
	i := 0
	for i < len(text) && !digit(text[i]) {
		i++
	}
	j := i
	for j < len(text) && digit(text[j]) {
		if j-i > 5 {
			return t
		}
		t.number = 10*t.number + int(text[j]-'0')
		j++
	}
	t.digits = j > i
	t.word = strings.TrimRight(text[:i], " -")
	t.after = strings.TrimLeft(text[j:], " -")
	return t
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// fold tells whether s is one of the words, whatever the case.
func fold(s string, words ...string) bool {
	for _, w := range words {
		if strings.EqualFold(s, w) {
			return true
		}
	}
	return false
}

func (m *SizeMatches) byNumber(n Naming, x int) {
	for i := range sizeNumbers {
		row := &sizeNumbers[i]
		if row[n][0] == x || row[n][1] == x {
			m.add(Size(i+1), n)
		}
	}
}

// sizeNumbers are the numbers that name a size in each naming, with a second
// one where a size is sold under two; -1, which no text can give, where there
// is none.
var sizeNumbers = buildNumbers()

func buildNumbers() (t [sizeCount][GreigeDenier + 1][2]int) {
	const none = -1
	for i := range t {
		s, l := Size(i+1), &sizeLines[i]
		for n := range t[i] {
			t[i][n] = [2]int{none, none}
		}
		t[i][TradeNumber][0] = s.Number()
		t[i][TexLabel][0] = int(l.label.value.Tex())
		t[i][TicketNumber][0] = l.ticket.value
		if l.cords.known {
			t[i][CordCount][0] = l.cords.value
		}
		t[i][FinishedDenier][0] = 10 * s.Number()
		t[i][GreigeDenier][0] = int(l.ply) * l.plies
	}
	t[Size33-1][TradeNumber][1] = 30
	t[Size33-1][TexLabel][1] = 30
	t[Size415-1][TicketNumber][1] = 6
	return t
}

func (m *SizeMatches) byLetter(text string) {
	if len(text) > 2 {
		return
	}
	for i := range sizeLines {
		if v, ok := sizeLines[i].letter.Value(); ok && strings.EqualFold(v, text) {
			m.add(Size(i+1), GovernmentLetter)
		}
	}
	if strings.EqualFold(text, "A") {
		// Letter A lies between 00 and B; which trade number it is was not
		// read anywhere.
		m.add(Size15, GovernmentLetter)
		m.add(Size33, GovernmentLetter)
	}
}

// byBuild reads "280/3", "280x3", "280D/3" and "280 den x 3".
func (m *SizeMatches) byBuild(ply int, after string) {
	rest := after
	for _, w := range [...]string{"denier", "den", "d"} {
		if len(rest) > len(w) && strings.EqualFold(rest[:len(w)], w) {
			rest = strings.TrimLeft(rest[len(w):], " ")
			break
		}
	}
	if len(rest) < 2 || rest[0] != '/' && rest[0] != 'x' && rest[0] != 'X' {
		return
	}
	rest = strings.TrimLeft(rest[1:], " ")
	if len(rest) != 1 || !digit(rest[0]) {
		return
	}
	for i := range sizeLines {
		l := &sizeLines[i]
		if float64(ply) == l.ply && int(rest[0]-'0') == l.plies {
			m.add(Size(i+1), GreigeDenier)
		}
	}
}

// SizesAround gives the sizes next to a count of finished thread: the heaviest
// that is not heavier and the lightest that is not lighter. They are the same
// when the count is that of a size to a part in a thousand; a zero size says
// there is none on that side. The count is above zero, up to 10000 tex; it
// wraps unit.ErrRange or unit.ErrNotFinite.
func SizesAround(count unit.LinearDensity) (lighter, heavier Size, err error) {
	if err := check.Above("count", count, 10000*unit.Tex); err != nil {
		return 0, 0, err
	}
	for s := lightest; s <= heaviest; s++ {
		f := s.Finished()
		if f <= count*1.001 {
			lighter = s
		}
		if f >= count*0.999 && heavier == 0 {
			heavier = s
		}
	}
	return lighter, heavier, nil
}
