package main

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// What matching costs is said in the words and the measures of the shop: the largest
// saving first, what costs nothing once.
func TestMatchingInWords(t *testing.T) {
	order := job.WorkOrder{}
	for _, part := range []string{"inside back", "skirt", "boxing", "border"} {
		order.Cuts = append(order.Cuts, job.Cut{Piece: "chair", Part: part, Goods: "damask"}, job.Cut{Piece: "stool", Part: part, Goods: "lining"})
	}
	eighths := func(n unit.Length) unit.Length { return n * unit.Yard / 8 }
	less := func(n unit.Length, exact bool) layout.Relaxed {
		return layout.Relaxed{Order: eighths(108 - n), Less: eighths(n), Exact: exact}
	}
	matching := layout.Matching{Plain: less(30, true), Wishes: []layout.Wish{
		{Piece: 1, Relaxed: less(12, true)}, {Piece: 0, Relaxed: less(3, true)}, {Piece: 2, Relaxed: less(0, true)}, {Piece: 3, Relaxed: less(0, true)}}}
	bought := job.Purchase{Goods: "damask", Matching: &matching}
	s := &sheet{}
	assert.Equal(t, []string{
		"plain 9 3/4 yd, matched 13 1/2 yd (proved)",
		"saved without matching: skirt 1 1/2 yd; inside back 3/8 yd; each alone: the savings do not add up",
		"costs nothing to match: boxing; border",
	}, s.matching(order, bought))

	across := less(20, false)
	matching.Across, matching.Plain.Exact, matching.Wishes, matching.Untried = &across, false, matching.Wishes[:1], 3
	matching.Wishes[0].Exact = false
	order.Cuts[2].Piece = "sofa"
	assert.Equal(t, []string{
		"plain 8.92 m, matched 12.35 m (as found)",
		"lined up across the roll but not along it 10.06 m (as found)",
		"saved without matching: sofa: skirt 1.37 m (as found)",
		"not tried: the 3 smallest",
	}, (&sheet{metric: true}).matching(order, bought))

	bought.Ordered = &material.Ordered{Margin: material.MarginParts{Total: unit.Inch}}
	assert.Equal(t, "plain 9 3/4 yd, matched 13 1/2 yd, both without the margin (as found)", s.matching(order, bought)[0])

	matching.Stopped = true
	assert.Equal(t, "stopped before its time: more effort might save more", s.matching(order, bought)[3])
	bought.Matching = &layout.Matching{Plain: less(0, true)}
	assert.Equal(t, []string{"costs nothing: plain goods would take as much (proved)"}, s.matching(order, bought))
	bought.Matching = nil
	assert.Empty(t, s.matching(order, bought))
}
