package main

import (
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/unit"
)

// firstPage is what hangs on the wall: what is made, what must be here before it can
// begin, and how far it has come.
type firstPage struct {
	Sum       string
	Furniture []furnitureView
	Here      []hereView
	SetUps    []string
	Signed    []string
}

// furnitureView is a piece of furniture with the stages of its work. Pieces of which
// all is cut alike are one.
type furnitureView struct {
	Name, Count, Cut string
	Picture          template.HTML // its largest panel
	Stages           []string
}

// hereView is something that must be at the bench.
type hereView struct{ What, Amount string }

// usualStages are those of a piece of furniture for which the job names no tasks.
func usualStages() []string { return []string{"cut", "marked", "sewn", "filled", "covered", "checked"} }

func (s *sheet) firstPage(v benchCopy, o job.WorkOrder, cuts []drawnCut) (firstPage, error) {
	f := firstPage{Signed: []string{"cut by", "sewn by", "covered by", "checked by"}}
	var names []string
	for _, g := range o.Quote.Terms.Groups {
		names = append(names, g.Name)
	}
	alike := map[string]int{}
	var groups [][]string
	for _, n := range names {
		key := furnitureKey(v, o, n)
		at, known := alike[key]
		if !known {
			at = len(groups)
			alike[key], groups = at, append(groups, nil)
		}
		groups[at] = append(groups[at], n)
	}
	pieces, blocks := 0, 0
	for _, g := range groups {
		row, err := s.furniture(g, o, cuts)
		if err != nil {
			return f, err
		}
		f.Furniture = append(f.Furniture, row)
	}
	for _, c := range o.Cuts {
		pieces += c.Count
	}
	for _, b := range o.Foam {
		blocks += b.Count
	}
	f.Sum = plural(pieces, "piece") + " to cut"
	if n := len(o.Rough); n > 0 {
		f.Sum += ", " + plural(n, "piece") + " of furniture not measured yet"
	}
	if blocks > 0 {
		f.Sum += ", " + plural(blocks, "block") + " of foam"
	}
	for _, p := range o.Purchases {
		f.Here = append(f.Here, hereView{p.Name, s.here(p)})
	}
	for _, b := range v.Foam {
		if b.Blocked > 0 {
			f.Here = append(f.Here, hereView{"foam", fmt.Sprintf("%s of %s", plural(b.Blocked, "block"), b.Ask)})
		}
	}
	for _, x := range v.Stock {
		f.Here = append(f.Here, hereView{"foam", strings.TrimPrefix(x, "buy ")})
	}
	forms := 0
	for _, x := range o.Forms {
		forms += x.Count
	}
	if forms > 0 {
		f.Here = append(f.Here, hereView{"pillow forms", strconv.Itoa(forms)})
	}
	if len(v.Findings) > 0 {
		f.Here = append(f.Here, hereView{"findings", plural(len(v.Findings), "line") + " of the list below"})
	}
	for _, x := range v.SetUps {
		text := x.Title + ", by hand"
		if x.Needle != "" {
			text = fmt.Sprintf("%s, bobbin %s, needle %s, stitch %s", x.Title, x.Bobbin, x.Needle, x.Stitch)
		}
		f.SetUps = append(f.SetUps, text)
	}
	return f, nil
}

// here says how much of some goods must be at the bench, bought or not.
func (s *sheet) here(p job.Purchase) string {
	own := p.Stock
	if own == nil || p.Length > 0 || p.Hides > 0 {
		return s.amount(p)
	}
	from := "from stock"
	if own.Whose == stock.Customers {
		from = "the customer's own"
	}
	switch {
	case p.AtHand > 0:
		return hides(p.AtHand) + ", " + from
	case own.Alone != nil:
		return s.goodsLen(own.Alone.Order, unit.Up) + ", " + from
	}
	return s.amount(p)
}

// furnitureKey is the same for pieces of furniture of which all is cut alike, and the
// work has the same stages.
func furnitureKey(v benchCopy, o job.WorkOrder, name string) string {
	key := fmt.Sprint(stagesOf(o, name))
	for g := range v.Groups {
		for r, row := range v.Groups[g].Rows {
			if n := row.counts[name]; n > 0 {
				key += fmt.Sprintf("/%d.%d:%d", g, r, n)
			}
		}
	}
	for _, b := range o.Foam {
		if b.Piece == name {
			key += fmt.Sprintf("/%s %v %d", b.Name(), b.Cut, b.Count)
		}
	}
	return key
}

// furniture shows some pieces of furniture of which all is cut alike.
func (s *sheet) furniture(names []string, o job.WorkOrder, cuts []drawnCut) (furnitureView, error) {
	f := furnitureView{Name: together(names), Stages: stagesOf(o, names[0])}
	count, pieces := 0, 0
	var numbers []int
	var largest *drawnCut
	for i, p := range cuts {
		if !slices.Contains(names, p.cut.Piece) {
			continue
		}
		numbers, pieces = append(numbers, p.number), pieces+p.cut.Count
		if p.cut.Panel != nil && (largest == nil || p.cut.Panel.Area > largest.cut.Panel.Area) {
			largest = &cuts[i]
		}
	}
	for _, n := range names {
		count += furnitureCount(o, n)
	}
	if count > 1 {
		f.Count = fmt.Sprintf("%d times", count)
	}
	switch {
	case slices.ContainsFunc(o.Rough, func(r job.RoughPiece) bool { return slices.Contains(names, r.Piece) }):
		f.Cut = "not measured yet"
	case pieces > 0:
		f.Cut = fmt.Sprintf("%s, no. %s", plural(pieces, "piece"), runs(numbers))
	}
	if largest != nil {
		picture, err := largest.Picture(pattern.Picture{Title: "Largest panel of " + names[0], Plain: true, Width: 110, Height: 76})
		if err != nil {
			return f, err
		}
		f.Picture = drawing(picture)
	}
	return f, nil
}

// furnitureCount is how many there are of a piece of furniture.
func furnitureCount(o job.WorkOrder, name string) int {
	for _, g := range o.Quote.Terms.Groups {
		if g.Name == name {
			return g.Items
		}
	}
	return 1
}

// stagesOf gives the stages of the work on a piece of furniture: its tasks, after
// cutting where that is none of them, and the last look.
func stagesOf(o job.WorkOrder, name string) []string {
	var out []string
	for _, b := range o.Labour {
		if b.Piece == name && !slices.Contains(out, b.Task) {
			out = append(out, b.Task)
		}
	}
	if len(out) == 0 {
		return usualStages()
	}
	if !slices.ContainsFunc(out, func(task string) bool { return strings.HasPrefix(task, "cut") }) {
		out = append([]string{"cut"}, out...)
	}
	return append(out, "checked")
}
