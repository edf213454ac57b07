package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
)

// usualPriceDays is how old a supplier's price may be on the day of a quote. Common
// practice: lists come out once or twice a year.
const usualPriceDays = 180

// mostNamed is how many things a caution names.
const mostNamed = 10

// dated is a price of the order with its day.
type dated struct {
	what string
	day  cost.Date
}

// dates lists the prices of the order whose day is said, goods before findings.
func (s Spec) dates(o WorkOrder) []dated {
	var out []dated
	for _, p := range o.Purchases {
		for _, g := range s.Goods {
			if g.ID == p.Goods && !g.Dated.IsZero() {
				out = append(out, dated{g.Name, g.Dated})
			}
		}
	}
	for _, e := range s.Prices.Entries() {
		if !e.Dated.IsZero() && slices.ContainsFunc(o.Findings, func(l build.Line) bool { return l.Entry == e.Code }) {
			out = append(out, dated{e.Code, e.Dated})
		}
	}
	return out
}

// oldPrices names the prices that are older on the day of the quote than the shop
// takes for good; empty when there are none, or the quote has no day.
func oldPrices(s Spec, o WorkOrder) string {
	days := usualPriceDays
	if s.Defaults != nil && s.Defaults.PriceDays > 0 {
		days = s.Defaults.PriceDays
	}
	oldest, err := s.Quote.Issued.AddDays(-days)
	if err != nil {
		return ""
	}
	var names []string
	for _, p := range s.dates(o) {
		if p.day.Compare(oldest) < 0 {
			names = append(names, p.what+" ("+p.day.String()+")")
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("On %s the prices of these are older than %d days, ask again: %s.", s.Quote.Issued, days, listed(names))
}

// listed writes the first names of a list, and how many more there are.
func listed(names []string) string {
	more := ""
	if n := len(names); n > mostNamed {
		names, more = names[:mostNamed], " and "+strconv.Itoa(n-mostNamed)+" more"
	}
	return strings.Join(names, ", ") + more
}
