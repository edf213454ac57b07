package allowance

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// TrimKind is what is put on the frame beside the panels: [StapledWelt], [Gimp]
// or [Nails]. The zero value is a welt.
type TrimKind uint8

const (
	// StapledWelt is welt stapled along an edge of the frame.
	StapledWelt TrimKind = iota
	// Gimp is braid glued or tacked over staples.
	Gimp
	// Nails are decorative nails.
	Nails
)

var trimNames = [...]string{"welt", "gimp", "nails"}

// String gives the trade name.
func (k TrimKind) String() string { return enum.Name(k, "kind", trimNames[:]) }

// MarshalText writes the name.
func (k TrimKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", trimNames[:]) }

// UnmarshalText reads what String writes.
func (k *TrimKind) UnmarshalText(text []byte) error { return enum.Read(k, text, "kind", trimNames[:]) }

// Trim is a length of welt, gimp or nails on the frame.
type Trim struct {
	Name   string      `json:"name"`
	Kind   TrimKind    `json:"kind,omitzero"`
	Length unit.Length `json:"length" required:"true" hint:"how long it is"`
	// Cord is the diameter of the cord of a welt and Welt the id of the goods
	// that cover it.
	Cord unit.Length `json:"cord,omitzero"`
	Welt string      `json:"welt,omitempty"`
	Bias bool        `json:"bias,omitzero"` // of the welt: cut at 45 degrees
	// HiddenBy names the panels that hide its edge and are fitted after it.
	HiddenBy []string `json:"hidden_by,omitempty"`
	// Covers names the panels whose edges it covers; it is put on after them.
	Covers []string `json:"covers,omitempty"`
}
