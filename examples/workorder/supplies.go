package main

import (
	_ "embed"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/supplies"
	"github.com/coverwright/coverwright/unit"
)

//go:embed supplies.html.tmpl
var suppliesPage string

// suppliesCopy is what the supplies copy shows: no markup, and no price of any kind.
type (
	suppliesCopy struct {
		copyHead
		Orders []supplyOrder
		Unsaid bool         // who sells something
		Open   []string     // questions
		There  []supplyLine // of which nothing is ordered
	}
	supplyOrder struct {
		ID, Name string
		Supplier bool // is known
		Freight  bool // is paid once
		Lines    []supplyLine
	}
	supplyLine struct {
		What, Text, Packs, For string
		Note                   string
		Sizes                  []string
		Lot                    string      // what is noted of it when it comes
		Measures               []toMeasure // to take then
	}
	toMeasure struct{ Name, Want string }
)

func viewSupplies(s *sheet, head copyHead, o job.WorkOrder) (any, error) {
	v := suppliesCopy{copyHead: head}
	for _, q := range o.Questions {
		v.Open = append(v.Open, asked(q))
	}
	list, err := supplies.Of(o, supplies.Options{System: s.system()})
	if err != nil {
		return nil, err
	}
	for _, x := range list.Orders {
		w := supplyOrder{ID: "order-" + strconv.Itoa(len(v.Orders)+1), Name: x.Supplier, Supplier: x.Supplier != "", Freight: x.Freight}
		if !w.Supplier {
			w.Name = upperFirst(string(x.Kind))
		}
		for _, l := range x.Lines {
			if line := s.supplyLine(l); l.Buys() {
				w.Lines = append(w.Lines, line)
			} else {
				v.There = append(v.There, line)
			}
		}
		if len(w.Lines) > 0 {
			v.Orders = append(v.Orders, w)
			v.Unsaid = v.Unsaid || !w.Supplier
		}
	}
	return v, nil
}

// upperFirst begins a heading.
func upperFirst(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// supplyLine words a line of the list.
func (s *sheet) supplyLine(l supplies.Line) supplyLine {
	out := supplyLine{What: l.What, Text: l.Text, For: strings.Join(l.Pieces, ", "), Packs: l.PackText}
	if out.Packs != "" {
		out.Packs = "packs: " + out.Packs
	}
	var notes []string
	note := func(text string) { notes = append(notes, text) }
	switch l.Kind {
	case supplies.Rolls:
		if l.Roll != nil {
			note(s.rollAsked(&out, l))
		}
		out.Lot = "dye lot"
	case supplies.Hides:
		for _, h := range l.Hides {
			note(h.Name + ", " + s.area(h.Area, unit.Nearest))
		}
		if l.Buys() {
			out.Measures = append(out.Measures, toMeasure{"area marked", ""})
		}
		out.Lot = "batch"
	case supplies.FoamBlocks:
		out.Lot, out.For = "lot", "" // each block says it
		for _, b := range l.Blocks {
			out.Sizes = append(out.Sizes, s.foamBlock(b))
		}
	case supplies.Thread:
		out.Lot = "lot"
	case supplies.FoamSheets:
		out.Lot = "lot"
		note("each " + s.box(l.Size))
	case supplies.PillowForms:
		note(s.len(l.Size.Length) + " x " + s.len(l.Size.Width) + ", seam to seam and flat")
	}
	notes = append(notes, l.Notes...)
	for _, h := range l.AtHand {
		note(h.Text)
	}
	if l.Unpriced {
		note("not on the quote")
	}
	out.Note = strings.Join(notes, "; ")
	return out
}

// rollAsked says what goods by length must be, and what to measure when they come.
func (s *sheet) rollAsked(out *supplyLine, l supplies.Line) string {
	g := l.Roll.Goods
	text := s.len(g.Width) + " wide"
	if l.Roll.Usable < g.Width {
		text += ", " + s.len(l.Roll.Usable) + " usable"
	}
	out.Measures = append(out.Measures, toMeasure{"width", s.len(g.Width)})
	if g.Repeat > 0 {
		text += ", repeat " + s.len(g.Repeat) + " up the pattern"
		out.Measures = append(out.Measures, toMeasure{"repeat", s.len(g.Repeat)})
	}
	if across := g.Columns(); across > 0 {
		text += ", " + s.len(across) + " across"
		out.Measures = append(out.Measures, toMeasure{"repeat across", s.len(across)})
	}
	switch {
	case g.Nap:
		text += ", nap one way"
	case g.OneWay:
		text += ", motifs one way"
	}
	want := ""
	if l.Buys() {
		want = l.Text
	} else if len(l.AtHand) == 1 {
		want = s.buyLen(l.AtHand[0].Length)
	}
	out.Measures = append(out.Measures, toMeasure{"length", want})
	return text
}

// foamBlock says how many blocks of what size are for a part.
func (s *sheet) foamBlock(b supplies.Block) string {
	out := strconv.Itoa(b.Count) + " of " + s.box(b.Size)
	switch b.Form {
	case job.FoamBox, job.FoamRolled:
	case job.FoamWedge:
		out += ", a wedge, " + s.len(b.Back) + " at the back"
	case job.FoamOutline:
		out += ", cut to an outline"
	default:
		out += ", " + string(b.Form)
	}
	return out + ": " + b.Piece + ", " + b.Part
}
