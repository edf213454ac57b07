package build

import (
	"bytes"
	"encoding/json"
	"reflect"

	"github.com/coverwright/coverwright/unit"
)

// Spec is how one piece of furniture is built. In a file it may be the way of its
// kind alone, such as "webbed". The zero value says nothing of it.
type Spec struct {
	Way  string   `json:"way,omitzero"`  // of those of the kind; the usual one when not given
	Seat *Support `json:"seat,omitzero"` // what carries the seat
	Back *Support `json:"back,omitzero"` // what carries the back
	Arms *Support `json:"arms,omitzero"` // what lies in one arm; there are two
	// Rail is the thickness of the rails: staples that would come through are said.
	Rail unit.Length `json:"rail,omitzero"`
	// EdgeRoll are the lengths of edge roll, such as front and sides of the seat.
	EdgeRoll []unit.Length `json:"edge_roll,omitempty"`
	Felt     []Felt        `json:"felt,omitempty"`   // cotton felt
	Cloths   []Cloth       `json:"cloths,omitempty"` // flat cloths under the cover that are no goods of the job
	// Underside is what a dust cover closes, by its outer size; none when not given.
	Underside *Face    `json:"underside,omitzero"`
	Feet      *int     `json:"feet,omitzero" least:"0"`   // to put on; 0 where the old ones stay
	Glides    *int     `json:"glides,omitzero" least:"0"` // in the place of feet, or under them
	Nails     *Nails   `json:"nails,omitzero"`            // of the trims of the cover that are nails
	Buttons   *Buttons `json:"buttons,omitzero"`          // of tufting, bolsters and others
	Loose     *Loose   `json:"loose,omitzero"`            // what every cushion of the piece has
	// Glue says that batting is glued to the foam. Layers of foam always are.
	Glue       bool   `json:"glue,omitzero"`
	Interliner bool   `json:"interliner,omitzero"` // behind every panel of the cover
	More       []More `json:"more,omitempty"`      // findings that nothing else here tells
}

// Support is what carries a seat, a back or an arm. The zero value is refused.
type Support struct {
	On On `json:"on,omitzero"` // that of the kind when not given
	// Width is that of the opening, inside the rails.
	Width unit.Length `json:"width,omitzero"`
	Depth unit.Length `json:"depth,omitzero"` // from front to back, or from bottom to top
	Strip unit.Length `json:"strip,omitzero"` // the width of the webbing; 3 1/2 in when not given, of elastic 2 in
	// Gap is the widest between strips; 1 in when not given, of backs and arms 3 in. Of
	// elastic webbing it is 2 in and 4 in, between coils 2 in.
	Gap    unit.Length `json:"gap,omitzero"`
	OneWay bool        `json:"one_way,omitzero"` // leaves out the strips of webbing from side to side
	Clips  bool        `json:"clips,omitzero"`   // in the place of staples of elastic webbing, or of the sewing of coils
	Tacks  bool        `json:"tacks,omitzero"`   // in the place of staples of webbing
	Margin unit.Length `json:"margin,omitzero"`  // of coils, inside the opening; 2 in when not given
	Coil   unit.Length `json:"coil,omitzero"`    // the top coil across; 5 in when not given
	// Light ties coils four times, without the diagonals.
	Light bool `json:"light,omitzero"`
	// Kept says that the springs are: twine, ties and webbing are new.
	Kept bool `json:"kept,omitzero"`
	// Rise is how far zigzag springs arch, or coils stand above the rails.
	Rise  unit.Length `json:"rise,omitzero"`
	Side  unit.Length `json:"side,omitzero"`  // of the first zigzag spring from the side; 2 1/2 in when not given, of a back 3 in
	Pitch unit.Length `json:"pitch,omitzero"` // the widest between zigzag springs; 5 in when not given, of a back 7 in
	// Bare leaves out the burlap over webbing and springs.
	Bare bool `json:"bare,omitzero"`
	// Felt is layers of cotton felt, 2 in larger than the opening on every side.
	Felt int `json:"felt,omitzero" least:"0"`
}

// Face is a flat size.
type Face struct {
	Width unit.Length `json:"width" required:"true" hint:"across the front"`
	Depth unit.Length `json:"depth" required:"true" hint:"from front to back, or the height"`
}

// Felt is cotton felt on a face.
type Felt struct {
	Face
	Count  int `json:"count,omitzero" least:"1"`  // of such faces; 1 when not given
	Layers int `json:"layers,omitzero" least:"1"` // 1 when not given
}

// Cloth is a flat cloth as it is cut.
type Cloth struct {
	ID string `json:"id" required:"true" hint:"a finding that is a cloth: burlap, decking, dust cover, muslin, interliner or wrap"`
	Face
	Count int `json:"count,omitzero" least:"1"` // 1 when not given
	// Stapled are the edges of each that are stapled.
	Stapled []unit.Length `json:"stapled,omitempty"`
}

// Nails are decorative nails.
type Nails struct {
	Head unit.Length `json:"head" required:"true" hint:"the diameter of the head such as \"7/16 in\""`
	// Pitch is the widest from nail to nail; head to head when not given.
	Pitch unit.Length `json:"pitch,omitzero"`
	Strip bool        `json:"strip,omitzero"` // the heads are on a strip, with a true nail for every fifth
}

// Buttons are covered buttons that twine holds.
type Buttons struct {
	Line    int         `json:"line,omitzero" least:"10"` // the size, 40 to the inch
	Through unit.Length `json:"through,omitzero"`         // what the twine passes through
	Count   int         `json:"count,omitzero" least:"0"` // beside those of tufting and bolsters
}

// Loose is what every cushion of a piece has beside its cover.
type Loose struct {
	HookAndLoop []unit.Length `json:"hook_and_loop,omitempty"`          // runs on each cushion
	Snaps       int           `json:"snaps,omitzero" least:"0"`         // sets on each cushion
	Drains      int           `json:"drain_eyelets,omitzero" least:"0"` // on each cushion; two are usual aboard
}

// More is a finding that is known otherwise: runs of it, or a count.
type More struct {
	ID    string        `json:"id" required:"true" hint:"a finding such as \"card strip\", a variant after a comma"`
	Runs  []unit.Length `json:"runs,omitempty"`           // the length of each; of staples, the edges
	Count int           `json:"count,omitzero" least:"1"` // of what is counted
	What  string        `json:"what,omitzero"`            // where it goes
}

// alone tells whether the way is all that is said.
func (s Spec) alone() bool { return reflect.DeepEqual(s, Spec{Way: s.Way}) }

// UnmarshalText reads the way alone.
func (s *Spec) UnmarshalText(text []byte) error {
	*s = Spec{Way: string(text)}
	return nil
}

type whole Spec

// UnmarshalJSON reads the way alone, or all.
func (s *Spec) UnmarshalJSON(text []byte) error {
	if bytes.HasPrefix(text, []byte(`"`)) {
		*s = Spec{}
		return json.Unmarshal(text, &s.Way)
	}
	return json.Unmarshal(text, (*whole)(s))
}

// MarshalJSON writes what UnmarshalJSON reads.
func (s Spec) MarshalJSON() ([]byte, error) {
	if s.Way != "" && s.alone() {
		return json.Marshal(s.Way)
	}
	return json.Marshal(whole(s))
}

// Over gives s with what it does not say as the kind k has it.
func (s Spec) Over(k Spec) Spec {
	out := s
	over := reflect.ValueOf(&out).Elem()
	under := reflect.ValueOf(k)
	for i := range over.NumField() {
		if f := over.Field(i); f.IsZero() {
			f.Set(under.Field(i))
		}
	}
	out.Seat, out.Back, out.Arms = s.Seat.over(k.Seat), s.Back.over(k.Back), s.Arms.over(k.Arms)
	return out
}

// over gives the support with that of the kind where it does not say on what.
func (s *Support) over(k *Support) *Support {
	switch {
	case s == nil:
		return k
	case k == nil || s.On != 0:
		return s
	}
	out := *s
	out.On = k.On
	return &out
}
