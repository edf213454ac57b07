package job

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// MarkupSpec is added to the cost of some kinds of lines in place of the markup
// of the quote.
type MarkupSpec struct {
	Goods    *unit.Ratio `json:"goods,omitzero"`    // on cloth and leather
	Foam     *unit.Ratio `json:"foam,omitzero"`     // on foam, batting and other filling
	Sundries *unit.Ratio `json:"sundries,omitzero"` // on thread, webbing, zips and other findings
}

// of gives the markup of a kind of line, nil where it has none of its own.
func (m *MarkupSpec) of(k cost.Kind) *unit.Ratio {
	if m == nil {
		return nil
	}
	switch k {
	case cost.Goods:
		return m.Goods
	case cost.Foam:
		return m.Foam
	case cost.Sundries:
		return m.Sundries
	}
	return nil
}

// uplift turns the cost of a kind of line into its price.
func (q QuoteSpec) uplift(k cost.Kind) cost.Uplift {
	if m := q.MarkupBy.of(k); m != nil {
		return cost.Markup(*m)
	}
	return cost.Markup(q.Markup)
}

// mostMarkup is the most that may be meant: 25 without a sign is 2500 %.
const mostMarkup = 10

func checkMarkup(m unit.Ratio) error {
	if err := check.Ratio("", m, 0, mostMarkup); err != nil {
		return check.Refuse("", m.String(), unit.ErrRange, "from 0 % to 1000 %, with its sign: 25 is 2500 %")
	}
	return nil
}

// checkMarkups gives the markups that are refused, each at its place.
func (q QuoteSpec) checkMarkups() faults {
	var f faults
	f.add("quote.markup", checkMarkup(q.Markup))
	for _, m := range []struct {
		name unit.Path
		kind cost.Kind
	}{{"goods", cost.Goods}, {"foam", cost.Foam}, {"sundries", cost.Sundries}} {
		if r := q.MarkupBy.of(m.kind); r != nil {
			f.add(unit.Path("quote.markup_by").Dot(m.name), checkMarkup(*r))
		}
	}
	return f
}
