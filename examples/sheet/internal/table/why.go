package table

import (
	"strconv"
	"strings"
)

const whyMethod = "why"

// MostArgs is the most arguments that a function takes, WHY itself apart.
const MostArgs = 8

// whyFunction is worked out by why: it calls the others.
var whyFunction = Function{
	Method: whyMethod, Group: "About", Result: Text,
	Help:    "Says why a call has no value: the name of the function, then its arguments as they stand in the call. Empty when all is well. Of a column of answers the first that fails is told.",
	Args:    whyArgs(),
	Example: []any{"BOARDFEET", 24.0, 24.0, 0.0},
	Bad:     []Bad{{Value, []any{}}},
}

func whyArgs() []Arg {
	out := []Arg{word("function", "name of the function, with or without "+Prefix+". before it")}
	for i := range MostArgs {
		name := "argument_" + strconv.Itoa(i+1)
		out = append(out, Arg{Name: name, Kind: Any, Help: "argument of the function", Default: "none", key: name})
	}
	return out
}

func why(values []any) (Result, *Fault) {
	for i, v := range values {
		if s, ok := v.(string); ok && len(s) > mostText {
			return Result{}, fault(Value, whyFunction.Args[i].Name+": text too long")
		}
	}
	if len(values) == 0 {
		return Result{}, fault(Value, "function: must be given")
	}
	name, ok := values[0].(string)
	if !ok {
		return Result{}, fault(Value, "function: a name is wanted")
	}
	given := values[1:]
	for len(given) > 0 && given[len(given)-1] == nil {
		given = given[:len(given)-1]
	}
	r, bad := Call(strings.TrimSpace(name), given)
	if bad != nil {
		return Result{Kind: Text, Text: bad.Message}, nil //nolint:nilerr // the message is the answer
	}
	for i, line := range r.Grid {
		for k, cell := range line {
			if bad, ok := cell.(*Fault); ok {
				return Result{Kind: Text, Text: "cell " + strconv.Itoa(max(i, k)+1) + ": " + bad.Message}, nil
			}
		}
	}
	return Result{Kind: Text}, nil
}
