package layout

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/pack/rect"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Shade is a group of pieces that must be cut from neighbouring places, for
// an even shade or matched seats.
type Shade struct {
	Window unit.Length `json:"window"` // all pieces of the group lie within this length of the roll
}

// BoxOptions steer a layout. The zero value is useful.
type BoxOptions struct {
	// Effort is the work to spend, counted in steps, never in time, so that
	// the same effort gives the same layout on every machine: 1 is about a
	// second of two cores. Zero takes a tenth. From 0.0001 to 100 000.
	Effort unit.Ratio
	// Seed chooses the random numbers of the search.
	Seed uint64
	// Gap is kept between pieces, for the knife; zero for none.
	Gap unit.Length
	// Shades are the groups that pieces name by number, the first is 1.
	Shades []Shade
	// Progress is called now and then with the state of the search; nil is
	// allowed.
	Progress func(BoxProgress)
}

// BoxProgress is the state of a running search.
type BoxProgress struct {
	Done  unit.Ratio  `json:"done"` // share of the effort spent
	Need  unit.Length `json:"need"` // best length so far
	Bound unit.Length `json:"bound"`
}

// Boxes lays pieces on a roll and keeps the length short. It searches from
// many starts, proves the optimum of small jobs, and states a bound that no
// layout can beat. On patterned goods every piece that is not Unmatched lies
// with its motif point on a motif.
//
// The layout is checked by [BoxPlan.Verify] before it is returned. When the
// context ends, the best layout so far is returned with Stopped set. Errors
// name the field and wrap ErrTooWide, ErrTooMany, ErrNoLayout, unit.ErrRange,
// unit.ErrForgottenUnit, unit.ErrNotFinite or unit.ErrOverflow.
func Boxes(ctx context.Context, roll material.Roll, pieces []Box, o BoxOptions) (BoxPlan, error) {
	job, err := rectJob(roll, pieces, o)
	if err != nil {
		return BoxPlan{}, err
	}
	ro := rect.Options{Effort: float64(o.Effort), Seed: o.Seed}
	if o.Progress != nil {
		ro.Progress = func(p rect.Progress) {
			o.Progress(BoxProgress{Done: unit.Ratio(p.Done), Need: unit.Length(p.Length), Bound: unit.Length(p.Bound)})
		}
	}
	plan, err := rect.Solve(ctx, job, ro)
	if err != nil {
		if errors.Is(err, rect.ErrNoLayout) {
			return BoxPlan{}, fmt.Errorf("%w: flaws, the horizontal repeat or a shade group leave no room", ErrNoLayout)
		}
		return BoxPlan{}, err
	}
	out := BoxPlan{Roll: roll, Pieces: slices.Clone(pieces), Shades: slices.Clone(o.Shades), Gap: o.Gap, Need: unit.Length(plan.Length),
		Bound: unit.Length(plan.Bound), Proved: plan.Proved, Stopped: plan.Stopped, Kind: cite.Layout,
		Method: "search from many starts"}
	if plan.Proved {
		out.Method += ", proved shortest"
	}
	for _, p := range plan.Placed {
		out.Placements = append(out.Placements, BoxPlacement{Piece: p.Piece, Copy: p.Copy, Segment: p.Segment, Segments: p.Segments,
			X: unit.Length(p.X), Y: unit.Length(p.Y), Width: unit.Length(p.W), Length: unit.Length(p.H), Degrees: degrees(p.Turn)})
	}
	for _, s := range plan.Seams {
		out.Seams = append(out.Seams, PiecingSeam{Piece: s.Piece, Copy: s.Copy, At: unit.Length(s.At)})
	}
	out.keepShorterRows(o)
	if out.Order, err = roll.Order(out.Need); err != nil {
		return BoxPlan{}, err
	}
	return out, out.Verify()
}

// keepShorterRows takes the rows on paper when a search of little effort ends
// behind them. It leaves the layout alone where rows cannot be laid.
func (l *BoxPlan) keepShorterRows(o BoxOptions) {
	if o.Gap != 0 || len(o.Shades) > 0 {
		return
	}
	rows, err := Rows(l.Roll, l.Pieces)
	if err != nil || rows.Need >= l.Need {
		return
	}
	l.Placements, l.Seams, l.Need, l.Method = rows.Placements, nil, rows.Need, rows.Method
	if l.Proved = l.Need == l.Bound; l.Proved {
		l.Method += ", proved shortest"
	}
}

func degrees(t rect.Turns) int {
	switch t {
	case rect.QuarterTurn:
		return 90
	case rect.HalfTurn:
		return 180
	case rect.ThreeQuarterTurn:
		return 270
	}
	return 0
}

func rectJob(roll material.Roll, pieces []Box, o BoxOptions) (*rect.Job, error) {
	if err := roll.Check(); err != nil {
		return nil, err
	}
	if len(pieces) == 0 {
		return nil, check.Required("pieces", "at least one piece")
	}
	if o.Effort != 0 {
		if err := check.Ratio("effort", o.Effort, 0.0001, 100_000); err != nil {
			return nil, err
		}
	}
	if err := check.Length("gap", o.Gap, 0, unit.Metre); err != nil {
		return nil, err
	}
	if err := check.Count("shades", len(o.Shades), 0, MostBoxes); err != nil {
		return nil, err
	}
	job := &rect.Job{Width: int64(roll.Usable()), Gap: int64(o.Gap), Repeat: rect.Repeat{PeriodX: int64(roll.Across), PeriodY: int64(roll.Repeat),
		DropNum: int64(roll.Drop.Num), DropDen: int64(roll.Drop.Den)}}
	for _, f := range roll.Flaws {
		w := f.Across(roll)
		if w > 0 {
			job.Flaws = append(job.Flaws, rect.Flaw{X: int64(f.X), Y: int64(f.Y), W: int64(w), H: int64(f.Length)})
		}
	}
	for i, s := range o.Shades {
		if err := check.Length(fmt.Sprintf("shades[%d].window", i), s.Window, unit.Millimetre, check.Longest); err != nil {
			return nil, err
		}
		job.Groups = append(job.Groups, rect.Group{Window: int64(s.Window)})
	}
	total := 0
	for i, p := range pieces {
		at := fmt.Sprintf("pieces[%d]", i)
		if err := p.check(); err != nil {
			return nil, unit.InField(at, err)
		}
		if total += p.Count; total > MostBoxes {
			return nil, tooMany(at, p.Count)
		}
		if err := check.Count(at+".shade", p.Shade, 0, len(o.Shades)); err != nil {
			return nil, err
		}
		if !p.Fits(roll) {
			return nil, tooWide(at, p.Width, roll)
		}
		job.Pieces = append(job.Pieces, p.rect(roll))
	}
	return job, nil
}

// rect gives the piece to the engine.
func (p Box) rect(roll material.Roll) rect.Piece {
	q := rect.Piece{W: int64(p.Width), H: int64(p.Length), Count: p.Count, Turns: rect.Upright, Group: p.Shade,
		MotifX: int64(p.MotifX), MotifY: int64(p.MotifY)}
	if p.matched(roll) {
		if roll.Across != 0 {
			q.Match |= rect.X
		}
		if roll.Repeat != 0 {
			q.Match |= rect.Y
		}
	}
	if p.Turn != KeepGrain && !roll.Nap {
		q.Turns |= rect.HalfTurn
	}
	if p.mayQuarter(roll) {
		q.Turns = rect.AnyTurn
	}
	if j := p.Join; j != nil {
		q.Split = &rect.Split{Along: rect.Y, Allowance: int64(j.Allowance), Min: int64(j.Least), MaxSeams: j.Most}
		if j.AlongWidth {
			q.Split.Along = rect.X
		}
	}
	return q
}

func tooWide(at string, width unit.Length, roll material.Roll) error {
	return check.Refuse(at+".width", width.String(), ErrTooWide, fmt.Sprintf("at most the usable width of %v", roll.Usable()))
}

func tooMany(at string, n int) error {
	return check.Refuse(at+".count", fmt.Sprint(n), ErrTooMany, fmt.Sprintf("at most %d pieces in all", MostBoxes))
}

// Railroaded is a job laid out both ways.
type Railroaded struct {
	UpTheRoll *BoxPlan `json:"up_the_roll,omitempty"` // nil when a piece is too wide for it
	Railroad  *BoxPlan `json:"railroad,omitempty"`    // every piece a quarter turn; nil when a piece is too long for it
	// Better is the one that needs less, up the roll when both need the same.
	Better *BoxPlan `json:"better,omitempty"`
}

// CompareRailroad lays the job out up the roll and railroaded, with every
// piece turned so that its top points to a selvage, and says which needs less.
// The goods must allow it: a one-way nap or pattern then points across the
// piece. Errors are those of Boxes when neither way works.
func CompareRailroad(ctx context.Context, roll material.Roll, pieces []Box, o BoxOptions) (Railroaded, error) {
	var out Railroaded
	up, errUp := Boxes(ctx, roll, pieces, o)
	if errUp == nil {
		out.UpTheRoll, out.Better = &up, &up
	} else if !errors.Is(errUp, ErrTooWide) {
		return Railroaded{}, errUp
	}
	turned := make([]Box, len(pieces))
	for i, p := range pieces {
		p.Width, p.Length, p.MotifX, p.MotifY = p.Length, p.Width, p.Length-p.MotifY, p.MotifX
		if p.Join != nil {
			j := *p.Join
			j.AlongWidth = !j.AlongWidth
			p.Join = &j
		}
		turned[i] = p
	}
	rail, errRail := Boxes(ctx, roll, turned, o)
	switch {
	case errRail == nil:
		out.Railroad = &rail
		if out.Better == nil || rail.Need < out.Better.Need {
			out.Better = &rail
		}
	case errUp != nil:
		return Railroaded{}, errUp
	case !errors.Is(errRail, ErrTooWide):
		return Railroaded{}, errRail
	}
	return out, nil
}
