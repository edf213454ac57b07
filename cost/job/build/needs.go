package build

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material/findings"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Need is what one piece of furniture needs of a finding.
type Need struct {
	ID   string           `json:"id"` // with its variant
	Net  cost.AnyQuantity `json:"net"`
	Ends cost.AnyQuantity `json:"ends,omitzero"` // what ends and joins take
	How  string           `json:"how"`           // it came about
	// Cloth are pieces of a flat cloth, in place of Net: the length follows from the
	// roll.
	Cloth []findings.ClothPiece `json:"cloth,omitempty"`
	// Staples are edges that are stapled alike, in place of Net.
	Staples []findings.Staples `json:"staples,omitempty"`
	// Leg is what staples that are counted need at least.
	Leg   unit.Length `json:"leg,omitzero"`
	Basis cite.Basis  `json:"basis"`
}

// Question is what nobody said and a finding needs.
type Question struct {
	Piece string    `json:"piece,omitempty"` // of furniture, on an order
	Text  string    `json:"text"`
	Field unit.Path `json:"field"` // that answers it: of the piece of furniture, on an order of the job file
}

// What is under the crown of a staple beside cover goods, and how deep it goes; the
// thicknesses are from memory.
const (
	foldedWebbing = 3 * unit.Millimetre
	foldedBurlap  = 2 * unit.Millimetre
	foldedDust    = unit.Millimetre
	clothPitch    = 3 * unit.Inch / 2
	railBite      = unit.Inch / 4
	dustBite      = 3 * unit.Inch / 16
	unknownRail   = 500 * unit.Millimetre // never too thin
)

// needing gathers what a piece needs.
type needing struct {
	spec  Spec
	needs []Need
	asks  []Question
	err   error
}

// Needs gives what the build takes, and what must be asked first. Errors name the
// field and wrap those of package findings.
func (s Spec) Needs() ([]Need, []Question, error) {
	n := needing{spec: s}
	n.support("seat", s.Seat, place{})
	n.support("back", s.Back, place{back: true})
	n.support("arms", s.Arms, place{back: true, each: "each arm"})
	n.edgeRoll()
	for i, f := range s.Felt {
		n.in(unit.Path("felt").At(i), n.felt(f.Face, max(f.Count, 1), max(f.Layers, 1), "on "+size(f.Face)))
	}
	n.cloths()
	n.underside()
	n.stands()
	n.loose()
	for i, m := range s.More {
		n.in(unit.Path("more").At(i), n.more(m))
	}
	return n.needs, n.asks, n.err
}

// in keeps the first error, at its place.
func (n *needing) in(at unit.Path, err error) {
	if err != nil && n.err == nil {
		n.err = unit.InField(at, err)
	}
}

func (n *needing) ask(field unit.Path, text string) {
	n.asks = append(n.asks, Question{Text: text, Field: unit.Path("build").Dot(field)})
}

// length adds a length; nothing is left out.
func (n *needing) length(id string, net, ends unit.Length, how string, basis cite.Basis) {
	if net == 0 {
		return
	}
	x := Need{ID: id, Net: cost.AnyOf(net), How: how, Basis: basis}
	if ends != 0 {
		x.Ends = cost.AnyOf(ends)
	}
	n.needs = append(n.needs, x)
}

// count adds a number of pieces; none is left out.
func (n *needing) count(id string, k int, how string, basis cite.Basis) {
	if k == 0 {
		return
	}
	n.needs = append(n.needs, Need{ID: id, Net: cost.AnyOf(cost.Pieces(k)), How: how, Basis: basis})
}

// staple adds staples along edges.
func (n *needing) staple(what string, pitch, layers, bite unit.Length, edges ...unit.Length) {
	n.needs = append(n.needs, Need{ID: "staple", How: fmt.Sprintf("%s at %v", what, pitch), Basis: cite.Memory("thickness under the crown; pitch and bite by custom"),
		Staples: []findings.Staples{{Edges: edges, Pitch: pitch, Layers: layers, Bite: bite, Rail: n.spec.Stapled()}}})
}

// Stapled gives the thickness of the rails that staples go into; one that nobody gave
// is never too thin.
func (s Spec) Stapled() unit.Length {
	if s.Rail == 0 {
		return unknownRail
	}
	return s.Rail
}

func (n *needing) edgeRoll() {
	var net unit.Length
	for i, l := range n.spec.EdgeRoll {
		n.in(unit.Path("edge_roll").At(i), check.Length("", l, unit.Millimetre, 100*unit.Metre))
		net += l
	}
	n.length("edge roll", net, 0, "the runs as given", cite.Basis{Status: cite.Derived})
}

// feltMargin is how far felt reaches beyond the opening, on every side: over the
// rails.
const feltMargin = 2 * unit.Inch

// felt adds cotton felt.
func (n *needing) felt(f Face, count, layers int, how string) error {
	if err := check.Count("count", count, 1, 1000); err != nil {
		return err
	}
	area, err := f.area()
	if err != nil {
		return err
	}
	if area, err = area.Times(count); err != nil {
		return err
	}
	s, err := findings.Felt{Area: area, Layers: layers}.Order(findings.Buying[unit.Mass]{})
	if err != nil {
		return err
	}
	if layers > 1 {
		how += fmt.Sprintf(" in %d layers", layers)
	}
	n.needs = append(n.needs, Need{ID: "felt", Net: cost.AnyOf(s.Net), How: times(count, how), Basis: cite.Practice("6.75 sq ft a pound")})
	return nil
}

// area checks a face and gives its area.
func (f Face) area() (unit.Area, error) {
	if err := f.check(); err != nil {
		return 0, err
	}
	return f.Width.By(f.Depth)
}

func (f Face) check() error {
	if err := check.Length("width", f.Width, unit.Centimetre, 10*unit.Metre); err != nil {
		return err
	}
	return check.Length("depth", f.Depth, unit.Centimetre, 10*unit.Metre)
}

func size(f Face) string { return f.Width.String() + " x " + f.Depth.String() }

// times says how often.
func times(n int, what string) string {
	if n == 1 {
		return what
	}
	return fmt.Sprintf("%d times %s", n, what)
}

// cloths adds flat cloths as they are cut.
func (n *needing) cloths() {
	for i, c := range n.spec.Cloths {
		at := unit.Path("cloths").At(i)
		f, err := Named(c.ID)
		if err == nil && f.Roll == 0 {
			err = check.Refuse("", c.ID, unit.ErrUnknown, "a cloth: burlap, wrap, decking, dust cover, muslin or interliner")
		}
		n.in(at.Dot("id"), err)
		n.in(at, c.Face.check())
		if n.err != nil {
			return
		}
		count := max(c.Count, 1)
		n.in(at, check.Count("count", count, 1, 1000))
		n.cloth(c.ID, c.Face, count, times(count, size(c.Face)), cite.Basis{Status: cite.Derived})
		if len(c.Stapled) > 0 {
			for range count {
				n.staple(c.ID, clothPitch, foldedDust, dustBite, c.Stapled...)
			}
		}
	}
}

// cloth adds pieces of a flat cloth by the size they are cut to.
func (n *needing) cloth(id string, f Face, count int, how string, basis cite.Basis) {
	n.needs = append(n.needs, Need{ID: id, Cloth: []findings.ClothPiece{{Width: f.Width, Length: f.Depth, Count: count}}, How: how, Basis: basis})
}

// underside adds the dust cover.
func (n *needing) underside() {
	u := n.spec.Underside
	if u == nil {
		return
	}
	n.in("underside", u.check())
	if n.err != nil {
		return
	}
	cut, err := findings.Sheet{Width: u.Width, Depth: u.Depth}.Cut()
	n.in("underside", err)
	n.cloth("dust cover", Face{cut.Width, cut.Depth}, 1, size(*u)+" and 1 in to turn on every side", cut.Basis)
	n.staple("dust cover", clothPitch, foldedDust, dustBite, u.Width, u.Width, u.Depth, u.Depth)
}

// stands adds what it stands on.
func (n *needing) stands() {
	given := cite.Basis{Status: cite.Derived, Note: "as given"}
	if f := n.spec.Feet; f != nil {
		n.in("feet", check.Count("", *f, 0, 100))
		n.count("foot", *f, "as given", given)
	}
	if g := n.spec.Glides; g != nil {
		n.in("glides", check.Count("", *g, 0, 100))
		n.count("glide", *g, "as given", given)
	}
	if n.spec.Feet == nil && n.spec.Glides == nil && n.spec.open() {
		n.ask("feet", "how many feet or glides, 0 where it has none")
	}
}

// open tells whether the frame is open below, as one that stands on feet of its own.
func (s Spec) open() bool {
	return s.Underside != nil || s.Seat != nil && s.Seat.On != Board
}

// Closed says how the underside is closed where nobody said its size; other says
// that a panel of the cover does it.
func (s Spec) Closed(other bool) []Question {
	if s.Underside != nil || other || s.Seat == nil || s.Seat.On == Board || s.Seat.On == AsFound {
		return nil
	}
	return []Question{{Text: "dust cover: the outer size of the underside", Field: "build.underside"}}
}

// loose checks what every cushion has; package job counts the cushions.
func (n *needing) loose() {
	l := n.spec.Loose
	if l == nil {
		return
	}
	for i, r := range l.HookAndLoop {
		n.in(unit.Path("loose.hook_and_loop").At(i), check.Length("", r, unit.Millimetre, 100*unit.Metre))
	}
	n.in("loose.snaps", check.Count("", l.Snaps, 0, 1000))
	n.in("loose.drain_eyelets", check.Count("", l.Drains, 0, 1000))
}

// Needs gives what a number of cushions takes.
func (l Loose) Needs(cushions int) []Need {
	n := needing{}
	each := fmt.Sprintf("on each of %d cushions", cushions)
	if cushions == 1 {
		each = "on the cushion"
	}
	if run := findings.HookAndLoop(l.HookAndLoop); len(run.Runs) > 0 {
		s, err := run.Order(findings.Buying[unit.Length]{})
		if err == nil {
			n.length("hook and loop", s.Net*unit.Length(cushions), s.Ends*unit.Length(cushions), fmt.Sprintf("runs of %s and 1 in each, %s", list(l.HookAndLoop), each), cite.Practice("1 in a run"))
		}
	}
	n.count("snap", l.Snaps*cushions, fmt.Sprintf("%d %s", l.Snaps, each), cite.Basis{Status: cite.Derived})
	n.count("drain eyelet", l.Drains*cushions, fmt.Sprintf("%d %s", l.Drains, each), cite.Basis{Status: cite.Derived})
	return n.needs
}

// list writes lengths, equal ones once.
func list(ls []unit.Length) string {
	var out []string
	for i := 0; i < len(ls); {
		k := i
		for k < len(ls) && ls[k] == ls[i] {
			k++
		}
		out = append(out, times(k-i, ls[i].String()))
		i = k
	}
	return strings.Join(out, ", ")
}

// more adds a finding that is known otherwise.
func (n *needing) more(m More) error {
	f, err := Named(m.ID)
	if err != nil {
		return unit.InField("id", err)
	}
	how := m.What
	if how == "" {
		how = "as given"
	}
	_, counted := cost.QuantityAs[cost.Pieces](f.Step)
	_, long := cost.QuantityAs[unit.Length](f.Step)
	given := cite.Basis{Status: cite.Derived, Note: "as given"}
	switch {
	case len(m.Runs) > 0 && m.Count != 0:
		return check.Refuse("count", "", unit.ErrRange, "runs or a count, not both")
	case m.ID == "staple" && len(m.Runs) > 0:
		n.staple(how, unit.Inch, foldedBurlap, railBite, m.Runs...)
	case counted && m.Count > 0:
		if err := check.Count("count", m.Count, 1, 1_000_000); err != nil {
			return err
		}
		n.count(m.ID, m.Count, how, given)
	case long && len(m.Runs) > 0:
		run := Run(m.ID, m.Runs)
		s, err := run.Order(findings.Buying[unit.Length]{})
		if err != nil {
			return err
		}
		n.length(m.ID, s.Net, s.Ends, how+": "+list(m.Runs), given)
	case counted:
		return check.Required("count", "how many")
	case long:
		return check.Required("runs", "a list of lengths")
	default:
		return check.Refuse("id", m.ID, unit.ErrUnknown, "what is counted or has a length; felt and glue stand in fields of their own")
	}
	return nil
}

// Run gives lengths of a finding with what its ends take.
func Run(code string, runs []unit.Length) findings.Running {
	switch id, _, _ := strings.Cut(code, ","); id {
	case "cord":
		return findings.Cord(runs, false)
	case "gimp":
		return findings.Gimp(runs)
	case "hook and loop":
		return findings.HookAndLoop(runs)
	}
	return findings.Running{Runs: runs}
}
