package reference

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit/cite"
)

// cell makes a text fit for a cell of a Markdown table.
var cell = strings.NewReplacer("|", `\|`, "\n", " ", "<", "&lt;", "*", `\*`, "_", `\_`, "[", `\[`)

func tableRow(w io.Writer, cells ...string) {
	for _, c := range cells {
		if strings.HasPrefix(c, "http") {
			c = "<" + c + ">"
		} else {
			c = cell.Replace(c)
		}
		fmt.Fprint(w, "| ", c, " ")
	}
	fmt.Fprintln(w, "|")
}

// Markdown prints the report as a page: what it counts, each package with its
// rows, the documents, and what rests on nothing outside.
func (rep Report) Markdown(w io.Writer) error {
	b := bufio.NewWriter(w)
	rep.opening(b)
	var packages []string
	for _, r := range rep.Rows {
		if !slices.Contains(packages, r.Package) {
			packages = append(packages, r.Package)
		}
	}
	for _, p := range packages {
		fmt.Fprintf(b, "\n## Package %s\n\n", p)
		fmt.Fprintln(b, "| id | quantity | inputs | expected | ours | unit | deviation | allowed | | status | strength | source | place or remark |")
		fmt.Fprintln(b, "|---|---|---|---:|---:|---|---:|---:|---|---|---|---|---|")
		for _, r := range rep.Rows {
			if r.Package == p {
				tableRow(b, r.ID, r.Quantity, r.Inputs, r.Expected, r.Got, r.Unit, r.Deviation, r.Tolerance, mark(r.OK),
					r.Status.String(), r.Strength.String(), r.Source, place(r))
			}
		}
	}
	rep.documents(b)
	rep.unfounded(b)
	return b.Flush()
}

// place gives where in its document a row was read, or what is remarked.
func place(r Result) string {
	if s, ok := cite.Lookup(r.Source); ok && r.Note == "" {
		return s.Locator
	}
	return r.Note
}

// opening says what the page is, and counts.
func (rep Report) opening(w io.Writer) {
	s := rep.Summary
	fmt.Fprint(w, `# The check table

Every row holds a figure or a worked value against what this library computes. It is written by the program of this folder and a test keeps it fresh;
a row that is out of its tolerance fails the tests.

The *status* says where the expected value comes from: published (read in a government, university or research text), standard (read in a standard, a
specification of a government or a regulation), derived (arithmetic from definitions or from figures that were read), common practice (read on pages of the
trade or in its handbooks, which are no text to cite), from memory (recalled, no text was read). No row has a better status than the calculator gives
its own answer. The *strength* says what the row protects:

`)
	for _, st := range Strengths() {
		fmt.Fprintf(w, "- %s: %s\n", st, strengthMeanings[st])
	}
	fmt.Fprintf(w, "\n%d rows, %d failed, %d documents.\n\n", s.Rows, s.Failed, s.Sources)
	head := []string{"status"}
	for _, st := range Strengths() {
		head = append(head, st.String())
	}
	tableRow(w, append(head, "rows")...)
	fmt.Fprintln(w, "|---"+strings.Repeat("|---:", len(Strengths())+1)+"|")
	for _, status := range cite.Statuses() {
		cells := []string{status.String()}
		for _, st := range Strengths() {
			n := 0
			for _, r := range rep.Rows {
				if r.Status == status && r.Strength == st {
					n++
				}
			}
			cells = append(cells, count(n))
		}
		tableRow(w, append(cells, count(s.ByStatus[status.String()]))...)
	}
	cells := []string{"all"}
	for _, st := range Strengths() {
		cells = append(cells, count(s.Of(st)))
	}
	tableRow(w, append(cells, count(s.Rows))...)
}

func count(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}

// documents lists the documents that rows name.
func (rep Report) documents(w io.Writer) {
	rows := map[string]int{}
	for _, r := range rep.Rows {
		rows[r.Source]++
	}
	fmt.Fprint(w, "\n## Documents\n\n| source | title | edition | publisher | what was read | rows | a copy |\n|---|---|---|---|---|---:|---|\n")
	for _, s := range cite.Sources() {
		if rows[s.Key] > 0 {
			tableRow(w, s.Key, s.Title, s.Edition, s.Publisher, s.Locator, count(rows[s.Key]), s.Address)
		}
	}
}

// unfounded lists, by package and quantity, the rows that rest on nothing
// outside, and why.
func (rep Report) unfounded(w io.Writer) {
	type line struct{ pkg, quantity, status, strength, why string }
	var lines []line
	ids := map[line][]string{}
	for _, r := range rep.Rows {
		if r.Strength.Outside() {
			continue
		}
		l := line{r.Package, r.Quantity, r.Status.String(), r.Strength.String(), r.Why}
		if ids[l] == nil {
			lines = append(lines, l)
		}
		ids[l] = append(ids[l], r.ID)
	}
	s := rep.Summary
	fmt.Fprintf(w, `
## What rests on nothing outside

For %d of %d rows no text is cited: %d are read back from our own tables and find nothing but a slip of ours, %d hold a computation
against the same rule worked by hand. A shop that knows better puts its own figure in.

| package | quantity | status | strength | rows | why | ids |
|---|---|---|---|---:|---|---|
`, s.Of(UncitedRule, ReadBack), s.Rows, s.Of(ReadBack), s.Of(UncitedRule))
	for _, l := range lines {
		tableRow(w, l.pkg, l.quantity, l.status, l.strength, count(len(ids[l])), l.why, strings.Join(ids[l], " "))
	}
}
