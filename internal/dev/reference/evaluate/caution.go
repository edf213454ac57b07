package evaluate

import (
	"cmp"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

var cautionEvaluators = map[string]reference.Evaluator{
	"caution_rule":    cautionText(func(c caution.Caution) string { return c.Rule }),
	"caution_edition": cautionText(func(c caution.Caution) string { return c.Edition }),
	"caution_from":    cautionText(func(c caution.Caution) string { return c.From }),
	"caution_statuses": cautionText(func(c caution.Caution) string {
		var out []string
		for _, b := range c.Basis {
			out = append(out, b.Status.String())
		}
		return strings.Join(out, "; ")
	}),
	// The figures of the sentence, in their order.
	"caution_figures": func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := caution.ByID(in.Text("id"))
		if err != nil {
			return reference.Value{}, err
		}
		var out []float64
		for _, word := range figures.FindAllString(strings.ReplaceAll(c[0].Text, ",", ""), -1) {
			x, err := strconv.ParseFloat(word, 64)
			if err != nil {
				return reference.Value{}, err
			}
			out = append(out, x)
		}
		return reference.Numbers(out...).On(best(c[0])), nil
	},
}

var figures = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)

// cautionText reads a text of the caution with an id.
func cautionText(of func(caution.Caution) string) reference.Evaluator {
	return func(in *reference.Inputs, _ string) (reference.Value, error) {
		c, err := caution.ByID(in.Text("id"))
		if err != nil {
			return reference.Value{}, err
		}
		return reference.Text(of(c[0])).On(best(c[0])), nil
	}
}

// best gives the best basis of a caution: it names one for each part of what it
// says, and a row reads the part that its document speaks of.
func best(c caution.Caution) cite.Basis {
	return slices.MinFunc(c.Basis, func(a, b cite.Basis) int { return cmp.Compare(a.Status, b.Status) })
}
