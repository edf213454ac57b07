package main

import (
	"context"
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
)

// twentyBooths is a big job: booths of five sizes, and the same with each of the twenty
// as a piece of furniture of its own.
var twentyBooths = sync.OnceValues(func() (map[string]job.WorkOrder, error) {
	text, err := os.ReadFile("testdata/booths.json")
	if err != nil {
		return nil, err
	}
	var spec map[string]any
	if err := json.Unmarshal(text, &spec); err != nil {
		return nil, err
	}
	var each []any
	for _, p := range spec["pieces"].([]any) {
		piece := p.(map[string]any)
		for range int(piece["count"].(float64)) {
			one := map[string]any{}
			for k, v := range piece {
				one[k] = v
			}
			delete(one, "count")
			one["name"] = "booth " + strconv.Itoa(len(each)+1)
			each = append(each, one)
		}
	}
	spec["pieces"] = each
	single, err := json.Marshal(spec)
	if err != nil {
		return nil, err
	}
	out := map[string]job.WorkOrder{}
	for name, of := range map[string][]byte{"by size": text, "one by one": single} {
		o, err := job.Read(context.Background(), strings.NewReader(string(of)), job.Options{Effort: 0.1})
		if err != nil {
			return nil, err
		}
		out[name] = o
	}
	return out, nil
})

// benchOrders are the orders whose bench copies are looked at.
func benchOrders(t testing.TB) map[string]job.WorkOrder {
	t.Helper()
	out, err := twentyBooths()
	require.NoError(t, err)
	for name, o := range orders(t) {
		out[name] = o
	}
	return out
}

var benchViews = map[string]benchCopy{}

// benchOf gives the view of one of them, worked out once.
func benchOf(t testing.TB, name string) benchCopy {
	t.Helper()
	if _, known := benchViews[name]; !known {
		v, err := viewBench(&sheet{}, copyHead{}, benchOrders(t)[name])
		require.NoError(t, err)
		benchViews[name] = v.(benchCopy)
	}
	return benchViews[name]
}

// numbersIn reads the numbers of a list such as "1 to 4, 9".
func numbersIn(t testing.TB, text string) []int {
	t.Helper()
	var out []int
	for _, part := range strings.Split(text, ", ") {
		first, last, run := strings.Cut(part, " to ")
		a, err := strconv.Atoi(first)
		require.NoError(t, err, text)
		b := a
		if run {
			b, err = strconv.Atoi(last)
			require.NoError(t, err, text)
		}
		for k := a; k <= b; k++ {
			out = append(out, k)
		}
	}
	return out
}

// rowNumbers gives the numbers of a row, which stand below its name when there are many.
func rowNumbers(t testing.TB, r cutRow) []int {
	t.Helper()
	for _, d := range r.Details {
		if strings.HasSuffix(r.Number, " …") && strings.HasPrefix(d, "no. ") && !strings.Contains(d, ":") {
			return numbersIn(t, strings.TrimPrefix(d, "no. "))
		}
	}
	return numbersIn(t, r.Number)
}

// Every cut stands on one line of its goods, alike ones of all furniture together, in
// the order in which the layout cuts them; what most lines share is said once.
func TestCutListByGoods(t *testing.T) {
	for name, o := range benchOrders(t) {
		v := benchOf(t, name)
		seen := map[int]bool{}
		lines := 0
		for _, g := range v.Groups {
			last := -1
			first := firstCut(o, o.Cuts[rowNumbers(t, g.Rows[0])[0]-1].Goods)
			for _, r := range g.Rows {
				lines++
				earliest := len(o.Cuts) * 1000
				for _, n := range rowNumbers(t, r) {
					assert.False(t, seen[n], "%s: no. %d", name, n)
					seen[n] = true
					c := o.Cuts[n-1]
					assert.Equal(t, g.Goods, goodsName(o.Purchases, c.Goods))
					if at, laid := first[n-1]; laid {
						earliest = min(earliest, at)
					}
				}
				assert.GreaterOrEqual(t, earliest, last, "%s, no. %s", name, r.Number)
				last = earliest
			}
			for _, note := range g.Notes {
				_, said, _ := strings.Cut(note, ": ")
				for _, r := range g.Rows {
					assert.NotContains(t, r.Details, said, "%s: once", name)
				}
			}
		}
		assert.Len(t, seen, len(o.Cuts), name)
		if name == "one by one" {
			assert.Len(t, o.Cuts, 380)
			assert.Less(t, lines, 60, "those of twenty booths together")
		}
	}
}

// A pair has so many of each hand, and what is merged says for which furniture it is.
func TestMergedLinesSayForWhom(t *testing.T) {
	v := benchOf(t, "by size")
	fors := map[string]string{}
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			fors[r.Number+" "+r.Count] = r.For
		}
	}
	assert.Equal(t, "window booth 6, end booth 2", fors["1, 77 8"])
	assert.Equal(t, "aisle booth", fors["39 4"])
	assert.Equal(t, "booth 1 to 6, 19, 20", forOf(t, "one by one", "booth 1 to 6, 19"))
}

func forOf(t testing.TB, order, with string) string {
	t.Helper()
	for _, g := range benchOf(t, order).Groups {
		for _, r := range g.Rows {
			if strings.HasPrefix(r.For, with) {
				return r.For
			}
		}
	}
	return ""
}

// The first page has each piece of furniture with its stages, all goods to be here, and
// room to sign; no copy for the bench tells money or the words for it.
func TestFirstPage(t *testing.T) {
	for name, o := range benchOrders(t) {
		v := benchOf(t, name)
		items := 0
		for _, f := range v.First.Furniture {
			n := 1
			if f.Count != "" {
				var err error
				n, err = strconv.Atoi(strings.TrimSuffix(f.Count, " times"))
				require.NoError(t, err)
			}
			items += n
			once := slices.Compact(slices.Sorted(slices.Values(f.Stages)))
			assert.Len(t, once, len(f.Stages), "%s: each stage once", name)
			assert.True(t, strings.HasPrefix(f.Stages[0], "cut") || slices.ContainsFunc(f.Stages, func(s string) bool { return strings.Contains(s, "cut") }), name)
			assert.Equal(t, "checked", f.Stages[len(f.Stages)-1], name)
			for _, b := range o.Labour {
				if b.Piece == f.Name {
					assert.Contains(t, f.Stages, b.Task)
				}
			}
		}
		if strings.Contains(name, " ") { // the booths
			assert.Equal(t, 20, items, name)
		}
		for _, p := range o.Purchases {
			assert.True(t, slices.ContainsFunc(v.First.Here, func(h hereView) bool { return h.What == p.Name }), p.Name)
		}
		page, err := copyHTML(o, settings{}, "bench")
		require.NoError(t, err)
		text := parse(t, page).all("main", "")[0].words()
		assert.NotRegexp(t, `\b(price|quote|`+string(o.Quote.Currency)+`)\b`, text, name)
		assert.GreaterOrEqual(t, len(parse(t, page).all("span", "tick")), len(v.First.Here)+len(o.CutLinesOf(o.Cuts[0].Goods)), name)
	}
}

// Sizes on a layout are those of the cut list: width by length as cut, however the
// piece lies.
func TestPlacesHaveSizesOfTheCutList(t *testing.T) {
	s := &sheet{}
	for name, o := range benchOrders(t) {
		turned := 0
		for _, l := range benchOf(t, name).Layouts {
			for _, r := range l.Rows {
				n, err := strconv.Atoi(r.Number)
				require.NoError(t, err)
				if strings.Contains(r.Part, ", part ") {
					continue
				}
				assert.Equal(t, s.nbSize(s.cutSize(o.Cuts[n-1].Cut)), r.Size, "%s, no. %s", name, r.Number)
				if strings.Contains(r.Turned, "90°") {
					turned++
				}
			}
		}
		if name == "by size" {
			assert.Positive(t, turned)
		}
	}
}

// A panel that is no plain rectangle is drawn, once for all that are alike; a plain one
// is not.
func TestPanelsAreDrawnOnce(t *testing.T) {
	for name, o := range benchOrders(t) {
		v := benchOf(t, name)
		drawn := map[int]int{}
		for _, p := range v.Panels {
			numbers, _, _ := strings.Cut(p.Name, " ")
			if m := regexp.MustCompile(`^\d+(?:(?: to |, )\d+)*`).FindString(p.Name); m != "" {
				numbers = m
			}
			for _, n := range numbersIn(t, numbers) {
				drawn[n]++
			}
		}
		for _, p := range cutsOf(t, o) {
			want := 0
			if p.cut.Panel != nil && !p.cut.Rectangular() || p.cut.Tufting != nil && len(p.Marks) > 0 {
				want = 1
			}
			assert.Equal(t, want, drawn[p.number], "%s, no. %d", name, p.number)
		}
		if strings.Contains(name, " ") {
			assert.Empty(t, v.Panels, "plates and strips")
		}
	}
}

// Every notch of a seam stands on the copy with its letter for each piece that has it,
// and where it lies.
func TestNotchesAreToldByPiece(t *testing.T) {
	s := &sheet{}
	for name, o := range benchOrders(t) {
		var lines []string
		for _, c := range benchOf(t, name).Covers {
			lines = append(lines, c.Notches...)
		}
		for i, c := range o.Cuts {
			if len(c.Letters) == 0 {
				continue
			}
			at := slices.IndexFunc(lines, func(l string) bool {
				numbers := regexp.MustCompile(`^\d+(?:(?: to |, )\d+)*`).FindString(l)
				return slices.Contains(numbersIn(t, numbers), i+1)
			})
			require.GreaterOrEqual(t, at, 0, "%s, no. %d", name, i+1)
			for k, m := range c.Letters {
				_, from := wholeEdge(c, c.Panel.Notches[k].Edge)
				place := strings.TrimSuffix(s.len(from+c.Panel.Notches[k].At), " in")
				assert.Regexp(t, regexp.QuoteMeta(m.Label)+`(`+noBreak+`\(double\))?`+noBreak+regexp.QuoteMeta(strings.ReplaceAll(place, " ", noBreak))+`(`+noBreak+`in)?(,|;|$)`, lines[at], "%s, no. %d", name, i+1)
			}
		}
	}
}

// Covers that go together alike are told once, each cover of the order with the numbers
// of its pieces.
func TestCoversSewnAlikeAreToldOnce(t *testing.T) {
	for name, o := range benchOrders(t) {
		v := benchOf(t, name)
		told, sewn := 0, map[string]bool{}
		for _, c := range v.Covers {
			told += max(1, len(c.Of))
			key := strings.Join(c.Sewing, "\n")
			if strings.Contains(name, " ") {
				assert.False(t, sewn[key], "%s: %s", name, c.Title)
			}
			sewn[key] = true
			for _, r := range c.Seams {
				assert.Regexp(t, `^\d`, r.Edges, "by numbers: %s", r.Letter)
			}
		}
		assert.Equal(t, len(o.Assembly), told, name)
		if strings.Contains(name, " ") {
			assert.LessOrEqual(t, len(v.Covers), 3, name)
		}
	}
}

// Blocks of foam that are alike are one line, and none is lost.
func TestAlikeFoamIsOneLine(t *testing.T) {
	for name, o := range benchOrders(t) {
		want, got, lines := 0, 0, 0
		for _, f := range o.Foam {
			want += f.Count
		}
		for _, g := range benchOf(t, name).Foam {
			sum := 0
			for _, b := range g.Blocks {
				lines++
				n, err := strconv.Atoi(strings.Fields(b.Cut)[0])
				require.NoError(t, err)
				sum += n
			}
			assert.LessOrEqual(t, g.Blocked, sum)
			got += sum
		}
		assert.Equal(t, want, got, name)
		if name == "one by one" {
			assert.Len(t, o.Foam, 60)
			assert.Less(t, lines, 15)
		}
	}
}

// What must be here is what the work takes, whoever has it, and foam as it is bought.
func TestHereBeforeItBegins(t *testing.T) {
	o, err := job.Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
		"goods": [{"id": "own", "kind": "roll", "name": "grey tweed", "material": "woven", "price": "0 USD/yd", "width": "54 in", "whose": "customer", "at_hand": [{"name": "bolt", "length": "5 yd"}]},
			{"id": "linen", "kind": "roll", "name": "linen", "material": "woven", "price": "30 USD/yd", "width": "54 in", "at_hand": [{"name": "end", "length": "3 yd"}]}],
		"pieces": [{"name": "seat", "count": 2, "panels": [{"name": "top", "goods": "own", "width": "20 in", "length": "20 in"}, {"name": "under", "goods": "linen", "width": "20 in", "length": "20 in"}]}],
		"quote": {"labour_rate": "50 USD/h"}}`), job.Options{})
	require.NoError(t, err)
	view, err := viewBench(&sheet{}, copyHead{}, o)
	require.NoError(t, err)
	assert.Equal(t, []hereView{{"grey tweed", "3/4 yd, the customer's own"}, {"linen", "3/4 yd, from stock"}}, view.(benchCopy).First.Here[:2])
}

func TestRuns(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "1 to 4, 7, 8, 10", runs([]int{10, 1, 2, 3, 4, 7, 8, 8}))
	assert.Empty(t, runs(nil))
	assert.Equal(t, "booth 1 to 3, bench, stool 02", together([]string{"booth 3", "booth 1", "bench", "booth 2", "stool 02"}))
	assert.Equal(t, "7", together([]string{"7"}))
}
