package addin

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
	"github.com/coverwright/coverwright/unit/caution"
)

// Reference gives the function reference in Markdown.
func Reference() string {
	var b strings.Builder
	fs := table.Functions()
	fmt.Fprintf(&b, "# The spreadsheet functions\n\n<!-- %s -->\n\n", note)
	fmt.Fprintf(&b, `%d functions, level %d. In a cell each stands behind the prefix: `+"`=%s.BOARDFEET(24;24;4)`"+`. Capitals do not matter.

- The last part of a name is the unit: `+"`width_in`"+` is in inches, money is in whole cents.
- An argument in [brackets] may be left out.
- Text is not turned into a number: a figure that was typed as text gives #VALUE!.
- A range has one row for each item; blank rows are passed over. At most %d rows: give the range of the table, not whole columns, which the program itself copies before it asks.
- In the examples {24;24;2|18;12;6} stands for a range: cells of a row set off by semicolons, rows by strokes.
- A column comes out below the cell: enter it as an array formula.
- Nothing is volatile: a formula is worked out again when its cells change.

| error | means |
| --- | --- |
| #VALUE! | an argument is missing, of the wrong kind or unreadable |
| #NUM! | a number outside its range, or a result too large |
| #DIV/0! | division by zero |
| #N/A | a name that is not in the list |

`, len(fs), table.Level, table.Prefix, table.MostRows)
	b.WriteString("Foam burns and seams carry loads. " + caution.Deference + " " + caution.SafetySeams + " " + caution.Pointer + "\n\n")
	index(&b)
	group := ""
	for i := range fs {
		f := &fs[i]
		if f.Group != group {
			group = f.Group
			fmt.Fprintf(&b, "## %s\n\n", group)
		}
		fmt.Fprintf(&b, "### %s\n\n`%s`\n\n%s\n\n", f.Name(), signature(f), f.Help)
		for _, a := range f.Args {
			fmt.Fprintf(&b, "- `%s` %s: %s\n", a.Name, a.Kind, argHelp(a))
		}
		if len(f.Args) > 0 {
			b.WriteString("\n")
		}
		r, bad := f.Call(f.Example)
		answer := answer(r)
		if bad != nil {
			answer = bad.Error()
		}
		unit := f.Unit
		if unit != "" {
			unit = " " + unit
		}
		codes := make([]string, 0, 4)
		for _, c := range f.Codes() {
			codes = append(codes, string(c))
		}
		fmt.Fprintf(&b, "Example: `%s` gives `%s`%s. Errors: %s.\n\n", Formula(f, f.Example), answer, unit, strings.Join(codes, ", "))
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}

// index lists the functions by group.
func index(b *strings.Builder) {
	b.WriteString("| group | functions |\n| --- | --- |\n")
	group := ""
	for i := range table.Functions() {
		f := &table.Functions()[i]
		link := fmt.Sprintf("[%s](#%s)", f.Name(), strings.ToLower(f.Name()))
		switch {
		case f.Group == group:
			b.WriteString(", " + link)
			continue
		case group != "":
			b.WriteString(" |\n")
		}
		group = f.Group
		b.WriteString("| " + group + " | " + link)
	}
	b.WriteString(" |\n\n")
}

func signature(f *table.Function) string {
	args := make([]string, len(f.Args))
	for i, a := range f.Args {
		if args[i] = a.Name; a.Optional() {
			args[i] = "[" + a.Name + "]"
		}
	}
	return table.Prefix + "." + f.Name() + "(" + strings.Join(args, "; ") + ")"
}

// Formula writes a call as it stands in a cell, with inline arrays for ranges.
func Formula(f *table.Function, args []any) string {
	items := make([]string, len(args))
	for i, a := range args {
		items[i] = literal(a)
	}
	return "=" + table.Prefix + "." + f.Name() + "(" + strings.Join(items, ";") + ")"
}

func literal(v any) string {
	switch x := v.(type) {
	case float64:
		return strconv.FormatFloat(x, 'f', -1, 64)
	case string:
		return `"` + strings.ReplaceAll(x, `"`, `""`) + `"`
	case [][]any:
		rows := make([]string, len(x))
		for i, r := range x {
			cells := make([]string, len(r))
			for k, c := range r {
				cells[k] = literal(c)
			}
			rows[i] = strings.Join(cells, ";")
		}
		return "{" + strings.Join(rows, "|") + "}"
	}
	return ""
}

func answer(r table.Result) string {
	switch r.Kind {
	case table.Text:
		return r.Text
	case table.Column:
		b, err := json.Marshal(r.Column)
		if err != nil {
			return err.Error()
		}
		return strings.Trim(strings.ReplaceAll(string(b), ",", ", "), "[]")
	}
	return strconv.FormatFloat(r.Number, 'g', 10, 64)
}
