package table

import (
	"slices"
	"strconv"
	"strings"
)

// lifted looks for ranges where one cell is wanted. A range of one cell counts
// as its cell; columns, or rows, of one length ask for one answer each: n is
// their length, zero without. The values are a copy.
func (f *Function) lifted(values []any) (out []any, n int, across bool, bad *Fault) {
	out = slices.Clone(values)
	for i, v := range values {
		lines, ok := v.([][]any)
		if !ok || f.Args[i].Kind == Range {
			continue
		}
		refuse := func(message string) (out []any, n int, across bool, bad *Fault) {
			return nil, 0, false, fault(Value, f.Args[i].Name+": "+message)
		}
		cells, row, ok := line(lines)
		switch {
		case !ok:
			return refuse("one cell, one column or one row is wanted")
		case len(cells) == 1:
			out[i] = cells[0]
			continue
		case f.Result == Column || f.Result == Grid:
			return refuse("one cell is wanted, not a range")
		case len(cells) > MostRows:
			return refuse("more than " + strconv.Itoa(MostRows) + " cells")
		case n > 0 && (len(cells) != n || row != across):
			return refuse("the ranges are not of one shape")
		}
		out[i], n, across = cells, len(cells), row
	}
	return out, n, across, nil
}

// line gives the cells of a range of one column or one row, blank ones as nil.
func line(lines [][]any) (cells []any, row, ok bool) {
	if len(lines) == 1 {
		cells, row = slices.Clone(lines[0]), true
	} else {
		for _, l := range lines {
			if len(l) != 1 {
				return nil, false, false
			}
			cells = append(cells, l[0])
		}
	}
	for i, v := range cells {
		if s, text := v.(string); text && strings.TrimSpace(s) == "" {
			cells[i] = nil
		}
	}
	return cells, row, len(cells) > 0
}

// each works the function out n times. Where all the cells are blank the
// answer is nil; one that has no value is its fault.
func (f *Function) each(values []any, n int, across bool) Result {
	answers := make([]any, n)
	one := make([]any, len(values))
	for k := range n {
		blank := true
		for i, v := range values {
			if cells, ok := v.([]any); ok {
				one[i] = cells[k]
				blank = blank && cells[k] == nil
			} else {
				one[i] = v
			}
		}
		if blank {
			continue
		}
		r, bad := f.once(one)
		switch {
		case bad != nil:
			answers[k] = bad
		case f.Result == Text:
			answers[k] = r.Text
		default:
			answers[k] = r.Number
		}
	}
	if across {
		return Result{Kind: Grid, Grid: [][]any{answers}}
	}
	out := make([][]any, n)
	for k := range answers {
		out[k] = answers[k : k+1]
	}
	return Result{Kind: Grid, Grid: out}
}
