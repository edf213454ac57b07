package bench

import (
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/enum"
)

// Task is one kind of work: at the bench [Strip], [Frame], [Pad], [Cut], [Sew],
// [Cover] and [Finish], around it [Measure], [Quote], [Order], [Collect], [Deliver]
// and [Set]. The zero value is none and is refused.
type Task uint8

const (
	// Strip takes off what is old.
	Strip Task = iota + 1
	// Frame is work on frame, webbing and springs.
	Frame
	// Pad builds up the filling.
	Pad
	// Cut lays out, marks and cuts the cover.
	Cut
	// Sew joins the cover.
	Sew
	// Cover puts the cover on, or the filling into it.
	Cover
	// Finish is closing, trimming, dust cover and feet.
	Finish
	// Measure is measuring where the piece stands.
	Measure
	// Quote is working out and writing the offer.
	Quote
	// Order is ordering goods and receiving them.
	Order
	// Collect is fetching the piece.
	Collect
	// Deliver is bringing it back.
	Deliver
	// Set is putting it up where it is used.
	Set
)

var taskNames = []string{"", "strip", "frame", "pad", "cut", "sew", "cover", "finish", "measure", "quote", "order", "collect", "deliver", "set"}

// Tasks gives the tasks at the bench in the order in which they are done.
func Tasks() []Task { return []Task{Strip, Frame, Pad, Cut, Sew, Cover, Finish} }

// Errands gives the tasks around the bench in the order in which they are done.
func Errands() []Task { return []Task{Measure, Quote, Order, Collect, Deliver, Set} }

// String gives the name, such as "sew"; "none" for the zero value.
func (t Task) String() string {
	if t == 0 {
		return "none"
	}
	return enum.Name(t, "task", taskNames)
}

// MarshalText writes the name, nothing for the zero value; an unknown task wraps
// unit.ErrUnknown.
func (t Task) MarshalText() ([]byte, error) { return enum.Text(t, "task", taskNames) }

// UnmarshalText reads what MarshalText writes.
func (t *Task) UnmarshalText(text []byte) error { return enum.Read(t, text, "task", taskNames) }

// atBench tells whether pieces have a time for the task.
func (t Task) atBench() bool { return t >= Strip && t <= Finish }

// Classes of labour that tax rules tell apart.
const (
	// Fabrication is making something new: cushions, covers cut and sewn.
	Fabrication cost.TaxClass = "fabrication labour"
	// Application is work on what is there: stripping, repair, putting a cover on.
	Application cost.TaxClass = "repair and application labour"
)

// TaxClass gives the class of labour that a task usually falls under: Fabrication
// or Application, that of cost.Delivery for collecting and delivering, and that of
// cost.Labour for measuring, quoting and ordering. Of what is made new, such as a
// cushion, padding, covering and finishing are Fabrication too. Places disagree on
// what each class is taxed, and on the line between them: it is a proposal. No
// class for what is no task.
func (t Task) TaxClass(made bool) cost.TaxClass {
	switch {
	case t == Cut || t == Sew || made && slices.Contains([]Task{Pad, Cover, Finish}, t):
		return Fabrication
	case t.atBench() || t == Set:
		return Application
	case t == Collect || t == Deliver:
		return cost.Delivery.TaxClass()
	case t == Measure || t == Quote || t == Order:
		return cost.Labour.TaxClass()
	}
	return ""
}
