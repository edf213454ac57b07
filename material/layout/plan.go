package layout

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Plan is a job laid out: where every piece lies, what is to be bought, and
// what is claimed of it. [Plan.Verify] checks all of it.
type Plan struct {
	Job       Job         `json:"job"`
	Tolerance unit.Length `json:"tolerance"` // of curved outlines
	// Method is the way in which the places were found.
	Method Method  `json:"method"`
	Places []Place `json:"places"`           // by piece, copy and segment
	Joins  []Join  `json:"joins,omitempty"`  // of pieces joined from segments
	Claims []Claim `json:"claims,omitempty"` // the layouts first, then the bounds, the best first
	// Proved says that no layout of the true outlines is shorter, or takes
	// fewer hides; of pieces that are joined to match the pattern, none with
	// the same joins.
	Proved bool      `json:"proved"`
	Kind   cite.Kind `json:"kind"` // always cite.Layout
	// Stopped says that the search was cancelled: the plan is right, but more
	// effort might have made it better.
	Stopped bool `json:"stopped,omitempty"`

	// Of a roll.

	Need  unit.Length `json:"need,omitzero"`  // the length the places take
	Order unit.Length `json:"order,omitzero"` // to buy: Need and Spare with shrinkage, rounded up to the increment
	// Spare is what is bought to cut the bolt back to the motif where its start is
	// not known.
	Spare unit.Length `json:"spare,omitzero"`
	// Motifs are where a motif lies, in the axes of the roll, where the layout
	// chose that: the first of the goods, then the one that each number of
	// Phase.Common goes by. Otherwise none.
	Motifs []shape.Point `json:"motifs,omitempty"`

	// Of hides.

	// Hides are those of the job in its order, those at hand first, then the
	// usual ones that were added.
	Hides    []material.Skin `json:"hides,omitempty"`
	Used     []int           `json:"used,omitempty"`     // in use, by index
	Bought   []int           `json:"bought,omitempty"`   // in use and not at hand
	Unplaced []Copy          `json:"unplaced,omitempty"` // found no room
	Areas    Areas           `json:"areas,omitzero"`
	Offcuts  []Offcut        `json:"offcuts,omitempty"` // hide by hide, largest first
}

// Areas sum up a plan on hides.
type Areas struct {
	Placed unit.Area `json:"placed"` // of the pieces placed
	Sold   unit.Area `json:"sold"`   // of the hides in use, as they are sold
	Bought unit.Area `json:"bought"` // of those to be bought
	Gross  unit.Area `json:"gross"`  // inside the outlines of the hides in use
	Usable unit.Area `json:"usable"` // inside their borders, less holes
}

// Place is one piece as it lies, or one segment of a joined piece: its outline
// mirrored left for right about the origin of its axes if Mirrored, turned
// about that origin, then moved by X and Y. On a roll X runs across the usable
// width and Y along it; on a hide the axes are those of the hide. The outline of
// a segment is a rectangle with its lower left corner at the origin.
type Place struct {
	Piece    int         `json:"piece"` // index into the pieces of the job
	Copy     int         `json:"copy"`  // from 0
	Segment  int         `json:"segment,omitzero"`
	Segments int         `json:"segments"`        // 1 for a whole piece
	Hide     int         `json:"hide,omitzero"`   // index into the hides of the plan
	Turned   unit.Angle  `json:"turned,omitzero"` // anticlockwise; on a roll by quarters
	Mirrored bool        `json:"mirrored,omitempty"`
	X        unit.Length `json:"x"`
	Y        unit.Length `json:"y"`
	// Outline is the piece as it lies: a polygon that holds the true outline and
	// is larger by the tolerance of the plan at most.
	Outline []shape.Point `json:"outline"`
}

// Bounds gives the corners of the box round a place.
func (p Place) Bounds() (low, high shape.Point) {
	for i, q := range p.Outline {
		if i == 0 {
			low, high = q, q
		}
		low = shape.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = shape.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	return low, high
}

// Join is a seam of a piece joined from segments, At from the start of its
// divided side.
type Join struct {
	Piece int         `json:"piece"`
	Copy  int         `json:"copy"`
	At    unit.Length `json:"at"`
}

// Copy names one copy of a piece.
type Copy struct {
	Piece int `json:"piece"`
	Copy  int `json:"copy"`
}

// Offcut is a clear rectangle of the goods that is left over.
type Offcut struct {
	Hide   int         `json:"hide,omitzero"` // of hides, by index
	X      unit.Length `json:"x"`             // lower left corner, in the axes of the places
	Y      unit.Length `json:"y"`
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"`
}

// Bound gives the best bound of the plan: a length, or a number of hides, that
// no layout of the true outlines can stay under.
func (p Plan) Bound() Claim {
	for _, c := range p.Claims {
		if c.Kind == cite.Bound {
			return c
		}
	}
	return Claim{Kind: cite.Bound, Method: BySomethingToCut}
}

// Found gives the best layout that a method found, if it found one.
func (p Plan) Found(m Method) (Claim, bool) {
	i := slices.IndexFunc(p.Claims, func(c Claim) bool { return c.Method == m })
	if i < 0 {
		return Claim{}, false
	}
	return p.Claims[i], true
}

// Gap gives how much longer the plan is than its bound, as a share of the
// bound: the best layout is shorter by less. Zero on hides.
func (p Plan) Gap() unit.Ratio {
	b := p.Bound().Length
	if b == 0 {
		return 0
	}
	r, err := (p.Need - b).Per(b)
	if err != nil {
		return 0
	}
	return r
}

// Complete tells whether every piece has a place.
func (p Plan) Complete() bool { return len(p.Unplaced) == 0 }

// Net gives the area of the pieces placed, as they lie. An error wraps ErrBadLayout
// for a place of a piece that the job does not have.
func (p Plan) Net() (unit.Area, error) {
	var sum unit.Area
	for i, q := range p.Places {
		if q.Piece < 0 || q.Piece >= len(p.Job.Pieces) {
			return 0, badPlan("place %d: no such piece", i)
		}
		a := p.Job.Pieces[q.Piece].Outline.Area()
		if q.Segments > 1 {
			low, high := q.Bounds()
			var err error
			if a, err = (high.X - low.X).By(high.Y - low.Y); err != nil {
				return 0, err
			}
		}
		var err error
		if sum, err = sum.Plus(a); err != nil {
			return 0, err
		}
	}
	return sum, nil
}

// Yield gives the share of the goods in use that the pieces take: of a roll the
// length ordered over the full width, of hides their area as sold. Zero for an
// empty plan.
func (p Plan) Yield() (unit.Ratio, error) {
	if p.Job.Hides != nil {
		return share(p.Areas.Placed, p.Areas.Sold), nil
	}
	if p.Job.Roll == nil {
		return 0, nil
	}
	return p.shareOf(p.Order, p.Job.Roll.Width)
}

// Density gives the share of the needed ground that the pieces take: of a roll
// the needed length over the usable width, of hides what is inside the borders of
// those in use, less holes. Zero for an empty plan.
func (p Plan) Density() (unit.Ratio, error) {
	if p.Job.Hides != nil {
		return share(p.Areas.Placed, p.Areas.Usable), nil
	}
	if p.Job.Roll == nil {
		return 0, nil
	}
	return p.shareOf(p.Need, p.Job.Roll.Usable())
}

func (p Plan) shareOf(l, w unit.Length) (unit.Ratio, error) {
	used, err := p.Net()
	if err != nil || l == 0 {
		return 0, err
	}
	all, err := l.By(w)
	if err != nil {
		return 0, err
	}
	return used.Per(all)
}

func share(a, b unit.Area) unit.Ratio {
	if r, err := a.Per(b); err == nil {
		return r
	}
	return 0
}

// On gives the places on one hide, in the order of the plan.
func (p Plan) On(hide int) []Place {
	var out []Place
	for _, q := range p.Places {
		if q.Hide == hide {
			out = append(out, q)
		}
	}
	return out
}

// sort puts places in the order of pieces, copies and segments.
func (p *Plan) sort() {
	slices.SortStableFunc(p.Places, func(a, b Place) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy), cmp.Compare(a.Segment, b.Segment))
	})
	slices.SortStableFunc(p.Joins, func(a, b Join) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy), cmp.Compare(a.At, b.At))
	})
	slices.SortStableFunc(p.Unplaced, func(a, b Copy) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
	})
}

func badPlan(format string, args ...any) error {
	return fmt.Errorf(format+": %w", append(args, ErrBadLayout)...)
}

// Verify checks the plan by verifiers that share no code with the engines:
// every copy of every piece stands once, or is listed as unplaced, with its
// shape and hand, turned only where it may be, inside the goods, on the repeat,
// off flaws, holes and ground it does not take, with its shade group, overlapping
// no other and no closer to it than the gap; joined pieces add up, and the pattern
// runs on over the joins of those that lie on it; what is ordered, the areas and the claims follow from the places. Curved outlines are
// compared within the tolerance, on the safe side. An error wraps ErrBadLayout,
// or is one of the input.
func (p Plan) Verify() error {
	if err := p.Job.check(); err != nil {
		return err
	}
	o, err := Options{Tolerance: p.Tolerance}.checked()
	if err != nil {
		return err
	}
	if err := p.verifyClaims(); err != nil {
		return err
	}
	if p.Job.Hides != nil {
		t, err := newHideTable(p.Job, p.Hides, o.Tolerance)
		if err != nil {
			return err
		}
		return p.verifyHides(t)
	}
	return p.verifyRoll(o.Tolerance)
}

// verifyClaims checks that the claims agree with the plan and with one another.
func (p Plan) verifyClaims() error {
	best := Claim{}
	for i, c := range p.Claims {
		switch {
		case c.Method.Lays() != (c.Kind == cite.Layout):
			return badPlan("claim %d: %v is no %v", i, c.Method, c.Kind)
		case c.Kind == cite.Bound && p.Complete() && (c.Length > p.Need || c.Hides > len(p.Used)):
			return badPlan("claim %d: under the bound by %v", i, c.Method)
		case c.Kind == cite.Layout && (c.Length < p.Need || c.Method == p.Method && c.Length > p.Need):
			return badPlan("claim %d: %v found %v, the plan takes %v", i, c.Method, c.Length, p.Need)
		}
		if c.Kind == cite.Bound {
			best.Length, best.Hides = max(best.Length, c.Length), max(best.Hides, c.Hides)
		}
	}
	if _, ok := p.Found(p.Method); !ok {
		return badPlan("no claim by %v, which made the plan", p.Method)
	}
	if proved := p.Complete() && best.Length == p.Need && best.Hides == len(p.Used); p.Proved != proved {
		return badPlan("proved is %v, with %v or %d hides against a bound of %v or %d", p.Proved, p.Need, len(p.Used), best.Length, best.Hides)
	}
	return nil
}
