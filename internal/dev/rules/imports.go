package rules

import (
	"slices"
	"strings"
)

// StandsOn says what each public package may import, directly or not, of the
// other public packages. Data flows one way.
var StandsOn = map[string][]string{
	"unit":                  {},
	"unit/cite":             {},
	"allowance/shape":       {"unit", "unit/cite"},
	"allowance/shape/photo": {"unit", "unit/cite", "allowance/shape"},
	"allowance":             {"unit", "unit/cite", "allowance/shape"},
	"allowance/made":        {"unit", "unit/cite", "allowance/shape", "allowance"},
	"allowance/pattern":     {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made"},
	"thread":                {"unit", "unit/cite"},
	"unit/caution":          {"unit", "unit/cite"},
	"foam":                  {"unit", "unit/cite", "unit/caution"},
	"foam/sheet":            {"unit", "unit/cite", "unit/caution", "foam"},
	"foam/wrap":             {"unit", "unit/cite", "unit/caution", "foam"},
	"material":              {"unit", "unit/cite", "allowance/shape"},
	"material/findings":     {"unit", "unit/cite"},
	"material/layout":       {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made", "allowance/pattern", "material"},
	"cost":                  {"unit", "unit/cite"},
	"cost/rate":             {"unit", "unit/cite", "cost"},
	"cost/bench":            {"unit", "unit/cite", "cost"},
	"cost/stock":            {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made", "allowance/pattern", "material", "material/layout", "cost"},
	"cost/account":          {"unit", "unit/cite", "cost", "cost/bench"},
	"cost/job/kind":         {"unit", "unit/cite"},
	"cost/job/build":        {"unit", "unit/cite", "material/findings", "cost"},
	"cost/job/schema":       {},
	"cost/job": {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made", "allowance/pattern", "material", "material/findings", "material/layout", "thread", "unit/caution", "foam", "foam/sheet", "foam/wrap",
		"cost",
		"cost/rate", "cost/bench", "cost/stock", "cost/account", "cost/job/kind", "cost/job/build"},
	"cost/job/paper": {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made", "allowance/pattern", "material", "material/findings", "material/layout", "thread", "unit/caution", "foam", "foam/sheet", "foam/wrap",
		"cost",
		"cost/rate", "cost/bench", "cost/stock", "cost/account", "cost/job/kind", "cost/job/build", "cost/job"},
	"cost/job/supplies": {"unit", "unit/cite", "allowance/shape", "allowance", "allowance/made", "allowance/pattern", "material", "material/findings", "material/layout", "thread", "unit/caution", "foam", "foam/sheet", "foam/wrap",
		"cost",
		"cost/rate", "cost/bench", "cost/stock", "cost/account", "cost/job/kind", "cost/job/build", "cost/job"},
}

// libraries are the modules a public package may import beside the standard
// library: exact decimals for money, and the names of currencies.
var libraries = map[string][]string{
	"cost":              {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/rate":         {"github.com/shopspring/decimal"},
	"cost/bench":        {"github.com/shopspring/decimal"},
	"cost/stock":        {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/account":      {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/job/paper":    {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/job/supplies": {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/job/build":    {"github.com/shopspring/decimal", "golang.org/x/text"},
	"cost/job":          {"github.com/shopspring/decimal", "golang.org/x/text"},
}

// Imports lists what p imports, directly or not, and may not.
func Imports(all map[string]Package, p Package) []string {
	allowed, ok := StandsOn[p.Path()]
	if !ok {
		return []string{p.Path() + ": a public package that the rules do not know; say in StandsOn what it may import"}
	}
	var faults []string
	for _, dep := range p.Deps {
		d := all[dep]
		switch {
		case d.Standard || strings.HasPrefix(d.ImportPath, Module+"/internal/"):
		case d.Public():
			if !slices.Contains(allowed, d.Path()) {
				faults = append(faults, p.Path()+" must not import "+d.Path())
			}
		case !slices.ContainsFunc(libraries[p.Path()], func(l string) bool { return dep == l || strings.HasPrefix(dep, l+"/") }):
			faults = append(faults, p.Path()+" must not import "+dep)
		}
	}
	return faults
}
