package job

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// anatomies are one job for each kind of furniture: every edge of every panel is
// sewn or fastened.
func anatomies(t testing.TB) map[string]Spec {
	t.Helper()
	files, err := filepath.Glob("testdata/anatomy/*.json")
	require.NoError(t, err)
	require.Len(t, files, 12)
	out := map[string]Spec{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		s, err := ReadSpec(strings.NewReader(string(text)))
		require.NoError(t, err, name)
		out[strings.TrimSuffix(filepath.Base(name), ".json")] = s
	}
	return out
}

// workOf works out the cover of the only piece of a job.
func workOf(t *testing.T, s Spec) allowance.CoverWork {
	t.Helper()
	c, f := goodsOf(s)
	require.Empty(t, f)
	covers, f := coversOf(s, c)
	require.Empty(t, f)
	work, err := covers[0].cover.Work(c.sewn())
	require.NoError(t, err)
	return work
}

// How many relations each anatomy has: seams, edges fastened, trims, and
// edges that meet unsewn.
func TestRelationsOfAnatomies(t *testing.T) {
	t.Parallel()
	want := map[string][4]int{
		"barrel-chair":    {6, 12, 0, 0},
		"bolster":         {3, 0, 0, 0},
		"boxed-cushion":   {6, 0, 0, 0},
		"bucket-seat":     {8, 8, 0, 0},
		"channel-booth":   {5, 26, 0, 1},
		"drop-in-seat":    {0, 5, 0, 0},
		"knife-edge":      {4, 0, 0, 0},
		"marine-cushions": {6, 0, 0, 0},
		"ottoman":         {5, 3, 0, 0},
		"slip-cover":      {12, 6, 0, 0},
		"sofa":            {3, 28, 0, 6},
		"wing-chair":      {3, 29, 2, 7},
	}
	for name, s := range anatomies(t) {
		p := s.Pieces[0]
		held := 0
		for _, f := range p.Fastenings {
			held += len(f.Fasten)
		}
		assert.Equal(t, want[name], [4]int{len(p.Seams), held, len(p.Trims), len(p.Meets)}, name)
	}
}

// Every edge of every piece is sewn or fastened once.
func TestEveryEdgeOfAnAnatomyCounts(t *testing.T) {
	t.Parallel()
	for name, s := range anatomies(t) {
		work := workOf(t, s)
		var edges, used []string
		for _, p := range work.Pieces {
			for e := range p.Panel.Edges {
				edges = append(edges, p.Name+"."+e)
			}
		}
		for _, seam := range work.Seams {
			used = append(used, slices.Concat(seam.Sides...)...)
		}
		for _, f := range work.Fastenings {
			used = append(used, f.Side...)
		}
		used = slices.DeleteFunc(used, func(e string) bool { return strings.Contains(e, ".line ") })
		slices.Sort(edges)
		slices.Sort(used)
		assert.Equal(t, edges, used, name)
	}
}

// Without any one of its seams and fastenings the job is faulty, without a trim no
// longer the same.
func TestEveryRelationOfAnAnatomyCounts(t *testing.T) {
	t.Parallel()
	for name, s := range anatomies(t) {
		everyRelationCounts(t, name, s)
	}
}

// everyRelationCounts takes each relation of the only piece of a job away: without
// a seam or fastening the job is then faulty, else what is cut, sewn or fitted is no
// longer the same.
func everyRelationCounts(t *testing.T, name string, s Spec) {
	t.Helper()
	before, err := prepare(context.Background(), s)
	require.NoError(t, err, name)
	p := s.Pieces[0]
	less := func(what string, held bool, change func(*Furniture)) {
		q := p
		change(&q)
		alt := s
		alt.Pieces = []Furniture{q}
		after, err := prepare(context.Background(), alt)
		if err == nil && held && q.related() {
			t.Errorf("%s: no fault without %s", name, what)
		}
		if err == nil {
			assert.NotEqual(t, workOut(t, before), workOut(t, after), "%s: %s", name, what)
		}
	}
	for i := range p.Seams {
		less(p.Seams[i].Sew.String(), true, func(q *Furniture) { q.Seams = slices.Delete(slices.Clone(q.Seams), i, i+1) })
	}
	for i, f := range p.Fastenings {
		for k := range f.Fasten {
			less(f.Fasten[k].String(), true, func(q *Furniture) {
				q.Fastenings = slices.Clone(q.Fastenings)
				q.Fastenings[i].Fasten = slices.Delete(slices.Clone(f.Fasten), k, k+1)
			})
		}
	}
	for i := range p.Trims {
		less(p.Trims[i].Name, false, func(q *Furniture) { q.Trims = slices.Delete(slices.Clone(q.Trims), i, i+1) })
	}
}

// workOut writes what is cut, sewn and fitted, without the relations themselves.
func workOut(t *testing.T, d draft) string {
	t.Helper()
	var out []string
	for _, a := range d.cut.assembly {
		text, err := json.Marshal(a.Work)
		require.NoError(t, err)
		out = append(out, string(text))
	}
	return strings.Join(out, "\n")
}

// A seam or fastening that is missing is a fault at its edge.
func TestMissingRelation(t *testing.T) {
	t.Parallel()
	s := anatomies(t)["wing-chair"]
	s.Pieces[0].Seams = s.Pieces[0].Seams[1:] // deck and front border
	_, err := prepare(context.Background(), s)
	var found Faults
	require.ErrorAs(t, err, &found)
	var places []string
	for _, f := range found {
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		places = append(places, string(in.Field))
	}
	assert.Equal(t, []string{"pieces[0].panels[0].by_edge.front", "pieces[0].panels[1].top"}, places)
}

// What holds an edge of a half outline holds its mirror image too, unless that has
// a relation of its own.
func TestFasteningOfBothHalves(t *testing.T) {
	t.Parallel()
	const text = `{"schema": "coverwright/job/1", "name": "a back", "currency": "USD",
		"goods": [{"id": "a", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "a",
			"outline": {"half": {"from": "0 in, 0 in", "edges": [
				{"name": "bottom", "pieces": [{"to": "10 in, 0 in"}]}, {"name": "side", "pieces": [{"to": "9 in, 20 in"}]}, {"name": "top", "pieces": [{"to": "0 in, 22 in"}]}]}}}],
			"fastenings": [{"fasten": ["back.bottom", "back.side", "back.top"], "finish": "pulled over"}%s]}],
		"quote": {"labour_rate": "60.00 USD/h"}}`
	for more, want := range map[string][]string{
		"": {"back.bottom", "back.side", "back.side mirrored", "back.top", "back.top mirrored"},
		`, {"fasten": ["back.side mirrored"], "finish": "toothed strip"}`: {"back.bottom", "back.side", "back.top", "back.top mirrored", "back.side mirrored"},
	} {
		s, err := ReadSpec(strings.NewReader(strings.Replace(text, "%s", more, 1)))
		require.NoError(t, err)
		var held []string
		for _, f := range workOf(t, s).Fastenings {
			held = append(held, f.Side...)
		}
		assert.Equal(t, want, held)
	}
}

// Each of two chairs gets both hands of a pair.
func TestPairsOfTwoChairs(t *testing.T) {
	t.Parallel()
	s := anatomies(t)["wing-chair"]
	s.Pieces[0].Count = 2
	o, err := Build(context.Background(), s, quick)
	require.NoError(t, err)
	for _, c := range o.Cuts {
		if c.Part == "inside arm" {
			assert.Equal(t, 4, c.Count)
			assert.True(t, c.Pair)
		}
	}
	plan := o.Purchases[0].Plan
	hands := map[bool]int{}
	for _, p := range plan.Places {
		if plan.Job.Pieces[p.Piece].Name == "wing chair: inside arm" {
			hands[p.Mirrored]++
		}
	}
	assert.Equal(t, map[bool]int{false: 2, true: 2}, hands)
}

// Both hands of a pair stand in one line of the cut list, mirrored, with as many
// notches each.
func TestHandsStandTogether(t *testing.T) {
	t.Parallel()
	for name, s := range anatomies(t) {
		d, err := prepare(context.Background(), s)
		require.NoError(t, err)
		for _, p := range d.cut.pieces {
			if p.Assembly == 0 || name == "slip-cover" && strings.HasPrefix(p.Part, "side ") {
				continue // only one side of the slip cover has the zip
			}
			of := d.cut.assembly[0].Work.Pieces[p.Pieces[0]].Of
			for _, panel := range s.Pieces[0].Panels {
				if panel.Name == of {
					assert.Equal(t, panel.Pair, p.Pair, "%s: %s", name, p.Part)
				}
			}
		}
	}
}
