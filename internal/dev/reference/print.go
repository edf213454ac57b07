package reference

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"text/tabwriter"

	"github.com/coverwright/coverwright/unit/cite"
)

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

func mark(ok bool) string {
	if ok {
		return "ok"
	}
	return "FAIL"
}

func sourceText(r Result) string {
	if s, ok := cite.Lookup(r.Source); ok {
		t := s.Title
		if s.Edition != "" {
			t += ", " + s.Edition
		}
		if r.Note != "" {
			t += "; " + r.Note
		}
		return t
	}
	return r.Note
}

// Text prints the report as an aligned table.
func (rep Report) Text(w io.Writer) error {
	b := bufio.NewWriter(w)
	t := tabwriter.NewWriter(b, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "id\tquantity\tinputs\texpected\tours\tunit\tdeviation\tallowed\t\tstatus\tstrength\tsource")
	for _, r := range rep.Rows {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", r.ID, r.Package+"."+r.Quantity, r.Inputs,
			r.Expected, r.Got, r.Unit, r.Deviation, r.Tolerance, mark(r.OK), r.Status, r.Strength, sourceText(r))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	s := rep.Summary
	fmt.Fprintf(b, "\n%d rows, %d failed, %d documents\n", s.Rows, s.Failed, s.Sources)
	for _, st := range cite.Statuses() {
		fmt.Fprintf(b, "  %-16s %d\n", st, s.ByStatus[st.String()])
	}
	for _, st := range Strengths() {
		fmt.Fprintf(b, "  %-16s %d\n", st, s.Of(st))
	}
	for _, p := range sortedKeys(s.ByPackage) {
		fmt.Fprintf(b, "  %-16s %d\n", "package "+p, s.ByPackage[p])
	}
	return b.Flush()
}

// JSON prints the report as one JSON object.
func (rep Report) JSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(rep)
}
