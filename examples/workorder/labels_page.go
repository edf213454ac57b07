package main

import (
	"bytes"
	_ "embed"
	"html/template"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/unit"
)

//go:embed labels.html.tmpl
var labelsTemplate string

// labelsFile is what -format labels writes.
const labelsFile = "labels.html"

// renderLabels writes the folder of -format labels: one page that needs nothing else.
func renderLabels(o job.WorkOrder, set settings) error {
	page, err := labelsHTML(o, set)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "labels", []folder.File{{Name: labelsFile, Data: page}}, set.force)
}

// What the template of the labels shows. Lengths are in mm, sizes of type in points.
type (
	labelsView struct {
		Name, Summary, Hands      string
		PaperWide, PaperHigh      string
		SheetHigh                 string // a trifle lower, so that no sheet runs over
		LabelWide, LabelHigh, Pad string
		Lines                     bool
		Sheets                    [][]labelView
	}
	labelView struct {
		Left, Top, ArrowWide, ArrowHigh string
		Lines                           []labelLine
	}
	labelLine struct {
		High, Size string // of the line, and of its largest type
		Words      []labelRun
	}
	labelRun struct {
		Text, Size string
		Bold       bool
	}
)

// labelPad is the white inside a label, for printers that are a little off.
func labelPad(label acrossDown) unit.Length {
	return min(2*unit.Millimetre, label.across/24, label.down/12)
}

// labelsHTML makes the sheets of labels of a work order.
func labelsHTML(o job.WorkOrder, set settings) ([]byte, error) {
	t, err := template.New("labels").Parse(labelsTemplate)
	if err != nil {
		return nil, err
	}
	g, pad := set.labels, labelPad(set.labels.label)
	f, err := newFitter(g, pad)
	if err != nil {
		return nil, err
	}
	labels := (&sheet{metric: set.metric}).pieceLabels(o)
	v := labelsView{Name: o.Name, Hands: whoseHands(o), PaperWide: millimetres(g.paper.across), PaperHigh: millimetres(g.paper.down),
		SheetHigh: millimetres(g.paper.down - unit.Millimetre/5), LabelWide: millimetres(g.label.across), LabelHigh: millimetres(g.label.down), Pad: millimetres(pad),
		Lines: g.lines, Sheets: make([][]labelView, g.sheets(len(labels)))}
	v.Summary = plural(len(labels), "label") + " on " + plural(len(v.Sheets), "sheet") + " of " + strconv.Itoa(g.columns) + " x " + strconv.Itoa(g.rows) + ", each " +
		exactly(g.label.across) + " x " + exactly(g.label.down)
	for i, l := range labels {
		place := g.first - 1 + i
		at := g.at(place % g.each())
		one := labelView{Left: millimetres(at.across), Top: millimetres(at.down)}
		lines := f.set(l)
		one.ArrowHigh, one.ArrowWide = lines[0].High.css(), (lines[0].High * 6 / 10).css()
		for _, line := range lines {
			one.Lines = append(one.Lines, setRuns(line))
		}
		v.Sheets[place/g.each()] = append(v.Sheets[place/g.each()], one)
	}
	var out bytes.Buffer
	if err := t.Execute(&out, v); err != nil {
		return nil, err
	}
	return printable(out.Bytes()), nil
}

// setRuns puts words of one type together.
func setRuns(line setLine) labelLine {
	out := labelLine{High: line.High.css()}
	largest := points(0)
	for _, w := range line.Words {
		if w.Size > largest {
			largest, out.Size = w.Size, w.Size.css()
		}
		n := len(out.Words) - 1
		if n >= 0 && out.Words[n].Size == w.Size.css() && out.Words[n].Bold == w.Bold {
			out.Words[n].Text += " " + w.Text
			continue
		}
		out.Words = append(out.Words, labelRun{w.Text, w.Size.css(), w.Bold})
	}
	return out
}

// millimetres writes a length for a style, without loss.
func millimetres(l unit.Length) string {
	whole, rest := int64(l/unit.Millimetre), int64(l%unit.Millimetre)
	text := strconv.FormatInt(rest+int64(unit.Millimetre), 10)[1:]
	return strings.TrimSuffix(strconv.FormatInt(whole, 10)+"."+strings.TrimRight(text, "0"), ".")
}
