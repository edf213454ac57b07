package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/dev/few"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

var pages = map[string][]byte{}

// copyHTML makes one copy of an order.
func copyHTML(o job.WorkOrder, set settings, name string) ([]byte, error) {
	c, err := copyNamed(name)
	if err != nil {
		return nil, err
	}
	return c[0].html(o, set)
}

// everyCopy makes every copy of an order, and the index.
func everyCopy(t require.TestingT, o job.WorkOrder, set settings) map[string][]byte {
	set.copies = copies()
	files, err := copyFiles(o, set)
	require.NoError(t, err)
	out := map[string][]byte{}
	for _, f := range files {
		out[f.Name] = f.Data
	}
	return out
}

// pageOf gives a copy of one of the orders, worked out once.
func pageOf(t *testing.T, name, copied string, metric bool) []byte {
	t.Helper()
	key := fmt.Sprint(name, copied, metric)
	if pages[key] == nil {
		page, err := copyHTML(orders(t)[name], settings{metric: metric, explain: true}, copied)
		require.NoError(t, err)
		pages[key] = page
	}
	return pages[key]
}

// Every copy is well formed, in order and needs nothing else.
func TestCopies(t *testing.T) {
	for _, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			set := settings{metric: metric, explain: true}
			made, again := everyCopy(t, o, set), everyCopy(t, o, set)
			assert.Len(t, made, len(copies())+1)
			for name, page := range made {
				require.True(t, bytes.Equal(page, again[name]), "the same bytes every time")
				wellFormed(t, name, parse(t, page), made)
			}
		}
	}
}

// wellFormed checks a page; its links may lead to the other files.
func wellFormed(t *testing.T, name string, root *element, files map[string][]byte) {
	t.Helper()
	for _, once := range []string{"main", "header", "footer", "h1"} {
		assert.Len(t, root.all(once, ""), 1, "%s: %s", name, once)
	}
	last := 0
	ids := map[string]bool{}
	root.each(func(e *element) {
		if id := e.attrs["id"]; id != "" {
			assert.False(t, ids[id], "%s: id %s twice", name, id)
			ids[id] = true
		}
		if len(e.name) == 2 && e.name[0] == 'h' && e.name[1] >= '1' && e.name[1] <= '6' {
			level := int(e.name[1] - '0')
			assert.LessOrEqual(t, level, last+1, "%s: no level of heading is left out before %q", name, e.words())
			last = level
		}
	})
	root.each(func(e *element) {
		switch ref := e.attrs["href"]; {
		case strings.HasPrefix(ref, "#"):
			assert.True(t, ids[ref[1:]], "%s leads somewhere", ref)
		case ref != "" && files[ref] == nil:
			assert.Equal(t, "data:,", ref, "nothing is fetched")
		}
		if by := e.attrs["aria-labelledby"]; by != "" {
			assert.True(t, ids[by], by)
		}
		switch e.name {
		case "table":
			assert.Len(t, e.all("caption", ""), 1)
			assert.NotEmpty(t, e.all("th", ""))
		case "svg":
			if e.attrs["aria-hidden"] == "" {
				assert.Equal(t, "img", e.attrs["role"])
				assert.NotEmpty(t, e.all("title", "")[0].text)
			}
		case "script", "iframe", "object", "img", "style":
			assert.Equal(t, "style", e.name)
		}
		for a, v := range e.attrs {
			assert.False(t, strings.HasPrefix(a, "on"), a)
			assert.NotEqual(t, "src", a)
			assert.NotContains(t, v, "NaN")
		}
	})
}

// headings gives those of a page, in order.
func headings(root *element) []string {
	var out []string
	root.each(func(e *element) {
		if len(e.name) == 2 && e.name[0] == 'h' && e.name[1] >= '1' && e.name[1] <= '6' {
			out = append(out, strings.TrimSpace(e.text))
		}
	})
	return out
}

// What matters first comes first, and nothing of the order is left out.
func TestBenchCopy(t *testing.T) {
	for name, o := range orders(t) {
		for _, metric := range []bool{false, true} {
			root := parse(t, pageOf(t, name, "bench", metric))
			heads, at := headings(root), -1
			for _, h := range []string{"Cut list", "Cutting layouts", "Panels"} {
				i := slices.Index(heads, h)
				assert.Greater(t, i, at, "%s in %v", h, heads)
				at = i
			}
			text := root.words()
			for _, c := range o.CutLines() {
				assert.Contains(t, text, c.Part)
			}
			for _, c := range o.Cuts {
				for _, note := range c.TapeNotes((&sheet{metric: metric}).units()) {
					assert.Contains(t, text, note)
				}
			}
			for _, c := range o.Cautions {
				assert.Equal(t, c.For(caution.Bench), strings.Contains(text, c.Text), c.ID)
			}
			if metric {
				cuts := root.all("table", "cards cuts")[0].words()
				assert.NotRegexp(t, `[0-9][ \x{a0}]in\b`, cuts, "%s: no inches left over", name)
				assert.Regexp(t, `[0-9]\x{a0}mm`, cuts)
			}
			// The bench has no use for money.
			assert.NotContains(t, text, string(o.Quote.Currency))
		}
	}
}

// The office has the price first, and every caution.
func TestOfficeCopy(t *testing.T) {
	for name, o := range orders(t) {
		root := parse(t, pageOf(t, name, "office", false))
		first := root.all("section", "")[0].words()
		assert.Contains(t, first, o.Quote.Total.Grouped(), "the price comes first")
		between, err := mayComeTo(o)
		require.NoError(t, err)
		assert.Contains(t, first, between, "beside it what it may come out at")
		assert.Equal(t, o.Quote.Class != 0, between != "")
		for _, c := range o.Cautions {
			assert.Contains(t, root.words(), c.Text)
		}
	}
}

// hostile names try to leave their place.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</title></style></svg><iframe src="//example.test">`, `'; } body { background: url(//example.test) } /*`,
	`{{.Name}}`, "javascript:alert(1)", "a\x00b\x1f\ufffe\xff", "\u202eevil\u2066", `<!-- `, `]]>`, `&lt;b&gt;`, "\U0001F6CB",
}

// rename puts a text into every name that a job file may hold.
func rename(v reflect.Value, text string) {
	switch v.Kind() {
	case reflect.String:
		if v.CanSet() && v.Type() == reflect.TypeFor[string]() {
			v.SetString(text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				rename(v.Field(i), text)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			rename(v.Index(i), text)
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			rename(v.Elem(), text)
		}
	}
}

// fresh is a copy of a small order, so that its names can be changed.
func fresh(t testing.TB) job.WorkOrder {
	t.Helper()
	text, err := json.Marshal(orders(t)["shapes"])
	require.NoError(t, err)
	var o job.WorkOrder
	require.NoError(t, json.Unmarshal(text, &o))
	return o
}

// aFew is a copy of an order that has a few of everything and no layouts.
func aFew(t testing.TB) job.WorkOrder {
	t.Helper()
	o := fresh(t)
	o.Purchases, o.Options, o.Cuts, o.Foam = nil, nil, o.Cuts[:3], o.Foam[:1]
	return o
}

// Each of the hostile names in a few of everything, and all of them as one name
// in the whole.
func TestPageEscapes(t *testing.T) {
	elements := func(page []byte) map[string]int {
		out := map[string]int{}
		parse(t, page).each(func(e *element) {
			switch e.name {
			case "text", "g", "li", "table", "caption", "thead", "tbody", "tr", "td", "th", "span", "b", "circle", "p", "section":
				return // depend on how long and how different names are
			}
			out[e.name]++
			for a := range e.attrs {
				out["@"+a]++
			}
		})
		return out
	}
	escaped := func(page []byte, want map[string]int, h string) {
		got := elements(page)
		for _, name := range []string{"script", "img", "iframe", "style", "link", "meta", "@src", "@onerror", "@href", "main", "h1", "h2", "a"} {
			assert.Equal(t, want[name], got[name], "%s of %q", name, h)
		}
		assert.NotContains(t, string(page), "<script")
		assert.NotContains(t, string(page), "<iframe")
		assert.NotContains(t, string(page), "<img")
	}
	escapes := func(o job.WorkOrder, names ...string) {
		plain := everyCopy(t, o, settings{explain: true})
		for _, h := range names {
			rename(reflect.ValueOf(&o).Elem(), h)
			for copied, page := range everyCopy(t, o, settings{explain: true}) {
				escaped(page, elements(plain[copied]), h)
			}
		}
	}
	escapes(fresh(t), strings.Join(hostile, ""))
	escapes(aFew(t), hostile...)
}

func TestPageOfAnyName(t *testing.T) { few.Check(t, 10, pageOfAnyName(t)) }

func pageOfAnyName(t *testing.T) func(*rapid.T) {
	o := aFew(t)
	return func(t *rapid.T) {
		rename(reflect.ValueOf(&o).Elem(), rapid.String().Draw(t, "name"))
		for _, page := range everyCopy(t, o, settings{explain: true}) {
			parse(t, page)
		}
	}
}

// The drawings of panels are to scale: area and width agree with what was
// worked out.
func TestPanelDrawings(t *testing.T) {
	for _, o := range orders(t) {
		for _, p := range cutsOf(t, o) {
			if p.cut.Panel == nil {
				continue
			}
			s := &sheet{}
			picture, err := s.panelDrawing(p)
			require.NoError(t, err)
			root := parse(t, []byte(picture))
			scale := scaleOf(t, root.all("path", "cut")[0].polygons(t)[0], p.cut.Cut)
			for class, area := range map[string]unit.Area{"cut": p.cut.Panel.Area, "seam": p.cut.Panel.SeamArea, "trim": p.cut.Panel.TrimArea, "finished": p.cut.Panel.FinishedArea} {
				for _, e := range root.all("path", class) {
					assert.InEpsilon(t, squareMM(area), shoelace(e.polygons(t))*scale*scale, 0.005, "%s %s", p.name(), class)
				}
			}
			words := strings.ReplaceAll(root.words(), noBreak, " ")
			assert.Contains(t, words, s.units().Length(p.cut.Cut.Width, unit.Up))
			assert.Contains(t, words, s.units().Length(p.cut.Cut.Length, unit.Up))
			small, err := p.thumb(0)
			require.NoError(t, err)
			thumbnail := parse(t, []byte(small))
			outline := thumbnail.all("path", "")[0].polygons(t)
			scale = scaleOf(t, outline[0], p.cut.Cut)
			assert.InEpsilon(t, squareMM(p.cut.Panel.Area), shoelace(outline)*scale*scale, 0.02, p.name())
		}
	}
}

// scaleOf gives the millimetres for each user unit.
func scaleOf(t testing.TB, outline []spot, size job.Size) float64 {
	t.Helper()
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range outline {
		low, high = min(low, q.x), max(high, q.x)
	}
	require.Greater(t, high, low)
	return size.Width.Millimetres() / (high - low)
}

// The drawings of a roll, put together, hold every piece: the area of what is
// drawn is that of the pieces, and of the goods.
func TestRollDrawings(t *testing.T) {
	rolls := 0
	for _, o := range orders(t) {
		for _, p := range o.Purchases {
			if p.Plan == nil || p.Plan.Job.Roll == nil {
				continue
			}
			plan, roll := *p.Plan, *p.Plan.Job.Roll
			placed, err := plan.Net()
			require.NoError(t, err)
			offcuts, err := plan.RollOffcuts(8*unit.Inch, 8*unit.Inch)
			require.NoError(t, err)
			drawn, err := plan.Draw(layout.Picture{Title: p.Name})
			require.NoError(t, err)
			rolls++
			var pieces, goods float64
			count := map[string]int{}
			for _, d := range drawn {
				root := parse(t, []byte(d.SVG))
				ground := root.all("rect", "goods")[0].polygons(t)
				goods += shoelace(ground)
				for _, e := range root.all("polygon", "piece") {
					q := e.polygons(t)
					pieces += shoelace(q)
					for _, at := range q[0] {
						assert.True(t, at.x >= ground[0][0].x-0.02 && at.x <= ground[0][2].x+0.02 && at.y >= ground[0][0].y-0.02 && at.y <= ground[0][2].y+0.02, "on the goods")
					}
				}
				count["offcut"] += len(root.all("rect", "offcut"))
				count["flaw"] += len(root.all("rect", "flaw"))
				count["repeat"] += len(root.all("line", "repeat"))
			}
			area, err := roll.Usable().By(plan.Order)
			require.NoError(t, err)
			assert.InEpsilon(t, squareMM(placed)/squareMM(area), pieces/goods, 0.01, p.Name)
			assert.GreaterOrEqual(t, count["offcut"], len(offcuts))
			assert.GreaterOrEqual(t, count["flaw"], len(roll.Flaws))
			if roll.Repeat > 0 {
				assert.GreaterOrEqual(t, count["repeat"], int(plan.Order/roll.Repeat)-1)
			}
		}
	}
	assert.GreaterOrEqual(t, rolls, 4)
}

// A hide is drawn with its border, marks, zones, holes and pieces to scale.
func TestSkinDrawings(t *testing.T) {
	skins := 0
	for name, o := range orders(t) {
		for _, p := range o.Purchases {
			if p.Plan == nil || p.Plan.Job.Hides == nil {
				continue
			}
			plan := *p.Plan
			drawn, err := plan.Draw(layout.Picture{Title: p.Name, Labels: labelsOf(p.Layouts()[0], slices.DeleteFunc(cutsOf(t, o), func(c drawnCut) bool { return c.cut.Goods != p.Goods }))})
			require.NoError(t, err)
			require.Len(t, drawn, len(plan.Used))
			for i, k := range plan.Used {
				skins++
				assert.Equal(t, k, drawn[i].Hide)
				root := parse(t, []byte(drawn[i].SVG))
				shape, err := plan.Hides[k].Shape()
				require.NoError(t, err)
				var pieces, placed float64
				for _, e := range root.all("polygon", "piece") {
					pieces += shoelace(e.polygons(t))
				}
				for _, q := range plan.On(k) {
					placed += squareMM(plan.Job.Pieces[q.Piece].Outline.Area())
				}
				hide := shoelace(root.all("polygon", "hide")[0].polygons(t))
				assert.InEpsilon(t, placed/squareMM(shape.Area()), pieces/hide, 0.02)
				assert.Len(t, root.all("polygon", "defect"), len(plan.Hides[k].Defects))
				assert.GreaterOrEqual(t, len(root.all("polyline", "zone")), len(plan.Hides[k].Zones), "broken where texts stand")
				assert.Len(t, root.all("polygon", "hole"), len(plan.Hides[k].Holes))
				if name == "shapes" {
					assert.Len(t, plan.Hides[k].Defects, 2)
					assert.Contains(t, root.words(), "brand")
				}
			}
		}
	}
	assert.GreaterOrEqual(t, skins, 1)
}

// The quote on the page adds up, and every figure of it is that of the order.
func TestPageQuote(t *testing.T) {
	o := orders(t)["demo"]
	view, err := viewOffice(&sheet{}, copyHead{}, o)
	require.NoError(t, err)
	v := view.(officeCopy)
	var cents int64
	for _, l := range v.Quote.Lines {
		x, err := strconv.ParseFloat(strings.ReplaceAll(l.Amount, ",", ""), 64)
		require.NoError(t, err)
		cents += int64(math.Round(100 * x))
	}
	assert.Equal(t, o.Quote.Subtotal.Amount(), fmt.Sprintf("%.2f", float64(cents)/100))
	assert.Equal(t, "5,632.02", v.Quote.Sums[len(v.Quote.Sums)-1].Amount)
	require.NotEmpty(t, v.Options)
	assert.NotEmpty(t, v.Options[0].Difference)
	assert.Len(t, v.Options[0].Words, len(o.Options[0].Goods))
}

// The work order as JSON comes back the same.
func TestOrderJSON(t *testing.T) {
	for _, o := range orders(t) {
		a, err := json.Marshal(o)
		require.NoError(t, err)
		assert.True(t, json.Valid(a))
		var back any
		require.NoError(t, json.Unmarshal(a, &back))
	}
}

// A notice of the print: the style sheet holds no colour but greys.
func TestPageIsGrey(t *testing.T) {
	page := pageOf(t, "shapes", "bench", false)
	for _, c := range regexp.MustCompile(`#[0-9a-fA-F]{3,6}\b`).FindAllString(string(page), -1) {
		if n := len(c) - 1; n == 3 || n == 6 {
			k := n / 3
			assert.Equal(t, strings.Repeat(c[1:1+k], 3), c[1:], "a grey")
		}
	}
}

// jobOf makes a job of n panels, no two alike, on three goods.
func jobOf(n int) []byte {
	var b strings.Builder
	b.WriteString(`{"schema": "coverwright/job/1", "name": "many panels", "currency": "USD", "goods": [
		{"id": "a", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in"},
		{"id": "b", "kind": "roll", "name": "patterned", "material": "woven", "price": "60.00 USD/yd", "width": "54 in", "repeat": "13 in", "nap": true},
		{"id": "c", "kind": "hide", "name": "leather", "material": "leather", "price": "9.00 USD/sq ft", "hide_area": "50 sq ft"}],
		"pieces": [`)
	for i := range n {
		if i%10 == 0 {
			if i > 0 {
				b.WriteString("]},")
			}
			fmt.Fprintf(&b, `{"name": "chair %d", "panels": [`, i/10+1)
		} else {
			b.WriteString(",")
		}
		shape := fmt.Sprintf(`"width": "%d in", "length": "%d in"`, 8+i%17, 9+i%13)
		if i%5 == 0 {
			shape = fmt.Sprintf(`"outline": {"crowned": {"width": "%d in", "height": "%d in", "rise": "2 in"}}`, 8+i%17, 9+i%13)
		}
		fmt.Fprintf(&b, `{"name": "panel %d", "goods": %q, %s}`, i, []string{"a", "a", "b", "c"}[i%4], shape)
	}
	b.WriteString(`]}], "quote": {"labour_rate": "60.00 USD/h"}}`)
	return []byte(b.String())
}

// A job of 200 panels, from the file to the copies.
func BenchmarkPage200(b *testing.B) {
	spec := jobOf(200)
	for b.Loop() {
		o, err := job.Read(context.Background(), bytes.NewReader(spec), job.Options{})
		require.NoError(b, err)
		require.Greater(b, len(everyCopy(b, o, settings{explain: true})["bench.html"]), 100_000)
	}
}

// The copies alone, without the layouts.
func BenchmarkPageOnly200(b *testing.B) {
	o, err := job.Read(context.Background(), bytes.NewReader(jobOf(200)), job.Options{Effort: 0.001})
	require.NoError(b, err)
	for b.Loop() {
		everyCopy(b, o, settings{explain: true})
	}
}

// A pair is never counted or drawn as if its hands were one: lists say how many of
// each, and a mirrored piece on a layout says so however small its label.
func TestHandsAreTold(t *testing.T) {
	o := orders(t)["shapes"]
	page := pageOf(t, "shapes", "bench", false)
	var text bytes.Buffer
	require.NoError(t, printText(&text, o, false, false))
	for _, c := range o.Cuts {
		if c.Pair {
			count := fmt.Sprintf("%d + %d mirrored", c.Count-c.Count/2, c.Count/2)
			assert.Contains(t, text.String(), count)
			assert.Contains(t, string(page), strings.ReplaceAll(count, "+", "&#43;"))
		}
	}
	assert.Regexp(t, `kidney pad( x \d+( \+ \d+)?)? mirrored`, text.String(), "on the hides")
	for _, p := range o.Purchases {
		if p.Plan == nil {
			continue
		}
		mirrored, told := 0, 0
		drawn, err := p.Plan.Draw(layout.Picture{Labels: labelsOf(p.Layouts()[0], slices.DeleteFunc(cutsOf(t, o), func(c drawnCut) bool { return c.cut.Goods != p.Goods }))})
		require.NoError(t, err)
		for _, d := range drawn {
			for _, w := range parse(t, []byte(d.SVG)).all("text", "") {
				if strings.Contains(w.words(), "mir") {
					told++
				}
			}
		}
		for _, q := range p.Plan.Places {
			if q.Mirrored {
				mirrored++
			}
		}
		assert.GreaterOrEqual(t, told, mirrored, p.Goods)
	}
}
