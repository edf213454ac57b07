package job

import (
	"encoding/json"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// byHand are the job files of furniture worked out by hand, which are rows of the
// check table.
func byHand(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../internal/dev/reference/evaluate/findings/" + name + ".json")
	require.NoError(t, err)
	return string(text)
}

func findingOf(o WorkOrder, id string) (build.Line, bool) {
	i := slices.IndexFunc(o.Findings, func(l build.Line) bool { return l.ID == id })
	if i < 0 {
		return build.Line{}, false
	}
	return o.Findings[i], true
}

// TestPriceTakenAway holds that a finding without a price changes its own line and
// the count of those unpriced, and nothing else.
func TestPriceTakenAway(t *testing.T) {
	t.Parallel()
	full, err := read(t, byHand(t, "both"))
	require.NoError(t, err)
	spec, err := ReadSpec(strings.NewReader(byHand(t, "both")))
	require.NoError(t, err)
	for _, e := range spec.Prices.Entries() {
		less := spec
		less.Prices, err = spec.Prices.Without(e.Code)
		require.NoError(t, err)
		o, err := Build(t.Context(), less, quick)
		require.NoError(t, err, e.Code)
		require.Len(t, o.Findings, len(full.Findings))
		left := full.Quote.Lines
		gone := 0
		for i, l := range o.Findings {
			if reflect.DeepEqual(l, full.Findings[i]) {
				continue
			}
			gone++
			assert.Equal(t, build.Unpriced, l.Paid, l.ID)
			assert.Equal(t, e.Code, full.Findings[i].Entry, l.ID)
			assert.Equal(t, []any{full.Findings[i].Net, full.Findings[i].Gross, full.Findings[i].Pieces, full.Findings[i].How}, []any{l.Net, l.Gross, l.Pieces, l.How})
			left = slices.DeleteFunc(slices.Clone(left), func(q cost.QuoteLine) bool { return q.ID == l.ID })
		}
		assert.Equal(t, full.Unpriced+gone, o.Unpriced, e.Code)
		var had, has []string
		for _, q := range left {
			had = append(had, q.ID+" "+q.Amount.String())
		}
		for _, q := range o.Quote.Lines {
			has = append(has, q.ID+" "+q.Amount.String())
		}
		assert.Equal(t, had, has, e.Code)
	}
}

// TestQuoteIsTheSumOfItsFindings holds that the quote is the sum of its lines and of
// its pieces of furniture, and that each finding is a line with its charge.
func TestQuoteIsTheSumOfItsFindings(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"chair", "club", "sofa", "boat", "both"} {
		o, err := read(t, byHand(t, name))
		require.NoError(t, err)
		var lines, groups []cost.Money
		for _, l := range o.Quote.Lines {
			lines = append(lines, l.Amount)
		}
		sum, err := cost.Sum(lines...)
		require.NoError(t, err)
		assert.True(t, sum.Equal(o.Quote.Total), name)
		for _, g := range o.Quote.Groups {
			groups = append(groups, g.Net)
		}
		sum, err = cost.Sum(groups...)
		require.NoError(t, err)
		assert.True(t, sum.Equal(o.Quote.Net), "%s: %v and %v", name, sum, o.Quote.Net)
		for _, l := range o.Findings {
			i := slices.IndexFunc(o.Quote.Lines, func(q cost.QuoteLine) bool { return q.ID == l.ID })
			assert.Equal(t, l.Paid == build.Priced, i >= 0, l.ID)
			if i >= 0 {
				assert.True(t, l.Charge.Equal(o.Quote.Lines[i].Cost), l.ID)
			}
		}
	}
}

// TestFindingsOfPiecesAddUp holds that what pieces of furniture take apart is net what
// they take as one job, and rounded no more often.
func TestFindingsOfPiecesAddUp(t *testing.T) {
	t.Parallel()
	one, err := read(t, byHand(t, "both"))
	require.NoError(t, err)
	parts := map[string]int64{}
	use := map[string]int64{}
	for _, name := range []string{"club", "sofa"} {
		o, err := read(t, byHand(t, name))
		require.NoError(t, err)
		for _, l := range o.Findings {
			parts[l.ID] += raw(l.Net)
			use[l.ID] += raw(l.Use)
		}
	}
	for _, l := range one.Findings {
		assert.InDelta(t, parts[l.ID], raw(l.Net), 1, l.ID)
		assert.LessOrEqual(t, raw(l.Use), use[l.ID], l.ID)
		var shares int64
		for _, p := range l.Pieces {
			shares += raw(p.Net)
		}
		assert.Equal(t, raw(l.Net), shares, l.ID)
	}
	assert.Len(t, one.Findings, len(parts))
}

// Counts of furniture take so much more, net.
func TestFindingsOfSeveral(t *testing.T) {
	t.Parallel()
	spec, err := ReadSpec(strings.NewReader(byHand(t, "chair")))
	require.NoError(t, err)
	one, err := Build(t.Context(), spec, quick)
	require.NoError(t, err)
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(rt, "chairs")
		more := spec
		more.Pieces = slices.Clone(spec.Pieces)
		more.Pieces[0].Count = n
		d, err := prepare(t.Context(), more)
		if err != nil {
			rt.Fatal(err)
		}
		for i, l := range d.found.findings {
			least := int64(n) * raw(one.Findings[i].Net)
			if l.ID == "burlap" || l.ID == "wrap" { // two lie abreast on the roll
				least /= 2
			}
			if l.ID != one.Findings[i].ID || raw(l.Net) < least || raw(l.Net) > int64(n)*raw(one.Findings[i].Net) {
				rt.Fatalf("%s: %v of %d, %v of one", l.ID, l.Net, n, one.Findings[i].Net)
			}
		}
	})
}

// framed is a job of one piece whose panels are fastened, with what is given of its
// build, quote and prices.
func framed(fastenings, rest, more string) string {
	return `{"schema": "coverwright/job/1", "name": "bench", "currency": "USD",
	"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"},
		{"id": "hide", "kind": "hide", "name": "leather", "material": "leather", "price": "9.00 USD/sq ft", "hide_area": "50 sq ft", "buy_by": "rule of thumb"}],
	"pieces": [{"name": "chair", "panels": [
		{"name": "back", "goods": "cloth", "width": "24 in", "length": "20 in"},
		{"name": "crown", "goods": "cloth", "outline": {"crowned": {"width": "24 in", "height": "20 in", "rise": "3 in"}, "names": ["bottom", "right", "top", "left"]}},
		{"name": "seat", "goods": "hide", "width": "24 in", "length": "20 in"}], "fastenings": [` + fastenings + `]` + rest + `}],
	"quote": {"labour_rate": "60.00 USD/h"}` + more + `}`
}

const heldAllRound = `{"fasten": ["back.top", "back.right", "back.bottom", "back.left", "crown.right", "crown.left", "crown.bottom", "seat.top", "seat.right", "seat.bottom", "seat.left"]},
	{"fasten": ["crown.top"]}`

// Strips and staples follow from how edges are fastened, and whether they are straight.
func TestFindingsOfFastenings(t *testing.T) {
	t.Parallel()
	o, err := read(t, framed(heldAllRound, `, "build": {"feet": 4}`, ""))
	require.NoError(t, err)
	cloth, ok := findingOf(o, "staple, 5/16 in")
	require.True(t, ok, "one layer of 1 mm and 1/4 in: 7.35 mm, so 5/16 in")
	// Back 24, 20, 24, 20; crown 24, two sides of 17 and its top; seat of leather at 3/4 in.
	assert.Contains(t, cloth.How, "8 edges at 1 in")
	assert.Contains(t, cloth.How, "4 edges at 3/4 in")

	for kind, want := range map[string][]string{
		"blind-tacked":  {"card strip", "curve strip"},
		"toothed strip": {"tack strip", "curve strip"},
		"hook and loop": {"hook and loop"},
		"hem":           nil,
	} {
		held := strings.NewReplacer(`"back.top", `, ``, `{"fasten": ["crown.top"]}`, `{"fasten": ["back.top"], "finish": "`+kind+`"}, {"fasten": ["crown.top"], "finish": "`+kind+`"}`).Replace(heldAllRound)
		o, err := read(t, framed(held, `, "build": {"feet": 4}`, ""))
		require.NoError(t, err, kind)
		var got []string
		for _, l := range o.Findings {
			if strings.Contains(l.ID, "strip") || l.ID == "hook and loop" {
				got = append(got, l.ID)
			}
		}
		assert.ElementsMatch(t, want, got, kind)
		if card, ok := findingOf(o, "card strip"); ok {
			assert.Equal(t, cost.AnyOf(24*unit.Inch), card.Net)
		}
		asked := slices.ContainsFunc(o.Questions, func(q build.Question) bool { return strings.Contains(q.Text, "tack strip") })
		assert.Equal(t, kind == "toothed strip", asked)
	}
	held := strings.NewReplacer(`"back.top", `, ``, `{"fasten": ["crown.top"]}`, `{"fasten": ["back.top"], "finish": "toothed strip"}, {"fasten": ["crown.top"]}`).Replace(heldAllRound)
	o, err = read(t, framed(held, `, "build": {"feet": 4}`, `, "findings": {"tack strip": {"sizes": ["20 in"]}}`))
	require.NoError(t, err)
	stick, _ := findingOf(o, "tack strip")
	assert.Equal(t, cost.AnyOf(40*unit.Inch), stick.Net, "whole sticks on a run")
}

// Edges with a finish of their own are stapled whether other edges of the panel are sewn
// or not: of two panels of 10 in joined at one edge six are left, 11 staples each at 1 in.
// Channels and a tufted face that are joined are held all round too, the face along the
// frame, shorter than its cloth: one of 20 by 16 in takes 21, 21, 17 and 17.
func TestOwnEdgesOfJoinedPanelsAreStapled(t *testing.T) {
	t.Parallel()
	staples := func(parts string) build.Line {
		o, err := read(t, timedJob(`{"name": "seat", `+parts+`}`, ""))
		require.NoError(t, err)
		l, ok := findingOf(o, "staple, 5/16 in")
		require.True(t, ok, parts)
		return l
	}
	const edges = `"top": "pull-over 2 in", "bottom": "pull-over 2 in", `
	panels := staples(`"panels": [
		{"name": "a", "goods": "cloth", "width": "10 in", "length": "10 in", ` + edges + `"left": "pull-over 2 in"},
		{"name": "b", "goods": "cloth", "width": "10 in", "length": "10 in", ` + edges + `"right": "pull-over 2 in"}],
		"seams": [{"sew": "a.right", "to": "b.left"}]`)
	assert.Equal(t, cost.AnyOf(cost.Pieces(66)), panels.Net)
	assert.Contains(t, staples(`"channels": [{"name": "back", "goods": "cloth", "width": "30 in", "length": "20 in", "number": 3, "rise": "1 in"}]`).How, "3 edges at 1 in")
	assert.Contains(t, staples(`"tufted": [{"name": "face", "goods": "cloth", "width": "60 in", "length": "26 in", "across": 9, "down": 4, "depth": "1 1/4 in", "rule": "half again"}]`).How, "2 edges at 1 in")
	face := staples(`"tufted": [{"name": "face", "goods": "cloth", "width": "20 in", "length": "16 in", "across": 4, "down": 3, "depth": "1 1/4 in", "rule": "half again"}]`)
	assert.Equal(t, cost.AnyOf(cost.Pieces(76)), face.Net)
}

// What nobody said is a question whose field is one of the job file; it is on no line.
func TestQuestions(t *testing.T) {
	t.Parallel()
	for rest, want := range map[string][]unit.Path{
		``:                                       {"pieces[0].build"},
		`, "build": {"seat": {"on": "webbing"}}`: {"pieces[0].build.seat.width", "pieces[0].build.seat.depth", "pieces[0].build.feet", "pieces[0].build.underside"},
		`, "build": {"seat": {"on": "coil springs", "width": "24 in", "depth": "22 in"}, "underside": {"width": "26 in", "depth": "24 in"}, "feet": 0}`: {"pieces[0].build.seat.rise"},
		`, "build": {"seat": {"on": "board"}, "feet": 4}`:                                                                            nil,
		`, "build": {"seat": {"on": "board"}, "buttons": {"line": 36}}`:                                                              {"pieces[0].build.buttons.count"},
		`, "build": {"seat": {"on": "board"}, "nails": {"head": "1/2 in"}}`:                                                          {"pieces[0].trims"},
		`, "build": {"seat": {"on": "board"}, "buttons": {"count": 4}}`:                                                              {"pieces[0].build.buttons.line", "pieces[0].build.buttons.through"},
		`, "build": {"seat": {"on": "board"}, "buttons": {"count": 4, "line": 36, "through": "4 in"}}`:                               nil,
		`, "trims": [{"name": "front", "kind": "nails", "length": "24 in", "covers": ["seat"]}], "build": {"seat": {"on": "board"}}`: {"pieces[0].build.nails.head"},
	} {
		o, err := read(t, framed(heldAllRound, rest, ""))
		require.NoError(t, err, rest)
		var got []unit.Path
		for _, q := range o.Questions {
			assert.True(t, resolves(reflect.TypeFor[Spec](), q.Field), q.Field)
			assert.Equal(t, "chair", q.Piece)
			got = append(got, q.Field)
		}
		assert.ElementsMatch(t, want, got, rest)
		for _, l := range o.Findings {
			assert.Positive(t, raw(l.Net), l.ID)
		}
	}
}

// A drop-in seat on a board needs nothing but its staples; a webbed one a line.
func TestFindingsOfDropInSeats(t *testing.T) {
	t.Parallel()
	seat := func(build string) WorkOrder {
		o, err := read(t, `{"schema": "coverwright/job/1", "name": "seats", "currency": "USD",
			"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
			"pieces": [{"name": "seat", "count": 6, "from": "drop-in seat", "goods": "cloth", "goods_for": {"dust cover": "cloth"}, "width": "19 in", "depth": "17 in"`+build+`}],
			"quote": {"labour_rate": "60.00 USD/h"}}`)
		require.NoError(t, err)
		return o
	}
	board := seat("")
	assert.Empty(t, board.Questions)
	for _, l := range board.Findings {
		assert.True(t, strings.HasPrefix(l.ID, "staple") || strings.HasPrefix(l.ID, "thread"), l.ID)
	}
	unsaid := seat(`, "build": "webbed"`)
	assert.Len(t, unsaid.Questions, 2, "width and depth of the opening")
	webbed := seat(`, "build": {"way": "webbed", "seat": {"width": "16 in", "depth": "14 in"}}`)
	assert.Empty(t, webbed.Questions)
	w, ok := findingOf(webbed, "webbing")
	require.True(t, ok)
	assert.Positive(t, raw(w.Net))
}

// A finding is founded as well as what is founded least of it: feet are counted as they
// are given, springs go by custom, staples by how thick the goods are said to be.
func TestFindingsAreFoundedAsTheirNeeds(t *testing.T) {
	o, err := read(t, byHand(t, "club"))
	require.NoError(t, err)
	got := map[string]cite.Status{}
	for _, l := range o.Findings {
		got[l.ID] = l.Basis.Status
	}
	for id, want := range map[string]cite.Status{"foot": cite.Derived, "coil spring": cite.CommonPractice, "tack": cite.CommonPractice, "staple, 3/8 in": cite.FromMemory} {
		assert.Equal(t, want, got[id], id)
	}
}

// Sundries cover findings: neither unpriced nor charged again.
func TestSundries(t *testing.T) {
	t.Parallel()
	const prices = `"prices": [{"code": "staple", "kind": "thread and sundries", "description": "staples", "price": "1.80 USD/1000 pieces"}]`
	none, err := read(t, framed(heldAllRound, `, "build": {"feet": 4}`, ", "+prices))
	require.NoError(t, err)
	assert.Equal(t, 1, none.Unpriced, "feet")
	for sum, want := range map[string]string{`"amount": "12.00 USD"`: "12.00 USD", `"share": "2 %"`: ""} {
		text := strings.Replace(framed(heldAllRound, `, "build": {"feet": 4}`, ", "+prices), `"labour_rate"`, `"markup": "50 %", "sundries": {`+sum+`, "covers": ["staple", "foot"]}, "labour_rate"`, 1)
		o, err := read(t, text)
		require.NoError(t, err)
		assert.Zero(t, o.Unpriced)
		i := slices.IndexFunc(o.Quote.Lines, func(q cost.QuoteLine) bool { return q.ID == "sundries" })
		require.GreaterOrEqual(t, i, 0)
		if want == "" {
			goods, err := cost.Sum(o.Purchases[0].Cost, o.Purchases[1].Cost)
			require.NoError(t, err)
			share, err := goods.Scale(0.02, cost.HalfUp)
			require.NoError(t, err)
			want = share.String()
		}
		assert.Equal(t, want, o.Quote.Lines[i].Cost.String())
		for _, l := range o.Findings {
			assert.Equal(t, build.InSundries, l.Paid, l.ID)
			assert.False(t, slices.ContainsFunc(o.Quote.Lines, func(q cost.QuoteLine) bool { return q.ID == l.ID }))
		}
	}
}

// A price in another kind of unit is used where that is exact, else a fault says which
// unit it takes.
func TestPricesInOtherUnits(t *testing.T) {
	t.Parallel()
	priced := func(text, code, price string) (WorkOrder, error) {
		var s Spec
		require.NoError(t, json.Unmarshal([]byte(text), &s))
		var p cost.AnyPrice
		require.NoError(t, p.UnmarshalText([]byte(price)))
		var err error
		s.Prices, err = s.Prices.With(cost.Entry{Code: code, Kind: cost.Sundries, What: code, Price: p})
		require.NoError(t, err)
		s.Quote.Sundries = nil
		s.Sewing.Cone = 8 * 28 * unit.Gram
		return Build(t.Context(), s, quick)
	}
	club := byHand(t, "club")
	o, err := priced(club, "burlap", "2.40 USD/sq yd")
	require.NoError(t, err)
	l, _ := findingOf(o, "burlap")
	assert.Equal(t, "6.00 USD", l.Charge.String(), "78 x 40 = 2.407 sq yd, 2.5 to the quarter")
	o, err = priced(club, "thread", "6.00 USD/piece")
	require.NoError(t, err)
	l, _ = findingOf(o, "thread, nylon 69")
	assert.Equal(t, "6.00 USD", l.Charge.String(), "one cone")
	o, err = priced(club, "thread, nylon 69", "0.01 USD/m")
	require.NoError(t, err)
	l, _ = findingOf(o, "thread, nylon 69")
	assert.Equal(t, "thread, nylon 69", l.Entry)
	o, err = priced(club, "staple, 3/8 in", "3.00 USD/1000 pieces")
	require.NoError(t, err)
	l, _ = findingOf(o, "staple, 3/8 in")
	assert.Equal(t, "3.48 USD", l.Charge.String(), "the exact code wins")
	for code, price := range map[string]string{"felt": "1.00 USD/sq ft", "staple": "2.00 USD/lb", "cord": "2.00 USD/piece", "glue": "9.00 USD/piece"} {
		name := "club"
		if code == "glue" {
			name = "sofa"
		}
		_, err := priced(byHand(t, name), code, price)
		var in *unit.InputError
		require.ErrorAs(t, err, &in, code)
		require.ErrorIs(t, err, unit.ErrUnknownUnit)
		assert.True(t, in.Field.Under("prices"), in.Field)
		assert.True(t, strings.HasSuffix(string(in.Field), ".price"), in.Field)
	}
}

// A step, a pack and a least amount are those of the price list; else the shop's.
func TestHowFindingsAreSold(t *testing.T) {
	t.Parallel()
	sold := func(step, more string) build.Line {
		text := strings.ReplaceAll(byHand(t, "club"), `"price": "0.12 USD/yd"
  }`, `"price": "0.12 USD/yd"`+step+`}`)
		text = strings.Replace(text, `"findings": {`, `"findings": {`+more, 1)
		o, err := read(t, text)
		require.NoError(t, err)
		l, ok := findingOf(o, "cord, 5/32 in")
		require.True(t, ok)
		return l
	}
	l := sold("", `"cord": {"waste": "10 %", "step": "1 yd", "pack": "100 yd"},`)
	assert.Equal(t, []any{unit.Ratio(0.10), cost.AnyOf(11 * unit.Yard), cost.AnyOf(100 * unit.Yard), 1}, []any{l.Waste, l.Use, l.Pack, l.Packs}, "344 x 1.1 = 10.51 yd")
}

// An extra that names what is itemised is asked about.
func TestChargedTwice(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]bool{"zip and cord": true, "Tacks, twine": true, "staples": true, "delivery and set": false, "legs stripped": false, "accordion repair": false} {
		text := strings.Replace(byHand(t, "club"), `"quote": {`, `"quote": {"extras": [{"kind": "thread and sundries", "name": "`+name+`", "amount": "20.00 USD"}],`, 1)
		o, err := read(t, text)
		require.NoError(t, err)
		got := false
		for _, c := range o.Cautions {
			got = got || c.ID == "J8" && strings.Contains(c.Text, name)
		}
		assert.Equal(t, want, got, name)
	}
}

// Batting with a price is foam on the quote; without one it is a finding, and asked
// for where its roll is not known.
func TestBattingIsListedOnce(t *testing.T) {
	t.Parallel()
	wrap := func(text string) (WorkOrder, bool) {
		o, err := read(t, `{"schema": "coverwright/job/1", "name": "cushion", "currency": "USD",
			"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"}],
			"pieces": [{"name": "cushion", "cushions": [{"name": "seat", "width": "24 in", "depth": "22 in", "thickness": "5 in", "top": "cloth",
				"foam": {"use": "seat", "duty": "normal", "base": "springs", "price": "3.00 USD/bd ft", "wrap": {"loft": "1 in"`+text+`}}}]}],
			"quote": {"labour_rate": "60.00 USD/h"}}`)
		require.NoError(t, err)
		_, ok := findingOf(o, "wrap")
		return o, ok
	}
	o, listed := wrap(`, "width": "48 in", "price": "4.50 USD/yd"`)
	assert.False(t, listed)
	assert.Empty(t, o.Questions)
	_, listed = wrap(`, "width": "48 in"`)
	assert.True(t, listed)
	o, listed = wrap("")
	assert.False(t, listed)
	require.Len(t, o.Questions, 1)
	assert.Equal(t, unit.Path("pieces[0].cushions[0].foam.wrap.width"), o.Questions[0].Field)
	assert.True(t, resolves(reflect.TypeFor[Spec](), o.Questions[0].Field))
}

func TestFindingsRefused(t *testing.T) {
	t.Parallel()
	for more, want := range map[string]unit.Path{
		`"findings": {"ribbon": {}}`:                 "findings.ribbon",
		`"findings": {"cord, 5/32 in": {}}`:          "findings.cord, 5/32 in",
		`"findings": {"cord": {"waste": "200 %"}}`:   "findings.cord.waste",
		`"findings": {"cord": {"width": "3 in"}}`:    "findings.cord.width",
		`"findings": {"cord": {"sizes": ["3 in"]}}`:  "findings.cord.sizes",
		`"findings": {"cord": {"step": "3 pieces"}}`: "findings.cord.step",
		`"findings": {"burlap": {"width": "1 in"}}`:  "pieces[0].build.seat",
	} {
		_, err := read(t, framed(heldAllRound, `, "build": {"seat": {"on": "webbing", "width": "20 in", "depth": "20 in"}, "feet": 4}`, ", "+more))
		var in *unit.InputError
		require.ErrorAs(t, err, &in, more)
		if want == "pieces[0].build.seat" {
			want = "pieces[0]"
		}
		assert.Equal(t, want, in.Field, more)
	}
	for sundries, want := range map[string]unit.Path{
		`{"covers": []}`:         "quote.sundries.covers",
		`{"covers": ["ribbon"]}`: "quote.sundries.covers[0]",
		`{"covers": ["staple"], "share": "2 %", "amount": "3.00 USD"}`: "quote.sundries.amount",
		`{"covers": ["staple"], "share": "200 %"}`:                     "quote.sundries.share",
		`{"covers": ["staple"], "amount": "3.00 EUR"}`:                 "quote.sundries.amount",
	} {
		_, err := read(t, strings.Replace(framed(heldAllRound, "", ""), `"labour_rate"`, `"sundries": `+sundries+`, "labour_rate"`, 1))
		var in *unit.InputError
		require.ErrorAs(t, err, &in, sundries)
		assert.Equal(t, want, in.Field, sundries)
	}
}

// The underside is closed once: by a panel of the cover or by a dust cover of the build.
func TestUndersideIsClosedOnce(t *testing.T) {
	t.Parallel()
	closed := framed(heldAllRound, `, "build": {"seat": {"on": "board"}, "underside": {"width": "20 in", "depth": "20 in"}, "feet": 4}`, "")
	o, err := read(t, closed)
	require.NoError(t, err)
	_, listed := findingOf(o, "dust cover")
	assert.True(t, listed)
	_, err = read(t, strings.NewReplacer(`"panels": [`, `"panels": [{"name": "dust cover", "goods": "cloth", "width": "20 in", "length": "20 in"}, `,
		`"fastenings": [`, `"fastenings": [{"fasten": ["dust cover.top", "dust cover.right", "dust cover.bottom", "dust cover.left"]}, `).Replace(closed))
	var in *unit.InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, unit.Path("pieces[0].build.underside"), in.Field)
}

// What fills channels is asked for where no block of foam is said but that of the seat,
// and a filling that no block of the kind takes is refused. A booth wider than its goods
// is whole where they may be railroaded, and so is the lining, which nobody sees; of
// velvet it has one join.
func TestChannelsAreFilled(t *testing.T) {
	t.Parallel()
	wide, nap := "40 in", "false"
	booth := func(more string) (WorkOrder, error) {
		return read(t, `{"schema": "coverwright/job/1", "name": "booths", "currency": "USD",
			"goods": [{"id": "vinyl", "kind": "roll", "name": "vinyl", "material": "vinyl", "price": "30.00 USD/yd", "width": "54 in", "nap": `+nap+`},
				{"id": "calico", "kind": "roll", "name": "calico", "material": "light woven", "price": "3.00 USD/yd", "width": "54 in"}],
			"pieces": [{"name": "booth", "from": "channel-back booth", "goods": "vinyl", "goods_for": {"lining": "calico"}, "measures": {"inside width": "`+wide+`",
				"back height": "24 in", "channel width": "8 in", "channel rise": "1 in", "seat depth": "20 in", "seat border height": "6 in", "end panel width": "22 in", "end panel height": "30 in"}`+more+`}],
			"quote": {"labour_rate": "60.00 USD/h"}}`)
	}
	o, err := booth("")
	require.NoError(t, err)
	require.Len(t, o.Questions, 1)
	assert.Equal(t, unit.Path("pieces[0].foam"), o.Questions[0].Field)
	assert.Contains(t, o.Questions[0].Text, "what fills the channels of back")
	const filling = `{"use": "booth", "duty": "severe", "base": "board", "price": "3.40 USD/bd ft"}`
	o, err = booth(`, "foam": [{"name": "back", "width": "40 in", "depth": "24 in", "thickness": "1 in", "filling": ` + filling + `}]`)
	require.NoError(t, err)
	assert.Empty(t, o.Questions)
	const seat = `, "foam": [{"name": "seat", "width": "40 in", "depth": "20 in", "thickness": "4 in", "filling": ` + filling + `}]`
	o, err = booth(seat)
	require.NoError(t, err)
	require.Len(t, o.Questions, 1)
	assert.Contains(t, o.Questions[0].Text, "what fills the channels of back")
	_, err = booth(`, "filling": ` + filling)
	var in *unit.InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, unit.Path("pieces[0].filling"), in.Field)

	wide = "72 in"
	o, err = booth(seat)
	require.NoError(t, err)
	assert.Empty(t, o.Purchases[0].Plan.Joins)
	assert.Empty(t, o.Purchases[1].Plan.Joins)
	nap = "true"
	o, err = booth(seat)
	require.NoError(t, err)
	assert.Len(t, o.Purchases[0].Plan.Joins, 2, "one of the seat, one of its border")
	assert.Empty(t, o.Purchases[1].Plan.Joins)
}

// Every kind of furniture says how it is built as far as that is a choice, or is loose.
func TestKindsSayHowTheyAreBuilt(t *testing.T) {
	t.Parallel()
	for name, s := range anatomies(t) {
		d, err := prepare(t.Context(), s)
		require.NoError(t, err, name)
		for _, q := range d.found.questions {
			assert.True(t, resolves(reflect.TypeFor[Spec](), q.Field), "%s: %s", name, q.Field)
		}
		ids := map[string]bool{}
		for _, l := range d.found.findings {
			assert.False(t, ids[l.ID], "%s: %s twice", name, l.ID)
			ids[l.ID] = true
		}
		assert.NotEmpty(t, slices.Collect(maps.Keys(ids)), name)
	}
}

// A price list with nothing in it leaves the prices of the shop as they are.
func TestNoPricesOverTheShops(t *testing.T) {
	t.Parallel()
	shop, err := ReadShop(strings.NewReader(`{"schema": "coverwright/shop/1", "currency": "USD", "prices": [{"code": "cord", "kind": "thread and sundries", "description": "cord", "price": "0.12 USD/yd"}]}`))
	require.NoError(t, err)
	with, err := shop.WithPrices(cost.PriceList{})
	require.NoError(t, err)
	assert.Equal(t, shop.Prices, with.Prices)
}

// Buttons follow from tufting, gimp and nails from trims, interliner where it is asked
// for; what rots is named out of doors.
func TestFindingsOfTrimsAndTufting(t *testing.T) {
	t.Parallel()
	const rest = `, "lives": "outdoors", "tufted": [{"name": "tufted back", "goods": "cloth", "width": "24 in", "length": "20 in", "across": 4, "down": 2, "depth": "1 1/2 in", "rule": "twice the depth"}],
		"trims": [{"name": "front", "kind": "gimp", "length": "24 in", "covers": ["back"]}, {"name": "arms", "kind": "nails", "length": "20 in", "covers": ["seat"]},
			{"name": "rail", "kind": "welt", "length": "30 in", "cord": "5/32 in", "welt": "cloth", "covers": ["back"]}],
		"build": {"seat": {"on": "board"}, "buttons": {"line": 36, "through": "4 in"}, "nails": {"head": "7/16 in"}, "interliner": true, "felt": [{"width": "20 in", "depth": "20 in"}]}`
	o, err := read(t, framed(heldAllRound, rest, ""))
	require.NoError(t, err)
	var tufts int
	for _, c := range o.Cuts {
		if c.Tufting != nil {
			tufts += c.Tufting.Buttons
		}
	}
	require.Positive(t, tufts)
	for id, want := range map[string]cost.AnyQuantity{
		"button, 36 line": cost.AnyOf(cost.Pieces(tufts)), "button twine": cost.AnyOf(unit.Length(tufts) * 20 * unit.Inch), "gimp": cost.AnyOf(24 * unit.Inch),
		"decorative nail, 7/16 in": cost.AnyOf(cost.Pieces(45)), "cord, 5/32 in": cost.AnyOf(30 * unit.Inch),
	} {
		l, ok := findingOf(o, id)
		require.True(t, ok, id)
		assert.Equal(t, want, l.Net, id)
	}
	b, _ := findingOf(o, "button, 36 line")
	assert.Equal(t, cost.AnyOf(cost.Pieces((tufts+19)/20)), b.Ends, "a spare for twenty")
	lining, ok := findingOf(o, "interliner")
	require.True(t, ok)
	assert.Positive(t, raw(lining.Net))
	assert.True(t, slices.ContainsFunc(o.Cautions, func(c caution.Caution) bool { return strings.Contains(c.Text, "felt holds water") }))
}

// A leg goes through its layers and 1/4 in into the rail, of a welt 3/16 in; a card under a blind edge is 1/16 in. With goods of
// 1/16 in that is 5/16 in for one layer, 3/8 in for two or over a card, and 5/16 in for a welt of two: legs less by a hair are too
// short, and longer ones are not taken.
func TestLegsThroughLayers(t *testing.T) {
	t.Parallel()
	legs := []string{"7.9374 mm", "5/16 in", "7.9376 mm", "9.5249 mm", "3/8 in", "9.5251 mm"}
	sizes, err := json.Marshal(legs)
	require.NoError(t, err)
	for finish, want := range map[string]string{"pulled over": "5/16 in", "turned below": "3/8 in", "blind-tacked": "3/8 in"} {
		held := `{"fasten": ["back.top", "back.right", "back.bottom", "back.left"], "finish": "` + finish + `", "rail": "1 in"},
			{"fasten": ["crown.right", "crown.left", "crown.bottom", "crown.top", "seat.top", "seat.right", "seat.bottom", "seat.left"], "finish": "hem"}`
		text := strings.NewReplacer(`"material": "woven"`, `"material": "woven", "thickness": "1/16 in"`).Replace(
			framed(held, `, "build": {"feet": 4}, "trims": [{"name": "rail", "kind": "welt", "length": "30 in", "cord": "5/32 in", "welt": "cloth", "covers": ["crown"]}]`,
				`, "findings": {"staple": {"sizes": `+string(sizes)+`}}`))
		o, err := read(t, text)
		require.NoError(t, err, finish)
		edges := 0
		for _, l := range o.Findings {
			if strings.HasPrefix(l.ID, "staple, ") && strings.Contains(l.How, "cover: ") {
				edges++
				assert.Equal(t, "staple, "+want, l.ID, finish)
			}
			if strings.HasPrefix(l.ID, "staple, ") && strings.Contains(l.How, "welt on the frame: ") {
				edges++
				assert.Equal(t, "staple, 5/16 in", l.ID, finish)
			}
		}
		assert.Positive(t, edges)
	}
}

// A yard of cloth 54 in wide is 18 sq ft of leather.
func TestLeatherForAYard(t *testing.T) {
	var r RoughPiece
	r.Count = 1
	require.NoError(t, r.leather(36*unit.Inch, GoodsSpec{}))
	assert.Equal(t, 18*unit.SquareFoot, r.Area)
}

// A piece with nothing sewn or fastened, but nails round a panel, has its nails: to put
// on after the panel, and to buy. At 1/2 in from head to head 48 in take 96, and 10 % more.
func TestNailsAlone(t *testing.T) {
	t.Parallel()
	o, err := read(t, `{"schema": "coverwright/job/1", "name": "a chair", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "cloth", "material": "woven", "price": "30.00 USD/yd", "width": "54 in"}],
		"pieces": [{"name": "chair", "panels": [{"name": "back", "goods": "cloth", "width": "14 in", "length": "10 in", "edges": "turned under and stapled"}],
			"trims": [{"name": "round the back", "kind": "nails", "length": "48 in", "covers": ["back"]}], "build": {"nails": {"head": "1/2 in"}}}],
		"quote": {"labour_rate": "60.00 USD/h"}}`)
	require.NoError(t, err)
	nails, listed := findingOf(o, "decorative nail, 1/2 in")
	require.True(t, listed)
	assert.Equal(t, cost.AnyOf(cost.Pieces(96)), nails.Net)
	require.Len(t, o.Assembly, 1)
	steps := o.Assembly[0].Work.Fitting
	require.NotEmpty(t, steps)
	assert.Equal(t, []string{"round the back"}, steps[len(steps)-1].What)
}
