package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// matching says what it costs to match patterned goods: what plain ones would take,
// and how much less is bought without matching this or that, the largest saving
// first.
func (s *sheet) matching(o job.WorkOrder, p job.Purchase) []string {
	m := p.Matching
	if m == nil {
		return nil
	}
	if m.Plain.Less == 0 {
		return []string{"costs nothing: plain goods would take as much" + found(m.Plain)}
	}
	alone := ""
	if p.Ordered != nil && p.Ordered.Margin.Total > 0 {
		alone = ", both without the margin"
	}
	out := []string{"plain " + s.goodsLen(m.Plain.Order, unit.Up) + ", matched " + s.goodsLen(m.Plain.Order+m.Plain.Less, unit.Up) + alone + found(m.Plain)}
	var dear, cheap []string
	all, none := true, true // exact
	for _, w := range m.Wishes {
		if name := matchedPart(o, p, w.Piece); w.Less > 0 {
			dear = append(dear, name+" "+s.goodsLen(w.Less, unit.Down))
			all = all && w.Exact
		} else {
			cheap = append(cheap, name)
			none = none && w.Exact
		}
	}
	if a := m.Across; a != nil && a.Less > 0 && a.Order > m.Plain.Order {
		out = append(out, "lined up across the roll but not along it "+s.goodsLen(a.Order, unit.Up)+found(*a))
	}
	if len(dear) > 0 {
		text := "saved without matching: " + strings.Join(dear, "; ")
		if len(dear) > 1 {
			text += "; each alone: the savings do not add up"
		}
		if !all {
			text += found(layout.Relaxed{})
		}
		out = append(out, text)
	}
	if len(cheap) > 0 {
		text := "costs nothing to match: " + strings.Join(cheap, "; ")
		if !none {
			text += found(layout.Relaxed{})
		}
		out = append(out, text)
	}
	switch {
	case m.Stopped:
		out = append(out, "stopped before its time: more effort might save more")
	case m.Untried > 0:
		out = append(out, fmt.Sprintf("not tried: the %d smallest", m.Untried))
	}
	return out
}

// found says whether better layouts could make it another difference.
func found(r layout.Relaxed) string {
	if r.Exact {
		return " (proved)"
	}
	return " (as found)"
}

// matchedPart names a piece of a plan, with its furniture where the goods cover
// several.
func matchedPart(o job.WorkOrder, p job.Purchase, i int) string {
	cuts := o.CutsOf(p.Goods)
	for _, c := range cuts {
		if c.Piece != cuts[i].Piece {
			return cuts[i].Piece + ": " + cuts[i].Part
		}
	}
	return cuts[i].Part
}
