package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
)

// A long back is joined from three parts, so that its pattern runs on; of the seats two
// lie on a remnant; and the arms of three sofas are pairs without a seam.
const (
	longBackJob = `{"schema": "coverwright/job/1", "name": "a long back", "currency": "USD",
	"goods": [{"id": "a", "kind": "roll", "name": "damask", "material": "woven", "price": "40.00 USD/yd", "width": "54 in",
		"repeat": "27 in", "repeat_across": "18 in", "first_motif": "9 in, 0 in", "unknown_start": true}],
	"pieces": [{"name": "sofa", "panels": [{"name": "back", "goods": "a", "width": "83 in", "length": "25 in", "edges": "plain seam", "motif": "41 1/2 in, 13 1/2 in",
		"join": {"along_width": true, "least": "12 in", "most": 2}}]}],
	"quote": {"labour_rate": "60.00 USD/h"}}`
	armsJob = `{"schema": "coverwright/job/1", "name": "arms", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "40 USD/yd", "width": "54 in"}],
	"pieces": [{"name": "sofa", "count": 3, "panels": [{"name": "arm", "goods": "cloth", "pair": true, "width": "20 in", "length": "24 in", "edges": "raw"}]}],
	"quote": {"labour_rate": "50 USD/h"}}`
)

// labelOrders are all there is to label: every anatomy, the demo and the other jobs.
var labelOrders = sync.OnceValues(func() (map[string]job.WorkOrder, error) {
	out := map[string]job.WorkOrder{}
	texts := map[string]string{"long back": longBackJob, "arms": armsJob,
		"remnant": strings.Replace(stockJob, "GOODS", `"at_hand": [{"name": "rest", "length": "25 in", "remnant": true}]`, 1)}
	files, err := filepath.Glob("../../cost/job/testdata/anatomy/*.json")
	for _, name := range append(files, "../../cost/job/testdata/larkfield-plain.json", "sofa.json", "testdata/stool.json", "testdata/shapes.json") {
		text, fault := os.ReadFile(name) //nolint:gosec // a file of ours
		if fault != nil {
			return nil, fault
		}
		if strings.Contains(name, "anatomy") {
			name = strings.TrimSuffix(filepath.Base(name), ".json")
		}
		texts[name] = string(text)
	}
	for name, text := range texts {
		o, fault := job.Read(context.Background(), strings.NewReader(text), job.Options{Effort: 0.001})
		if fault != nil {
			return nil, fmt.Errorf("%s: %w", name, fault)
		}
		out[name] = o
	}
	return out, err
})

func toLabel(t testing.TB) map[string]job.WorkOrder {
	t.Helper()
	out, err := labelOrders()
	require.NoError(t, err)
	demo, err := asPrinted()
	require.NoError(t, err)
	all := map[string]job.WorkOrder{"demo": demo}
	for name, o := range out {
		all[name] = o
	}
	require.Len(t, all, 12+3+4+1)
	return all
}

// There is one label for each piece that is cut: as many as the cut list counts, with
// the joined ones once for each part; and as many as lie on the layouts, goods by goods
// in the order in which the goods are bought.
func TestALabelForEveryPiece(t *testing.T) {
	for name, o := range toLabel(t) {
		labels := (&sheet{}).pieceLabels(o)
		seen := map[[2]int]int{}
		ofGoods := map[string]int{}
		var order []string
		for _, l := range labels {
			c := o.Cuts[l.Number-1]
			assert.Equal(t, c.Count, l.Of, name)
			assert.Equal(t, c.Piece, l.Piece, name)
			seen[[2]int{l.Number, l.Copy}]++
			ofGoods[c.Goods]++
			if !slices.Contains(order, c.Goods) {
				order = append(order, c.Goods)
			} else {
				assert.Equal(t, c.Goods, order[len(order)-1], "%s: the goods one after another", name)
			}
		}
		pieces := 0
		for i, c := range o.Cuts {
			pieces += c.Count
			for k := range c.Count {
				assert.Positive(t, seen[[2]int{i + 1, k + 1}], "%s: %s, %d of %d", name, c.Part, k+1, c.Count)
			}
		}
		assert.Len(t, seen, pieces, name)
		for _, p := range o.Purchases {
			places, copies := 0, 0
			for _, laid := range p.Layouts() {
				require.True(t, laid.Plan.Complete(), name)
				places += len(laid.Plan.Places)
				for _, q := range laid.Plan.Job.Pieces {
					copies += q.Count
				}
			}
			of := 0
			for _, c := range o.CutsOf(p.Goods) {
				of += c.Count
			}
			if len(p.Layouts()) == 0 {
				places, copies = of, of
			}
			assert.Equal(t, of, copies, "%s: %s", name, p.Goods)
			assert.Equal(t, places, ofGoods[p.Goods], "%s: %s", name, p.Goods)
		}
	}
}

// Half of a pair is the sitter's left and half the right, by turns; the mirrored ones are
// those that lie mirrored on the layout, and one after another they are cut as it says.
func TestHandsOnLabels(t *testing.T) {
	for name, o := range toLabel(t) {
		labels := (&sheet{}).pieceLabels(o)
		hands := map[[2]int]allowance.Hand{}
		for _, l := range labels {
			hands[[2]int{l.Number, l.Copy}] = l.Hand
		}
		for i, c := range o.Cuts {
			for k := range c.Count {
				hand := hands[[2]int{i + 1, k + 1}]
				switch {
				case !c.Pair:
					assert.Equal(t, c.Hand, hand, "%s: %s", name, c.Part)
				case k > 0:
					assert.NotEqual(t, hands[[2]int{i + 1, k}], hand, "%s: %s", name, c.Part)
				default:
					assert.NotEqual(t, allowance.Either, hand, "%s: %s", name, c.Part)
				}
			}
		}
		for _, p := range o.Purchases {
			if p.Plan == nil || p.Stock != nil || p.Plan.Job.Roll == nil {
				continue
			}
			var own []pieceLabel
			for _, l := range labels {
				if o.Cuts[l.Number-1].Goods == p.Goods {
					own = append(own, l)
				}
			}
			for k, q := range p.Plan.InOrder() {
				assert.Equal(t, q.Mirrored, own[k].Mirrored, "%s: %s", name, own[k].Part)
				assert.Equal(t, p.Plan.Job.Pieces[q.Piece].Name, own[k].Piece+": "+o.Cuts[own[k].Number-1].Part, name)
			}
		}
	}
	arms := map[string]int{}
	for _, l := range (&sheet{}).pieceLabels(toLabel(t)["arms"]) {
		arms[fmt.Sprint(l.Copy, " of ", l.Of, " ", l.Hand, l.Mirrored)]++
	}
	assert.Equal(t, map[string]int{"1 of 6 left false": 1, "2 of 6 right true": 1, "3 of 6 left false": 1, "4 of 6 right true": 1, "5 of 6 left false": 1, "6 of 6 right true": 1}, arms,
		"the drawn hand of a pair is the left")
}

// The seams of the wing chair, from its job file: after the flat work of its cushion the
// wing on the inside arm is E, and after its plates the deck to the front border is H and
// the arm front to the inside arm J, each with its hand.
func TestMatesOfTheWingChair(t *testing.T) {
	got := map[string][]seamMates{}
	for _, l := range (&sheet{}).pieceLabels(toLabel(t)["wing-chair"]) {
		if strings.HasPrefix(l.Part, "seat cushion") {
			continue
		}
		got[strings.TrimSpace(l.Part+" "+strings.TrimPrefix(l.Hand.String(), "either"))] = l.Seams
	}
	want := map[string][]seamMates{
		"deck": {{"H", "front border"}}, "front border": {{"H", "deck"}},
		"inside arm left": {{"E-L", "inside wing left"}, {"J-L", "arm front left"}}, "inside arm right": {{"E-R", "inside wing right"}, {"J-R", "arm front right"}},
		"arm front left": {{"J-L", "inside arm left"}}, "arm front right": {{"J-R", "inside arm right"}},
		"inside wing left": {{"E-L", "inside arm left"}}, "inside wing right": {{"E-R", "inside arm right"}},
		"inside back": nil, "outside wing left": nil, "outside wing right": nil, "outside arm left": nil, "outside arm right": nil, "outside back": nil, "dust cover": nil, "welt strip": nil,
	}
	assert.Equal(t, want, got)
}

// Mates are mutual: where a piece names another at a letter, that one has the letter too.
func TestMatesAreMutual(t *testing.T) {
	for name, o := range toLabel(t) {
		labels := (&sheet{}).pieceLabels(o)
		on := map[string]int{} // pieces with a seam, of a piece of furniture and its cover
		for _, l := range labels {
			for _, s := range l.Seams {
				on[fmt.Sprint(l.Piece, o.Cuts[l.Number-1].Assembly, s.Letter)]++
			}
		}
		for _, l := range labels {
			for _, s := range l.Seams {
				assert.NotEmpty(t, s.Mates, "%s: %s: %s", name, l.Part, s.Letter)
				if s.Mates != "itself" && s.Mates != "zip" {
					assert.Greater(t, on[fmt.Sprint(l.Piece, o.Cuts[l.Number-1].Assembly, s.Letter)], 1, "%s: %s: %v", name, l.Part, s)
				}
			}
		}
	}
}

// Parts of a joined piece have a label each, with the size of the part: a full width of
// 54 in between two sides of 16 in.
func TestLabelsOfAJoinedPiece(t *testing.T) {
	got := map[string]string{}
	for _, l := range (&sheet{}).pieceLabels(toLabel(t)["long back"]) {
		assert.Equal(t, 1, l.Of)
		got[l.Segment] = l.Size
	}
	assert.Equal(t, map[string]string{"part 1 of 3": "16 x 26 in", "part 2 of 3": "54 x 26 in", "part 3 of 3": "16 x 26 in"}, got)
}

// The top of a piece: up the roll or to the neck, unless it was turned.
func TestTopOfAPiece(t *testing.T) {
	for degrees, want := range map[int][2]string{
		0: {"top up the roll", "top to the neck"}, 90: {"railroaded, top to the left edge", "top 90° left of the neck"},
		180: {"top down the roll", "top to the tail"}, 270: {"railroaded, top to the right edge", "top 90° right of the neck"},
		-45: {"top 315° left of up the roll", "top 45° right of the neck"}, 360: {"top up the roll", "top to the neck"},
	} {
		assert.Equal(t, want, [2]string{topWay(true, angleOf(degrees)), topWay(false, angleOf(degrees))})
	}
}

// labelSet is what the command line sets.
func labelSet(t testing.TB, f labelFlags, on pattern.Sheet) settings {
	t.Helper()
	g, err := f.grid(on)
	require.NoError(t, err)
	return settings{labels: g}
}

// Every label stands on its sheet with all that its form has, and the bytes are the same
// every time.
func TestLabelsPage(t *testing.T) {
	for name, o := range toLabel(t) {
		labels := (&sheet{}).pieceLabels(o)
		set := labelSet(t, labelFlags{label: "99 mm x 57 mm", first: 4}, pattern.A4())
		page, err := labelsHTML(o, set)
		require.NoError(t, err)
		again, err := labelsHTML(o, set)
		require.NoError(t, err)
		require.True(t, bytes.Equal(page, again), name)
		root := parse(t, page)
		shown := root.all("div", "label")
		require.Len(t, shown, len(labels), name)
		assert.Len(t, root.all("section", "sheet"), (3+len(labels)+9)/10, name)
		assert.Equal(t, "left:105mm;top:63mm", shown[0].attrs["style"], "the fourth place")
		for i, l := range labels {
			text := strings.Join(strings.Fields(shown[i].words()), " ")
			assert.Contains(t, text, fmt.Sprintf("%d %d of %d", l.Number, l.Copy, l.Of))
			for _, s := range append([]string{l.Part, l.Piece, l.Goods, l.Way, l.Segment}, "cut "+l.Size) {
				assert.Contains(t, text, s, name)
			}
			if l.Hand != allowance.Either {
				assert.Contains(t, text, l.Hand.String())
			}
			for _, s := range l.Seams {
				assert.Contains(t, text, s.Letter+": "+s.Mates)
			}
			assert.Len(t, shown[i].all("svg", ""), 1, "the arrow")
		}
		root.each(func(e *element) {
			assert.NotContains(t, []string{"script", "img", "iframe", "object", "a"}, e.name)
			assert.NotContains(t, e.attrs, "src")
			if ref, ok := e.attrs["href"]; ok {
				assert.Equal(t, "data:,", ref)
			}
		})
	}
}

// Hostile names stay text.
func TestLabelsEscape(t *testing.T) {
	o := fresh(t)
	labels := len((&sheet{}).pieceLabels(o))
	for _, h := range append(slices.Clone(hostile), strings.Join(hostile, " ")) {
		rename(reflect.ValueOf(&o).Elem(), h)
		for _, label := range []string{"", "25 mm x 12 mm"} {
			page, err := labelsHTML(o, labelSet(t, labelFlags{label: label, first: 1}, pattern.A4()))
			require.NoError(t, err)
			root := parse(t, page)
			assert.Len(t, root.all("div", "label"), labels, "%q", h)
			root.each(func(e *element) {
				assert.Contains(t, []string{"", "html", "head", "meta", "link", "title", "style", "body", "header", "h1", "p", "main", "section", "div", "svg", "path", "b", "i"}, e.name, "%q", h)
				for a := range e.attrs {
					assert.Contains(t, []string{"lang", "charset", "name", "content", "rel", "href", "class", "style", "role", "aria-label", "tabindex", "viewBox", "d"}, a, "%q", h)
				}
			})
		}
	}
}

// The command writes the file, and refuses what does not go together.
func TestLabelsCommand(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "labels")
	printed(t, exitOK, append(slices.Clip(stool), "-format", "labels", "-paper", "letter", "-label", "2 5/8 in x 1 in", "-out", dir)...)
	assert.Equal(t, []string{labelsFile, "written.json"}, names(t, dir))
	for want, args := range map[string][]string{
		"-format labels makes files": {"-format", "labels"},
		"are for -format labels":     {"-columns", "3"},
		"holds 3":                    {"-format", "labels", "-out", dir, "-columns", "4"},
		"unit missing":               {"-format", "labels", "-out", dir, "-label", "64 x 34"},
	} {
		_, errs := printed(t, exitInput, args...)
		assert.Contains(t, errs, want)
	}
}
