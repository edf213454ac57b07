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

- **Sizes.** The last part of a name is the unit of a bare number: `+"`width_in`"+` is in inches. A text with any unit of its kind may stand in its place,
  also in a range: "652 mm", "1 1/2 yd", "25 5/8 in". A text without a unit gives #VALUE!.
- **Metric.** A function that takes or gives sizes has a twin with millimetres, metres, square decimetres, kilograms or newtons in place of inches, yards,
  square feet, pounds or pounds of force, in its arguments, its ranges and its result: CUTSIZEMM beside CUTSIZEIN, NAILCOUNTMETRIC beside NAILCOUNT. The
  functions that convert or read units have none, nor has the chart of widths, which is in inches.
- **Money** is in its major unit, 19.99 and not 1999 cents, the result too. An amount counts as the nearest whole cent if it is within a billionth of it,
  or within the last digits of a long sum; one with more decimals is refused: round it first. Where money has other decimals, its code comes last: "JPY".
- **Percentages** are fractions, as a sheet has them: 25%% and 0.25 are the same, and so is the text "25 %%". 25 would be 2500 %% and is refused. Results
  are fractions too: format their cells as percentages.
- An argument in [brackets] may be left out.
- **Ranges.** Where a range is meant it has one row for each item; blank rows are passed over. At most %d rows: give the range of the table, not whole
  columns, which the program itself copies before it asks.
- **Columns.** Where one cell is meant, a column (or a row) may stand, and several of one length: the function then gives a column (or a row), entered as
  an array formula. Blank cells give blank ones, and a cell that fails has its own error. This does not hold for functions that give a column or a
  grid anyway.
- A column or grid comes out below and beside the cell: enter it as an array formula.
- **Why.** WHY says what is wrong with a call: `+"`=%s.WHY(\"BOARDFEET\";24;24;0)`"+`. It is empty when nothing is.
- In the examples {24;24;2|18;12;6} stands for a range: cells of a row set off by semicolons, rows by strokes.
- Nothing is volatile: a formula is worked out again when its cells change.

| error | means |
| --- | --- |
| #VALUE! | an argument is missing, of the wrong kind or unreadable |
| #NUM! | a number outside its range, or a result too large |
| #DIV/0! | division by zero |
| #N/A | a name that is not in the list |

`, len(fs), table.Level, table.Prefix, table.MostRows, table.Prefix)
	b.WriteString("Foam burns and seams carry loads. " + caution.Deference + " " + caution.SafetySeams + " " + caution.Pointer + "\n\n")
	index(&b)
	group := ""
	for i := range fs {
		f := &fs[i]
		if f.Of != "" {
			continue // told with its function
		}
		if f.Group != group {
			group = f.Group
			fmt.Fprintf(&b, "## %s\n\n", group)
		}
		fmt.Fprintf(&b, "### %s\n\n`%s`\n\n%s\n\n", f.Name(), signature(f), f.Help)
		for _, a := range f.Args {
			if f.Args[0].Kind == table.Text && a.Kind == table.Any && a.Name != "argument_1" {
				continue // all the same
			}
			fmt.Fprintf(&b, "- `%s` %s: %s\n", a.Name, a.Kind, argHelp(a))
		}
		if len(f.Args) > 0 {
			b.WriteString("\n")
		}
		codes := make([]string, 0, 4)
		for _, c := range f.Codes() {
			codes = append(codes, string(c))
		}
		fmt.Fprintf(&b, "Example: %s. Errors: %s.\n\n", example(f), strings.Join(codes, ", "))
		if twin, ok := table.Find(f.Twin); ok {
			fmt.Fprintf(&b, "Metric twin: `%s`; %s.\n\n", signature(twin), example(twin))
		}
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}

// example gives a call with its answer.
func example(f *table.Function) string {
	r, bad := f.Call(f.Example)
	answer := answer(r)
	if bad != nil {
		answer = bad.Error()
	}
	unit := f.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("`%s` gives `%s`%s", Formula(f, f.Example), answer, unit)
}

// index lists the functions by group.
func index(b *strings.Builder) {
	b.WriteString("| group | functions |\n| --- | --- |\n")
	group := ""
	for i := range table.Functions() {
		f := &table.Functions()[i]
		if f.Of != "" {
			continue
		}
		link := fmt.Sprintf("[%s](#%s)", f.Name(), strings.ToLower(f.Name()))
		if f.Twin != "" {
			link += " " + strings.ToUpper(f.Twin)
		}
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
	case table.Grid:
		return strings.Trim(literal(r.Grid), "{}")
	case table.Column:
		b, err := json.Marshal(r.Column)
		if err != nil {
			return err.Error()
		}
		return strings.Trim(strings.ReplaceAll(string(b), ",", ", "), "[]")
	}
	return strconv.FormatFloat(r.Number, 'g', 10, 64)
}
