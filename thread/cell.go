package thread

import (
	"encoding/json"

	"github.com/coverwright/coverwright/unit/cite"
)

// Cell is one figure of a table: a value with its basis, or a gap. The zero
// value is a gap without a reason.
type Cell[T any] struct {
	value T
	basis cite.Basis
	known bool
}

// Value gives the figure and whether there is one. The value of a gap means
// nothing.
func (c Cell[T]) Value() (T, bool) { return c.value, c.known }

// Known tells whether the cell holds a figure.
func (c Cell[T]) Known() bool { return c.known }

// Basis says what founds the figure. The note of a gap says why no figure is
// given; its status is zero.
func (c Cell[T]) Basis() cite.Basis { return c.basis }

// MarshalJSON writes {"value": …, "basis": …} or {"gap": "why"}.
func (c Cell[T]) MarshalJSON() ([]byte, error) {
	if !c.known {
		return json.Marshal(struct {
			Gap string `json:"gap"`
		}{c.basis.Note})
	}
	return json.Marshal(struct {
		Value T          `json:"value"`
		Basis cite.Basis `json:"basis"`
	}{c.value, c.basis})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (c *Cell[T]) UnmarshalJSON(data []byte) error {
	var in struct {
		Value *T         `json:"value"`
		Basis cite.Basis `json:"basis"`
		Gap   string     `json:"gap"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	*c = gap[T](in.Gap)
	if in.Value != nil {
		*c = cell(*in.Value, in.Basis)
	}
	return nil
}

func cell[T any](v T, b cite.Basis) Cell[T] { return Cell[T]{v, b, true} }

func gap[T any](why string) Cell[T] { return Cell[T]{basis: cite.Basis{Note: why}} }

func practice(note string) cite.Basis {
	return cite.Basis{Status: cite.CommonPractice, Note: note}
}

func memory(note string) cite.Basis { return cite.Basis{Status: cite.FromMemory, Note: note} }

func derived(note string) cite.Basis { return cite.Basis{Status: cite.Derived, Note: note} }

func published(source, note string) cite.Basis {
	return cite.Basis{Status: cite.Published, Source: source, Note: note}
}

func standard(source, note string) cite.Basis {
	return cite.Basis{Status: cite.Standard, Source: source, Note: note}
}
