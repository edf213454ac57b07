package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
)

// mayComeTo says what the price may come out at, on the basis of the price itself and
// rounded outwards; nothing of a quote without a class.
func mayComeTo(o job.WorkOrder) (string, error) {
	if o.Quote.Class == 0 {
		return "", nil
	}
	p, err := paper.Of(o, paper.Estimate, nil)
	if err != nil {
		return "", err
	}
	taxed := ""
	if len(o.Quote.Taxes) > 0 {
		taxed = " with tax"
	}
	return fmt.Sprintf("an estimate of class %d: it may come out between %s and %s%s", o.Quote.Class, whole(p.Range.Low), whole(p.Range.High), taxed), nil
}

// whole writes an amount without its minor units where it has none.
func whole(m cost.Money) string {
	number, cents, _ := strings.Cut(m.GroupedAmount(), ".")
	if strings.Trim(cents, "0") == "" {
		return number + " " + string(m.Currency())
	}
	return m.Grouped()
}
