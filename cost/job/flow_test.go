package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// flowJob is a piece of furniture in cloth 54 in wide, all usable.
func flowJob(goods, piece string) string {
	return fmt.Sprintf(`{"schema": "coverwright/job/1", "name": "flow", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "60 USD/yd", "width": "54 in", %s},
			{"id": "plain", "kind": "roll", "name": "plain", "material": "woven", "price": "20 USD/yd", "width": "54 in"}],
		"pieces": [%s],
		"quote": {"labour_rate": "50 USD/h"}}`, goods, piece)
}

// Jobs worked by hand, from finished sizes with 1/2 in of seam all round. Their
// needs are those that complete search has proved for the cut rectangles.
func TestPatternRunsOn(t *testing.T) {
	const chair = `"panels": [
			{"name": "back", "goods": "cloth", "width": "25 in", "length": "31 in"}, {"name": "cushion", "goods": "cloth", "width": "24 in", "length": "24 in"},
			{"name": "boxing", "goods": "cloth", "width": "24 in", "length": "4 in"}, {"name": "border", "goods": "cloth", "width": "26 in", "length": "8 in"}%s],
		"motifs": [{"on": "back", "at": "12 1/2 in, 20 1/2 in"}],
		"meets": [{"meet": "back.bottom", "in": "9 1/2 in", "to": "cushion.top", "to_in": "1/2 in", "pattern": "both"},
			{"meet": "cushion.bottom", "to": "boxing.top", "pattern": "both"},
			{"meet": "boxing.bottom", "to": "border.top", "to_in": "1/2 in", "pattern": "both"}%s]`
	const skirt, hung = `, {"name": "skirt", "goods": "cloth", "width": "26 in", "length": "8 in"}`, `, {"meet": "border.bottom", "to": "skirt.top", "pattern": "both"}`
	const three = `{"name": "sofa", "panels": [{"name": "top", "goods": "cloth", "count": 3, "width": "24 in", "length": "24 in"},
		{"name": "front", "goods": "cloth", "count": 3, "width": "24 in", "length": "4 in"}],
		"motifs": [{"on": "top"}], "meets": [{"meet": "top.bottom", "to": "front.top", "pattern": "both"}]}`
	big := `"repeat": "27 in", "repeat_across": "27 in", "first_motif": "13 1/2 in, 0 in", "unknown_start": true`
	for name, c := range map[string]struct {
		goods, piece string
		need         unit.Length
	}{
		// Inside back, cushion, boxing and border on one middle line: 41 in, 37 in plain; with
		// the skirt 56 1/2 in, 41 in plain.
		"front of a chair":      {big, `{"name": "chair", ` + fmt.Sprintf(chair, "", "") + `}`, 41 * unit.Inch},
		"the same with a skirt": {big, `{"name": "chair", ` + fmt.Sprintf(chair, skirt, hung) + `}`, 113 * unit.Inch / 2},
		// Each cushion has a motif in the middle, and its front follows: a top and a front
		// leave most of a repeat between them in a column, 82 in; 50 in plain.
		"three cushions": {big, three, 82 * unit.Inch},
		// A stripe every 6 in down back, cushion and border, and in the middle of both
		// arms: 46 in, 45 in plain.
		"stripe": {`"repeat_across": "6 in", "first_motif": "3 in, 0 in"`, `{"name": "chair", "panels": [
			{"name": "back", "goods": "cloth", "width": "21 in", "length": "25 in"}, {"name": "cushion", "goods": "cloth", "width": "21 in", "length": "24 in"},
			{"name": "border", "goods": "cloth", "width": "21 in", "length": "5 in"}, {"name": "arm", "goods": "cloth", "pair": true, "width": "12 in", "length": "19 in"}],
			"motifs": [{"on": "back", "way": "across"}, {"on": "arm", "way": "across"}],
			"meets": [{"meet": "back.bottom", "in": "4 in", "to": "cushion.top", "pattern": "across"}, {"meet": "cushion.bottom", "to": "border.top", "pattern": "across"}]}`, 46 * unit.Inch},
	} {
		o, err := Read(t.Context(), strings.NewReader(flowJob(c.goods, c.piece)), Options{Effort: 0.3, NoMatching: true})
		require.NoError(t, err, name)
		p := o.Purchases[0].Plan
		assert.Equal(t, c.need, p.Need, name)
		requireFlow(t, o)
	}
}

// requireFlow asks of every crossing of an order that the goods show the same on both
// sides, to 0.1 mm, but where the order says that it cannot close.
func requireFlow(t require.TestingT, o WorkOrder) {
	for n, a := range o.Assembly {
		if a.Pattern == nil {
			continue
		}
		for i, x := range a.Pattern.Crossings {
			from, ok := onGoods(o, n+1, x.From, x.FromAt)
			to, okTo := onGoods(o, n+1, x.To, x.ToAt)
			if !ok || !okTo {
				continue
			}
			broken := slices.ContainsFunc(a.Pattern.Breaks, func(b PatternBreak) bool { return b.Crossing == i+1 })
			way := x.Way
			if slices.Contains(a.Pattern.Apart, i+1) {
				if way == allowance.AcrossOnly {
					continue
				}
				way = allowance.AlongOnly
			}
			met := false
			for _, p := range from.at {
				for _, q := range to.at {
					m := from.motifs
					switch way {
					case allowance.AcrossOnly:
						m.Along = 0
					case allowance.AlongOnly:
						m.Across, m.Along, m.Drop = 0, m.Along/unit.Length(max(m.Drop.Den, 1)), material.Drop{}
					}
					off := m.Apart(shape.Point{X: q.X - p.X - x.Lost.X, Y: q.Y - p.Y - x.Lost.Y})
					met = met || max(off.X, -off.X, off.Y, -off.Y) <= tenth
				}
			}
			require.Equal(t, !broken, met, "%s to %s", x.FromEdge, x.ToEdge)
		}
	}
}

// shown is where a point of a piece lies on the goods, for every copy.
type shown struct {
	at     []shape.Point
	motifs material.Motifs
}

// onGoods finds a point of a piece, from the corner of the box round its seam line,
// on goods that run up the roll.
func onGoods(o WorkOrder, assembly, piece int, at shape.Point) (shown, bool) {
	of := map[string]int{} // the cuts of each goods are the pieces of its layout
	for _, c := range o.Cuts {
		k := of[c.Goods]
		of[c.Goods]++
		if c.Assembly != assembly || !slices.Contains(c.Pieces, piece) {
			continue
		}
		b := slices.IndexFunc(o.Purchases, func(p Purchase) bool { return p.Goods == c.Goods })
		plan := o.Purchases[b].Plan
		if plan == nil || !plan.Job.Roll.Patterned() {
			return shown{}, false
		}
		// A right hand in a line of pairs is the mirror image of what is drawn.
		hand := o.Assembly[assembly-1].Work.Pieces[piece].Hand
		mirrored := c.Pair && hand == allowance.RightHand
		low, high := corners(c.Panel.SeamLine)
		p := shape.Point{X: low.X + at.X, Y: low.Y + at.Y}
		if mirrored {
			p.X = -high.X + at.X
		}
		var out shown
		out.motifs = plan.Job.Roll.Motifs()
		for _, q := range plan.Places {
			if q.Piece == k && q.Mirrored == mirrored {
				r := p
				if q.Turned == 180 {
					r = shape.Point{X: -p.X, Y: -p.Y}
				}
				out.at = append(out.at, shape.Point{X: q.X + r.X, Y: q.Y + r.Y})
			}
		}
		return out, true
	}
	return shown{}, false
}

// Of every kind, in goods of any repeat, the pattern runs on over all that it crosses,
// on the goods as they are laid out.
func TestPatternOfKindsRunsOn(t *testing.T) { few.Check(t, 2, patternOfKindsRunsOn) }

func patternOfKindsRunsOn(t *rapid.T) {
	k := rapid.SampledFrom([]string{"wing chair", "three-seat sofa", "club chair", "boxed cushion"}).Draw(t, "kind")
	of, err := kind.Named(k)
	require.NoError(t, err)
	repeat := rapid.SampledFrom([]string{"", "9 in", "18 in", "27 in"}).Draw(t, "repeat")
	goods := fmt.Sprintf(`"repeat_across": %q, "one_way": %v`, rapid.SampledFrom([]string{"9 in", "13 in"}).Draw(t, "across"), rapid.Bool().Draw(t, "one way"))
	if repeat != "" {
		goods += fmt.Sprintf(`, "repeat": %q`, repeat) + rapid.SampledFrom([]string{"", `, "drop": "1/2"`, `, "drop": "1/3"`}).Draw(t, "drop")
	}
	measures, err := json.Marshal(of.Likely())
	require.NoError(t, err)
	job := flowJob(goods, fmt.Sprintf(`{"name": "p", "from": %q, "goods": "cloth", "goods_for": {%s}, "measures": %s}`, k, goodsForOf(of), measures))
	o, err := Read(t.Context(), strings.NewReader(job), Options{Effort: 0.001, NoMatching: true})
	require.NoError(t, err)
	requireFlow(t, o)
	found := 0
	for _, a := range o.Assembly {
		if a.Pattern != nil {
			found += len(a.Pattern.Crossings)
		}
	}
	require.Positive(t, found)
}

func goodsForOf(k kind.Kind) string {
	var out []string
	for _, r := range k.Goods {
		if r.As == "" {
			out = append(out, fmt.Sprintf("%q: \"plain\"", r.Name))
		}
	}
	return strings.Join(out, ", ")
}

// A boxed cushion 24 x 22 in whose pattern runs all round closes only by chance: 92 in
// of boxing on a repeat of 27 in are 11 in over. What is wished in vain is told too.
func TestPatternThatCannotClose(t *testing.T) {
	const ring = `{"name": "stool", "panels": [{"name": "a", "goods": "cloth", "width": "24 in", "length": "4 in"}, {"name": "b", "goods": "cloth", "width": "22 in", "length": "4 in"},
		{"name": "c", "goods": "cloth", "width": "24 in", "length": "4 in"}, {"name": "d", "goods": "cloth", "width": "22 in", "length": "4 in"}],
		"motifs": [{"on": "a"}, {"on": "c"}],
		"meets": [{"meet": "a.right", "to": "b.left", "pattern": "both"}, {"meet": "b.right", "to": "c.left", "pattern": "both", "hidden": true},
			{"meet": "c.right", "to": "d.left", "pattern": "both"}, {"meet": "d.right", "to": "a.left", "pattern": "both"}]}`
	o, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat": "27 in", "repeat_across": "27 in"`, ring)), Options{Effort: 0.05, NoMatching: true})
	require.NoError(t, err)
	notes := o.Assembly[0].PatternNotes(pattern.Inches)
	assert.Contains(t, notes, "the pattern cannot run on from b.right to c.left: there it lies 11 in to the right of where it should")
	assert.Contains(t, notes, "c: the motif lies 8 in to the left of the point asked for, where the pattern runs on to")
	assert.Contains(t, notes, "the pattern runs on from a.right to b.left")
	assert.Len(t, notes, 5)
	requireFlow(t, o)
	// On a stripe of 4 in all closes, and the wish is met: 46 in from middle to middle are
	// 2 in over, half a stripe.
	o, err = Read(t.Context(), strings.NewReader(flowJob(`"repeat_across": "4 in"`, ring)), Options{Effort: 0.05, NoMatching: true})
	require.NoError(t, err)
	assert.Equal(t, []PatternBreak{{Piece: 2, Off: shape.Point{X: 2 * unit.Inch}}}, o.Assembly[0].Pattern.Breaks)
}

// Motifs that are alike lie alike, wherever serves best: six seats on a repeat of 18 in
// both ways with motifs 9 in from the edge take the least that any place gives.
func TestMotifsAlike(t *testing.T) {
	const seats = `{"name": "chair", "count": 6, "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in"}], "motifs": [{"on": "seat", "alike": "seats"%s}]}`
	o, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat": "18 in", "repeat_across": "18 in"`, fmt.Sprintf(seats, ""))), Options{Effort: 0.1, NoMatching: true})
	require.NoError(t, err)
	assert.Equal(t, 35*unit.Inch, o.Purchases[0].Plan.Need, "three abreast, two rows of 18 in less the gap")
	assert.Equal(t, 1, o.Purchases[0].Plan.Job.Pieces[0].Phase.Common)
}

func TestMotifFaults(t *testing.T) {
	for name, c := range map[string]struct {
		piece, field string
		want         error
	}{
		"no such panel": {`{"name": "p", "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in"}], "motifs": [{"on": "back"}]}`, "pieces[0].motifs[0].on", unit.ErrUnknown},
		"plain goods":   {`{"name": "p", "panels": [{"name": "seat", "goods": "plain", "width": "16 in", "length": "16 in"}], "motifs": [{"on": "seat"}]}`, "pieces[0].motifs[0].on", ErrMisplaced},
		"unmatched":     {`{"name": "p", "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in", "unmatched": true}], "motifs": [{"on": "seat"}]}`, "pieces[0].motifs[0].on", ErrMisplaced},
		"cushion": {`{"name": "p", "cushions": [{"name": "seat", "width": "16 in", "depth": "16 in", "thickness": "4 in", "top": "cloth"}], "motifs": [{"on": "seat.plate"}]}`,
			"pieces[0].motifs[0].on", unit.ErrUnknown},
		"two goods": {`{"name": "p", "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in"}, {"name": "front", "goods": "plain", "width": "16 in", "length": "6 in"}],
			"meets": [{"meet": "seat.bottom", "to": "front.top", "pattern": "both"}]}`, "pieces[0].meets[0].pattern", unit.ErrRange},
		"or with a flow": {`{"name": "p", "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in"}, {"name": "front", "goods": "cloth", "width": "16 in", "length": "6 in"}],
			"motifs": [{"on": "seat", "or": ["1 in, 1 in"]}], "meets": [{"meet": "seat.bottom", "to": "front.top", "pattern": "both"}]}`, "pieces[0].motifs[0].or", unit.ErrRange},
		"bolster": {`{"name": "p", "cushions": [{"name": "roll", "kind": "bolster", "width": "16 in", "depth": "6 in", "top": "cloth", "pattern": "both"}]}`, "pieces[0].cushions[0].pattern", ErrMisplaced},
	} {
		_, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat": "18 in"`, c.piece)), quick)
		require.ErrorIs(t, err, c.want, name)
		assert.ErrorContains(t, err, c.field, name)
	}
}

// A motif on the top of a cushion that stands alone, and several points that will do.
func TestMotifOnACushion(t *testing.T) {
	const seat = `{"name": "bench", "count": 2, "cushions": [{"name": "seat", "width": "20 in", "depth": "20 in", "thickness": "4 in", "top": "cloth", "zip": true, "pattern": "both"}],
		"panels": [{"name": "back", "goods": "cloth", "width": "20 in", "length": "20 in"}],
		"motifs": [{"on": "seat.top plate"}, {"on": "back", "or": ["10 in, 14 in"]}]}`
	o, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat": "18 in", "repeat_across": "18 in", "first_motif": "9 in, 0 in"`, seat)), Options{Effort: 0.05, NoMatching: true})
	require.NoError(t, err)
	axes, spots := map[string]layout.Axes{}, map[string]int{}
	for _, p := range o.Purchases[0].Plan.Job.Pieces {
		axes[p.Name], spots[p.Name] = p.Phase.Axes, len(p.Phase.Spots)
	}
	assert.Equal(t, layout.BothAxes, axes["bench: seat, top plate"])
	assert.Equal(t, layout.BothAxes, axes["bench: seat, boxing front"], axes)
	assert.Equal(t, layout.Unbound, axes["bench: seat, bottom plate"])
	assert.Equal(t, 2, spots["bench: back"])
	requireFlow(t, o)
}

// In plain goods, and in an option of plain goods or of two goods, what is said of the
// pattern means nothing.
func TestPatternInAnOption(t *testing.T) {
	job := flowJob(`"repeat": "18 in"`, `{"name": "p", "panels": [{"name": "seat", "goods": "cloth", "width": "16 in", "length": "16 in", "motif": "8 in, 8 in"}, {"name": "front", "goods": "cloth", "width": "16 in", "length": "6 in"}],
		"motifs": [{"on": "front"}], "meets": [{"meet": "seat.bottom", "to": "front.top", "pattern": "both"}]}`)
	job = strings.Replace(job, `"quote": {`, `"options": [{"name": "plain", "replace": [{"goods": "cloth", "with": "plain"}]}], "quote": {`, 1)
	o, err := Read(t.Context(), strings.NewReader(job), quick)
	require.NoError(t, err)
	assert.Equal(t, "plain", o.Options[0].Purchases[0].Goods)
}

// Where a kind's motif has no room on the goods, a chain is moved as one so that the
// pattern still runs on, and a panel by itself follows along the roll alone. What the job
// asks for itself is refused.
func TestPatternFindsRoom(t *testing.T) {
	const chair = `{"name": "club", "from": "club chair", "goods": "cloth", "goods_for": {"lining": "plain", "dust cover": "plain"}, "without": ["welt"], "measures": {"seat width": "22 in",
		"seat depth": "22 in", "front border height": "8 in", "outside height": "26 in", "inside back height": "20 in", "round of the back inside": "50 in", "top band width": "4 in",
		"outside back width": "28 in", "outside arm width": "20 in"}%s}`
	// The back, 51 in wide, has 3 in to move in; stripes at 24 3/4 and 29 1/4 in leave its
	// middle out.
	o, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat_across": "4 1/2 in", "first_motif": "2 1/4 in, 0 in"`, fmt.Sprintf(chair, ""))), Options{Effort: 0.01, NoMatching: true})
	require.NoError(t, err)
	notes := strings.Join(o.Assembly[0].PatternNotes(pattern.Inches), "\n")
	assert.Contains(t, notes, "inside back: these goods are too narrow beside their motifs to have one in its middle; it lies beside it, so that the pattern runs on")
	assert.NotContains(t, notes, "along the roll alone")
	requireFlow(t, o)
	// On a repeat of 27 in the outside back, 28 in and its edges, reaches over an edge.
	o, err = Read(t.Context(), strings.NewReader(flowJob(`"repeat_across": "27 in", "first_motif": "13 1/2 in, 0 in"`, fmt.Sprintf(chair, ""))), Options{Effort: 0.01, NoMatching: true})
	require.NoError(t, err)
	notes = strings.Join(o.Assembly[0].PatternNotes(pattern.Inches), "\n")
	assert.Contains(t, notes, "outside back: these goods are too narrow beside their motifs to have one in its middle, so it follows the pattern along the roll alone")
	requireFlow(t, o)
	_, err = Read(t.Context(), strings.NewReader(flowJob(`"repeat_across": "27 in", "first_motif": "13 1/2 in, 0 in"`, fmt.Sprintf(chair, `, "motifs": [{"on": "outside back"}]`))), quick)
	require.ErrorIs(t, err, layout.ErrNoLayout)
	assert.ErrorContains(t, err, "outside back")
}

// Notes of pieces that the flow does not have are none.
func TestPatternNotesOfNoPiece(t *testing.T) {
	for _, n := range []int{-1, 0} {
		a := Assembly{Pattern: &PatternFlow{OneWay: []int{n}, Moved: []int{n}, Breaks: []PatternBreak{{Piece: n}}}}
		assert.Empty(t, a.PatternNotes(pattern.Inches))
	}
}

// Pieces lie on the pattern alike to a nanometre across, by which halves are rounded, and
// of two hands mirrored.
func TestLayingsAlike(t *testing.T) {
	at := func(x unit.Length) laying {
		return laying{spots: []shape.Point{{X: x, Y: unit.Inch}}, width: 10 * unit.Inch}
	}
	for off, alike := range map[unit.Length]bool{-2: false, -1: true, 0: true, 1: true, 2: false} {
		assert.Equal(t, alike, at(3*unit.Inch).alike(at(3*unit.Inch+off), false), off)
		assert.Equal(t, alike, at(3*unit.Inch).alike(at(7*unit.Inch+off), true), off)
	}
}
