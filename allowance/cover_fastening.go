package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// FasteningKind is how an edge is held by the frame or by itself: [PulledOver],
// [PushedThrough], [TurnedBelow], [StapledFlat], [FoldedIn], [BlindTacked],
// [ToothedStrip], [Hemmed] or [HookAndLoop]. The zero value is pulled over.
type FasteningKind uint8

const (
	// PulledOver goes over a rail and is stapled beyond it.
	PulledOver FasteningKind = iota
	// PushedThrough goes down between two rails and is stapled outside.
	PushedThrough
	// TurnedBelow goes round the bottom rail, is turned in and stapled below.
	TurnedBelow
	// StapledFlat is stapled raw where the next panel hides it.
	StapledFlat
	// FoldedIn is turned in and tacked in sight, often under gimp or nails.
	FoldedIn
	// BlindTacked is stapled face down through a strip of card, then flipped.
	BlindTacked
	// ToothedStrip is folded into a metal strip with teeth.
	ToothedStrip
	// Hemmed is turned in and sewn to itself.
	Hemmed
	// HookAndLoop holds tape of that kind, sewn on.
	HookAndLoop
)

// fasteningKinds is the one table of the kinds of fastenings: a + b of allowance.
var fasteningKinds = [...]struct {
	name   string
	finish Finish
	over   unit.Length // over the rail
	hold   unit.Length // to staple or turn
	first  int         // rank in fitting one panel
}{
	PulledOver:    {"pulled over", PullOver, 2 * unit.Inch, unit.Inch, 1},
	PushedThrough: {"pushed through", PullOver, 4 * unit.Inch, 2 * unit.Inch, 2},
	TurnedBelow:   {"turned below", PullOver, 0, unit.Inch, 1},
	StapledFlat:   {"stapled flat", Raw, 0, unit.Inch, 3},
	FoldedIn:      {"folded in", TurnedUnder, 0, unit.Inch / 2, 4},
	BlindTacked:   {"blind-tacked", Raw, 0, unit.Inch / 2, 0},
	ToothedStrip:  {"toothed strip", TurnedUnder, 0, 3 * unit.Inch / 4, 4},
	Hemmed:        {"hem", SingleHem, 0, unit.Inch, 0},
	HookAndLoop:   {"hook and loop", SingleHem, 0, unit.Inch, 0},
}

func fasteningKindNames() []string {
	out := make([]string, len(fasteningKinds))
	for i, k := range fasteningKinds {
		out[i] = k.name
	}
	return out
}

// String gives the trade name.
func (k FasteningKind) String() string { return enum.Name(k, "finish", fasteningKindNames()) }

// MarshalText writes the name.
func (k FasteningKind) MarshalText() ([]byte, error) {
	return enum.Text(k, "finish", fasteningKindNames())
}

// UnmarshalText reads what String writes.
func (k *FasteningKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "finish", fasteningKindNames())
}

// Default gives what goes over the rail and what is stapled or turned beyond it,
// as common practice has them.
func (k FasteningKind) Default() (over, hold unit.Length, basis cite.Basis) {
	if int(k) >= len(fasteningKinds) {
		return 0, 0, cite.Basis{}
	}
	row := fasteningKinds[k]
	return row.over, row.hold, Fastening{Kind: k}.taken()
}

// taken founds what of the allowance is that of the kind; empty where all of it is
// given.
func (f Fastening) taken() cite.Basis {
	row, note := fasteningKinds[f.Kind], ""
	if f.Over.IsZero() && row.over != 0 {
		note = row.over.String() + " over the rail"
	}
	if f.Hold.IsZero() {
		if note != "" {
			note += " and "
		}
		note += row.hold.String() + " to staple or turn"
	}
	if note == "" {
		return cite.Basis{}
	}
	return cite.Practice(note)
}

// Fastening holds one side to the frame or to itself. Its allowance is
//
//	allowance = over + rail + hold
type Fastening struct {
	Name string        `json:"name,omitempty"`
	Side Side          `json:"side" required:"true" hint:"an edge or several in order"`
	Kind FasteningKind `json:"finish,omitzero"`
	To   string        `json:"to,omitempty"` // what of the frame, such as "front rail"
	// Over goes over or through the rails, Hold is stapled or turned; each
	// replaces that of the kind.
	Over Override `json:"over,omitzero"`
	Hold Override `json:"hold,omitzero"`
	// Rail is the thickness of the rail that the edge goes round; an edge turned
	// below a rail needs it.
	Rail     unit.Length `json:"rail,omitzero"`
	Handling unit.Length `json:"handling,omitzero"`
	// HiddenBy names the panels that hide the edge and are fitted after it. Of a
	// pair without a hand, that of the same hand.
	HiddenBy []string `json:"hidden_by,omitempty"`
}

// Edge gives the finish of the side's edges. Errors are *unit.InputError values
// that name the field.
func (f Fastening) Edge() (Edge, error) {
	if err := check.OneOf("finish", f.Kind.String(), fasteningKindNames()...); err != nil {
		return Edge{}, err
	}
	row := fasteningKinds[f.Kind]
	over, hold := row.over, row.hold
	if l, set := f.Over.Get(); set {
		over = l
	}
	if l, set := f.Hold.Get(); set {
		hold = l
	}
	for _, l := range []struct {
		field string
		l     unit.Length
	}{{"over", over}, {"hold", hold}, {"rail", f.Rail}, {"handling", f.Handling}} {
		if err := check.Length(l.field, l.l, 0, MostAllowance/4); err != nil {
			return Edge{}, err
		}
	}
	if f.Kind == TurnedBelow && f.Rail == 0 {
		return Edge{}, check.Required("rail", "the thickness of the rail")
	}
	return Edge{Finish: row.finish, Allowance: Exactly(over + f.Rail + hold), Handling: f.Handling}, nil
}

// sewn tells whether the edge is sewn to itself, off the frame.
func (f Fastening) sewn() bool { return f.Kind == Hemmed || f.Kind == HookAndLoop }
