package allowance

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Hand is the left or the right one of a pair, as the sitter says: [Either],
// [LeftHand] or [RightHand]. The zero value is a panel without hands.
type Hand uint8

const (
	// Either is a panel without hands, or a relation that stands for both.
	Either Hand = iota
	// LeftHand is as drawn.
	LeftHand
	// RightHand is the mirror image.
	RightHand
)

var handNames = [...]string{"", "left", "right"}

// String gives the hand in a word; Either gives none.
func (h Hand) String() string { return enum.Name(h, "hand", handNames[:]) }

// MarshalText writes the word.
func (h Hand) MarshalText() ([]byte, error) { return enum.Text(h, "hand", handNames[:]) }

// UnmarshalText reads what String writes.
func (h *Hand) UnmarshalText(text []byte) error { return enum.Read(h, text, "hand", handNames[:]) }

// EdgePart is an edge or inner line of a panel, or a part of one. In files it is
// text: the panel, a dot and the edge, then what of it:
//
//	deck.front
//	inside arm left.top from 2 in to 14 in
//	seat cushion 2.top plate.back reversed
//
// The last dot before the edge's own words starts the edge.
type EdgePart struct {
	// Panel is a name of the cover, with the hand of a pair and the number of
	// one of several put after it: inside arm left, cushion 2, button band
	// right 3. Without them the relation stands for each.
	Panel string
	Edge  string // of the outline, or an inner line
	// From and To are finished lengths from the start of the edge, anticlockwise
	// as drawn. A To of zero is the end of the edge.
	From, To unit.Length
	// Reversed says that the panel lies with its back where its face is due, so
	// that the edge runs clockwise.
	Reversed bool
}

// String writes the part as it stands in files.
func (p EdgePart) String() string {
	s := p.Panel + "." + p.Edge
	if p.From != 0 {
		s += " from " + p.From.String()
	}
	if p.To != 0 {
		s += " to " + p.To.String()
	}
	if p.Reversed {
		s += " reversed"
	}
	return s
}

// MarshalText writes the part as String does. One that would not read back as
// itself, such as one without an edge, is refused unless it is the zero value.
func (p EdgePart) MarshalText() ([]byte, error) {
	if p == (EdgePart{}) {
		return nil, nil
	}
	text := p.String()
	var back EdgePart
	if err := back.UnmarshalText([]byte(text)); err != nil || back != p {
		return nil, check.Refuse("edge", text, unit.ErrRange, wantPart)
	}
	return []byte(text), nil
}

const wantPart = `a panel and an edge with a dot between, such as "inside arm left.top from 2 in to 14 in"`

// UnmarshalText reads what String writes. Errors are *unit.InputError values.
func (p *EdgePart) UnmarshalText(text []byte) error {
	s := string(text)
	if s == "" {
		*p = EdgePart{}
		return nil
	}
	var out EdgePart
	s, out.Reversed = strings.CutSuffix(s, " reversed")
	s = lengthAfter(s, " to ", &out.To)
	s = lengthAfter(s, " from ", &out.From)
	dot := strings.LastIndexByte(s, '.')
	if dot <= 0 || dot == len(s)-1 || strings.TrimSpace(s) != s {
		return check.Refuse("edge", string(text), unit.ErrRange, wantPart)
	}
	out.Panel, out.Edge = s[:dot], s[dot+1:]
	*p = out
	return nil
}

// lengthAfter takes a word and the length after it off the end of s. What is no
// length belongs to the name.
func lengthAfter(s, word string, l *unit.Length) string {
	i := strings.LastIndex(s, word)
	if i < 0 {
		return s
	}
	v, err := unit.ParseLength(s[i+len(word):])
	if err != nil || v <= 0 {
		return s
	}
	*l = v
	return s[:i]
}

// Side is one side of a seam: parts of edges one after the other, anticlockwise
// on each panel as it is seen from its face. Neighbours follow each other on
// their panel, or are brought together by another seam. The start of one side
// meets the end of the other. Of a pair, the parts stand in the order of the
// left; the right has the mirrored one.
type Side []EdgePart

// String writes the parts with a plus between, as they stand in files:
//
//	arm front.top + arm front.inner
func (s Side) String() string {
	names := make([]string, len(s))
	for i, p := range s {
		names[i] = p.String()
	}
	return strings.Join(names, partsBetween)
}

const partsBetween = " + "

// MarshalText writes the side as String does. One that would not read back as
// itself is refused.
func (s Side) MarshalText() ([]byte, error) {
	text := s.String()
	var back Side
	if err := back.UnmarshalText([]byte(text)); err != nil {
		return nil, err
	}
	if !slices.Equal(back, s) {
		return nil, check.Refuse("side", text, unit.ErrRange, wantSide)
	}
	return []byte(text), nil
}

const wantSide = wantPart + `, or several with " + " between`

// UnmarshalText reads what String writes. Errors are *unit.InputError values.
func (s *Side) UnmarshalText(text []byte) error {
	var out Side
	if len(text) > 0 {
		for name := range strings.SplitSeq(string(text), partsBetween) {
			var p EdgePart
			if err := p.UnmarshalText([]byte(name)); err != nil || p == (EdgePart{}) {
				return check.Refuse("side", string(text), unit.ErrRange, wantSide)
			}
			out = append(out, p)
		}
	}
	*s = out
	return nil
}
