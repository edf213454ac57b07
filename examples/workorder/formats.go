package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/material/layout"
)

// settings are what the command line says about the output.
type settings struct {
	stdout   io.Writer
	metric   bool
	explain  bool
	out      string        // the folder to write into; empty for formats that print
	force    bool          // an existing folder is replaced
	paper    pattern.Sheet // of the marks
	cloths   photos        // on the page
	copies   []orderCopy   // to write as pages
	labels   labelGrid
	as       paper.Kind     // the customer's copy; the usual one when none
	was      *job.WorkOrder // an earlier order, for the customer's copy
	patterns patternSet
}

// format is a way to give out a work order.
type format struct {
	name    string
	files   bool // it writes into the folder of -out, and prints nothing
	jobless bool // it needs no job
	lengths bool // it needs the job, but not the order
	// render is given the order, or an empty one when jobless; nil for the card of
	// a kind of furniture, which has its own flag, and for that of lengths.
	render func(order job.WorkOrder, o settings) error
}

// formats lists every format, in the order of the usage text. A new one is a
// line here and a file of its own.
func formats() []format {
	return []format{
		{name: "text", render: renderText},
		{name: "json", render: renderJSON},
		{name: "html", files: true, render: renderHTML},
		{name: "patterns", files: true, render: renderPatterns},
		{name: "labels", files: true, render: renderLabels},
		{name: "measure", jobless: true},
		{name: "yardage", lengths: true},
		{name: "marks", jobless: true, files: true, render: renderMarks},
	}
}

func formatNames() string {
	var names []string
	for _, f := range formats() {
		names = append(names, f.name)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}

// The whole order is made before any of it is written.

func renderText(order job.WorkOrder, o settings) error {
	var b bytes.Buffer
	if err := printText(&b, order, o.metric, o.explain); err != nil {
		return err
	}
	_, err := o.stdout.Write(b.Bytes())
	return err
}

func renderJSON(order job.WorkOrder, o settings) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(order); err != nil {
		return err
	}
	_, err := o.stdout.Write(b.Bytes())
	return err
}

// hands writes how many to cut, of a pair how many of each hand.
func hands(count int, pair bool) string {
	if !pair {
		return strconv.Itoa(count)
	}
	return fmt.Sprintf("%d + %d mirrored", count-count/2, count/2)
}

// handKey explains the short word for the mirrored hand on a layout that has any.
func handKey(p layout.Plan) string {
	if !slices.ContainsFunc(p.Places, func(q layout.Place) bool { return q.Mirrored }) {
		return ""
	}
	return " Of a pair, mir. is the mirrored hand."
}
