package allowance

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SeamKind is how the sides of a seam are joined: [PlainJoin], [WeltedJoin],
// [TopStitchedJoin], [DoubleTopStitchedJoin], [FelledJoin], [ZipJoin],
// [GatheredJoin], [HandJoin], [HookAndLoopJoin] or [TiedJoin]. The zero value is a plain seam.
type SeamKind uint8

const (
	// PlainJoin is one row, face to face.
	PlainJoin SeamKind = iota
	// WeltedJoin has a covered cord between the sides.
	WeltedJoin
	// TopStitchedJoin turns both allowances to the second side and sews them
	// down there with one row.
	TopStitchedJoin
	// DoubleTopStitchedJoin opens the seam and sews a row on each side of it.
	DoubleTopStitchedJoin
	// FelledJoin encloses both raw edges under two rows.
	FelledJoin
	// ZipJoin sets a zip between two sides, or one tape of it to one side.
	ZipJoin
	// GatheredJoin takes the longer side up in gathers.
	GatheredJoin
	// HandJoin is closed from outside with a curved needle, on the frame where
	// its panels are fastened.
	HandJoin
	// HookAndLoopJoin turns both sides in and closes them with tape, as the back of
	// a slip cover is: each tape lies on its hem with two rows.
	HookAndLoopJoin
	// TiedJoin turns both sides in with a row each and closes them with ties.
	TiedJoin
)

// seamKinds is the one table of the kinds of seams.
var seamKinds = [...]struct {
	name      string
	finish    Finish // of the edges
	allowance unit.Length
	iso       string // ISO 4916
	federal   string // Federal Standard 751a
}{
	PlainJoin:             {"plain seam", PlainSeam, unit.Inch / 2, "1.01.01", "SSa-1"},
	WeltedJoin:            {"welted seam", WeltedSeam, unit.Inch / 2, "", ""},
	TopStitchedJoin:       {"top-stitched seam", TopStitchedSeam, unit.Inch / 2, "2.02.03", "LSq-2"},
	DoubleTopStitchedJoin: {"double top-stitched seam", TopStitchedSeam, unit.Inch / 2, "", ""},
	FelledJoin:            {"felled seam", TopStitchedSeam, 9 * unit.Inch / 16, "2.04", "LSc-2"},
	ZipJoin:               {"zip", ZipSeam, 3 * unit.Inch / 4, "", ""},
	GatheredJoin:          {"gathered seam", PlainSeam, unit.Inch / 2, "", ""},
	HandJoin:              {"hand-closed seam", PlainSeam, unit.Inch / 2, "", "SSc-1"},
	HookAndLoopJoin:       {"hook-and-loop closing", SingleHem, unit.Inch, "", ""},
	TiedJoin:              {"tied closing", SingleHem, unit.Inch, "", ""},
}

func seamKindNames() []string {
	out := make([]string, len(seamKinds))
	for i, k := range seamKinds {
		out[i] = k.name
	}
	return out
}

// String gives the trade name.
func (k SeamKind) String() string { return enum.Name(k, "finish", seamKindNames()) }

// MarshalText writes the name.
func (k SeamKind) MarshalText() ([]byte, error) { return enum.Text(k, "finish", seamKindNames()) }

// UnmarshalText reads what String writes.
func (k *SeamKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "finish", seamKindNames())
}

// Default gives the allowance of each side. A felled seam takes 1.5 times its
// lap of 3/8 in, a plain seam stands on what [PlainSeam] does; the others are
// common practice.
func (k SeamKind) Default() (unit.Length, cite.Basis) {
	if int(k) >= len(seamKinds) {
		return 0, cite.Basis{}
	}
	switch k {
	case PlainJoin:
		return PlainSeam.Default()
	case FelledJoin:
		return seamKinds[k].allowance, cite.Basis{Status: cite.Derived, Note: "9/16 in, half the lap of 3/8 in and the lap turned in"}
	}
	return seamKinds[k].allowance, cite.Practice(seamKinds[k].allowance.String() + " from the edge to the stitches")
}

// Designations gives the letters of the seam in ISO 4916 and in Federal Standard
// 751a, empty where none is known. They are from memory: the tables of neither
// were read.
func (k SeamKind) Designations() (iso, federal string, basis cite.Basis) {
	if int(k) >= len(seamKinds) || seamKinds[k].iso == "" && seamKinds[k].federal == "" {
		return "", "", cite.Basis{}
	}
	return seamKinds[k].iso, seamKinds[k].federal, cite.Memory("ISO 4916 and Federal Standard 751a, neither table read")
}

// Seam joins sides with a row of stitching, or a side with the tape of a zip. A
// plain seam may have more than two sides: two channels and their lining.
type Seam struct {
	Name  string   `json:"name,omitempty"` // of the shop's own; seams are lettered anyway
	Sides []Side   `json:"sides" required:"true" hint:"two sides or more"`
	Kind  SeamKind `json:"finish,omitzero"`
	// Allowance of every side replaces that of the kind; Handling is left
	// outside it. Both from 0 to 2 m.
	Allowance Override    `json:"allowance,omitzero"`
	Handling  unit.Length `json:"handling,omitzero"`

	// Cord is the diameter of the cord of a welt and Welt the id of the goods
	// that cover it. A welted seam has both, others neither. The welt goes on the
	// first side first, which is the one that holds its shape.
	Cord unit.Length `json:"cord,omitzero"`
	Welt string      `json:"welt,omitempty"`
	Bias bool        `json:"bias,omitzero"` // of the welt: cut at 45 degrees

	// Row is how far from the seam line a top-stitched row lies; zero means
	// 3/16 in. It catches the allowance when the allowance is 1/8 in more.
	Row unit.Length `json:"row,omitzero"`
	// Backing is the id of goods a strip of which lies under the rows of a double
	// top-stitched seam.
	Backing string `json:"backing,omitempty"`

	// Tape names the zip that a single side is sewn to. Just two seams of a
	// cover name the same one.
	Tape string `json:"tape,omitempty"`

	// Lap is how far the first side of a plain seam of two laps over the second
	// and is folded back, as the end of a boxing does over the slider of its zip:
	// its edge has twice the lap more.
	Lap unit.Length `json:"lap,omitzero"`
	// Opening is how much of the seam, from the start of its first side, is left
	// open to turn the cover through and then closed by hand.
	Opening unit.Length `json:"opening,omitzero"`
	// Open names the edge of a part whose other side belongs to another cover:
	// the top of a skirt. A plain or gathered seam with one side, half of whose row
	// counts; or a plain one with two, such as the edge at which a cushion is sewn
	// to a back. In the larger cover another seam, or a fastening, has the name for a
	// side, such as skirt.top, and takes its place; a plain one gathers and pleats
	// as this one does.
	Open string `json:"open,omitempty"`

	// Fullness is the longer side per length of the shorter: in a gathered seam
	// from 1.1 to 4, where zero takes the sides as they are; in a plain or welted
	// one from 1 to 10, laid in pleats.
	Fullness unit.Ratio `json:"fullness,omitzero"`
	// Stretched says that the shorter side is stretched to the longer, as one on
	// the bias or of leather can be, in place of easing the longer one in: the
	// limits of its goods count.
	Stretched bool `json:"stretched,omitzero"`
	// FlatEnds is how much of each end takes no ease where ease has a place of
	// its own; zero means 1 in.
	FlatEnds unit.Length `json:"flat_ends,omitzero"`

	Pattern Crossing `json:"pattern,omitzero"`
}

const (
	defaultRow = 3 * unit.Inch / 16
	rowCatch   = unit.Inch / 8 // of the allowance beyond a top-stitched row
)

// opens tells whether what the seam closes can be opened again, or is closed from
// outside.
func (k SeamKind) opens() bool {
	return k == ZipJoin || k == HandJoin || k == HookAndLoopJoin || k == TiedJoin
}

// row gives the place of top-stitched rows.
func (s Seam) row() unit.Length {
	if s.Row == 0 {
		return defaultRow
	}
	return s.Row
}

// edge gives the finish of the sides' edges.
func (s Seam) edge() Edge {
	if int(s.Kind) >= len(seamKinds) {
		return Edge{}
	}
	e := Edge{Finish: seamKinds[s.Kind].finish, Allowance: s.Allowance, Handling: s.Handling}
	if def, _ := e.Finish.Default(); s.Allowance.IsZero() && def != seamKinds[s.Kind].allowance {
		e.Allowance = Exactly(seamKinds[s.Kind].allowance)
	}
	return e
}

// sideEdge gives the finish of the edges of one side: that which laps has
//
//	allowance = s + 2 lap
func (s Seam) sideEdge(side int) Edge {
	e := s.edge()
	if side == 0 && s.Lap != 0 {
		l, set := e.Allowance.Get()
		if !set {
			l, _ = e.Finish.Default()
		}
		e.Allowance = Exactly(l + 2*s.Lap)
	}
	return e
}
