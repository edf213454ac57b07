package bench

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Ask asks for the time that a piece of furniture usually takes. A piece
// without labour of its own is priced by it; beside labour of its own it is shown.
// Most fields are for what the job cannot tell.
type Ask struct {
	// Piece is a row of the table of times, such as club chair; that of the kind
	// when not given. Of a piece of cushions only it is the row of each, and need
	// not be given.
	Piece  string      `json:"piece,omitzero"`
	Length unit.Length `json:"length,omitzero"` // of running furniture, such as a booth
	// Tasks are those that are needed; when not given, those of the row but sewing
	// where nothing is sewn, padding of cushions without filling, and work on the
	// frame where nothing of it is renewed.
	Tasks []Task `json:"tasks,omitempty"`
	// Extras are in place of those of the same name that are counted on the cover:
	// welt, channels, buttons, skirts, hand-sewn edges and nails.
	Extras []Work `json:"extras,omitempty"`
	// Goods are a row of goods that take longer. When not given, the goods that
	// most of the cover is cut from say it: leather, vinyl, and velvet for what
	// has a nap.
	Goods string `json:"goods,omitzero"`
	// Match says whether a pattern is matched; when not given, whether anything
	// must lie on one.
	Match *bool       `json:"match,omitzero"`
	Share *unit.Ratio `json:"share,omitzero"` // how far up each range; that of the table of times when not given
	// Learning is what each doubling of the number of pieces leaves of the time of
	// one, as of labour.
	Learning *unit.Ratio `json:"learning,omitzero"`
	// Actual is the time that all tasks took in the end, on all pieces, where the
	// piece has no labour of its own.
	Actual unit.Duration `json:"actual,omitzero"`
}

// Visit is a task around the bench that is charged by the hour: measuring on
// site, quoting, ordering and receiving goods, collecting, delivering or setting up. It
// belongs to the whole job.
type Visit struct {
	Task  Task          `json:"task" required:"true" hint:"one of measure, quote, order, collect, deliver, set"`
	Name  string        `json:"name,omitzero"`            // on the quote, in place of the task
	Count int           `json:"count,omitzero" least:"1"` // how often; 1 when not given
	Time  unit.Duration `json:"time,omitzero"`            // of each; the usual one when not given
	// Actual is the time that all of it took in the end.
	Actual unit.Duration `json:"actual,omitzero"`
}

// Answer is the time that a piece of furniture usually takes. It is a rule of
// thumb.
type Answer struct {
	Piece string `json:"piece"`
	Count int    `json:"count"`
	Parts []Part `json:"parts"` // the piece itself, or its cushions
	// Time is the range for one piece of furniture and Usual lies in it.
	Time  Span          `json:"time"`
	Usual unit.Duration `json:"usual"`
	// Own is what the shop has for one, where its figures say nothing of tasks.
	Own    unit.Duration `json:"own,omitzero"`
	Priced bool          `json:"priced,omitempty"` // its lines are the labour of the piece
	// Quoted is then what they come to on all pieces, and Actual what it took.
	Quoted unit.Duration `json:"quoted,omitzero"`
	Actual unit.Duration `json:"actual,omitzero"`
	Kind   cite.Kind     `json:"kind"` // always cite.RuleOfThumb
}

// Part is the usual time of a piece of furniture, or of a cushion.
type Part struct {
	Part     string    `json:"part,omitempty"` // the cushion
	Count    int       `json:"count"`          // in one piece of furniture
	Row      string    `json:"row"`            // of the table
	Estimate Estimate  `json:"estimate"`       // of one
	LeftOut  []LeftOut `json:"left_out,omitempty"`
}

// LeftOut is a task of a row that is not needed.
type LeftOut struct {
	Task Task   `json:"task"`
	Why  string `json:"why"`
}

// Over gives a with the row of k and what goes with it, where a names none: k is what
// a kind of furniture asks.
func (a Ask) Over(k Ask) Ask {
	if a.Piece != "" {
		return a
	}
	a.Piece = k.Piece
	if a.Length == 0 {
		a.Length = k.Length
	}
	if len(a.Tasks) == 0 {
		a.Tasks = k.Tasks
	}
	return a
}

// Of gives what is usual for some tasks of one piece of furniture, their range first;
// nothing where a is nil. It wraps unit.ErrOverflow.
func (a *Answer) Of(tasks ...Task) (Span, unit.Duration, error) {
	var span Span
	var sum unit.Duration
	if a == nil {
		return span, sum, nil
	}
	for _, p := range a.Parts {
		for _, l := range p.Estimate.Lines {
			if !slices.Contains(tasks, l.Task) {
				continue
			}
			for range p.Count {
				var err error
				if span, err = span.Plus(l.Time); err == nil {
					sum, err = sum.Plus(l.Usual)
				}
				if err != nil {
					return span, sum, err
				}
			}
		}
	}
	return span, sum, nil
}

// TaxClass gives the class that all of some tasks share, that of cost.Labour where they
// do not, or where there are none; see [Task.TaxClass]. A nil a knows of nothing that is
// made new.
func (a *Answer) TaxClass(tasks ...Task) cost.TaxClass {
	var class cost.TaxClass
	for _, t := range tasks {
		own := t.TaxClass(false)
		if a != nil {
			for _, p := range a.Parts {
				for _, l := range p.Estimate.Lines {
					if l.Task == t {
						own = l.TaxClass
					}
				}
			}
		}
		if class != "" && own != class {
			return cost.Labour.TaxClass()
		}
		class = own
	}
	if class == "" {
		return cost.Labour.TaxClass()
	}
	return class
}
