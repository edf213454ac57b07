package job

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/unit"
)

// threeGoods are covers that the kinds are tried in, with plain cloth for what
// lies below. They are wider than any panel.
var threeGoods = map[string]string{
	"patterned": `{"id": "cover", "kind": "roll", "name": "damask", "material": "woven", "price": "68.00 USD/yd", "width": "150 in", "repeat": "27 in", "repeat_across": "13 1/2 in", "nap": true}`,
	"vinyl":     `{"id": "cover", "kind": "roll", "name": "vinyl", "material": "vinyl", "price": "30.00 USD/yd", "width": "150 in"}`,
	"leather":   `{"id": "cover", "kind": "hide", "name": "hides", "material": "leather", "price": "9.50 USD/sq ft", "hide_area": "50 sq ft"}`,
}

// pieceOf is a job with one piece of a kind in the goods cover, and lining for all
// that must be named.
func pieceOf(t testing.TB, k kind.Kind, cover string, measures map[string]unit.Length) Spec {
	t.Helper()
	s, err := ReadSpec(strings.NewReader(`{"schema": "coverwright/job/1", "name": "a job", "currency": "USD", "goods": [` + cover +
		`, {"id": "lining", "kind": "roll", "name": "decking", "material": "light woven", "price": "11.50 USD/yd", "width": "150 in"}],
		"pieces": [{"name": "a piece"}], "quote": {"labour_rate": "60.00 USD/h"}}`))
	require.NoError(t, err)
	p := &s.Pieces[0]
	p.From, p.Goods, p.Measures, p.GoodsFor = k.Name, "cover", measures, map[string]string{}
	for _, r := range k.Goods {
		if r.As == "" {
			p.GoodsFor[r.Name] = "lining"
		}
	}
	return s
}

// sizesOf gives a kind's measures that must be given, at their usual sizes, and
// all that follow from no others at their least and most.
func sizesOf(k kind.Kind) map[string]map[string]unit.Length {
	out := map[string]map[string]unit.Length{"usual": k.Likely(), "least": {}, "most": {}}
	for _, m := range k.Measures {
		if _, err := unit.ParseLength(m.Usual); err == nil || m.Usual == "" {
			out["least"][m.Name], out["most"][m.Name] = m.Least, m.Most
		}
	}
	return out
}

// Every kind is a piece of furniture without a fault, small and large, in every
// sort of goods.
func TestEveryKind(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		for sort, goods := range threeGoods {
			for size, measures := range sizesOf(k) {
				_, err := prepare(context.Background(), pieceOf(t, k, goods, measures))
				if err != nil {
					t.Errorf("%s, %s, %s: %v", k.Name, sort, size, err)
				}
			}
		}
	}
}

// expanded gives a job with what its kinds bring written out.
func expanded(t testing.TB, s Spec) Spec {
	t.Helper()
	out, _, f := s.fromKinds()
	require.Empty(t, f)
	return out
}

// A kind says nothing that the job file does not know.
func TestKindsAreJobFiles(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		g := kind.Given{Cover: "cover", Goods: map[string]string{}, Measures: k.Likely()}
		for _, r := range k.Goods {
			g.Goods[r.Name] = "lining"
		}
		for _, without := range [][]string{nil, k.Groups} {
			g.Without = without
			text, err := k.Write(g)
			require.NoError(t, err, k.Name)
			d := json.NewDecoder(bytes.NewReader(text))
			d.DisallowUnknownFields()
			var p Furniture
			require.NoError(t, d.Decode(&p), k.Name)
			assert.NotEmpty(t, p.parts(), k.Name)
		}
	}
}

// Without any one of its seams or fastenings the cover of a kind is faulty; the long
// test has the kinds without their groups of panels, too.
func TestEveryRelationOfAKindCounts(t *testing.T) {
	t.Parallel()
	for _, k := range kind.All() {
		relationsOfAKindCount(t, k, nil)
	}
}

func relationsOfAKindCount(t *testing.T, k kind.Kind, without []string) {
	t.Helper()
	s := pieceOf(t, k, threeGoods["vinyl"], k.Likely())
	s.Pieces[0].Without = without
	everyRelationCounts(t, k.Name, expanded(t, s))
}

// A longer measure never makes a panel or the plate of a cushion smaller, but for
// those that only say where a panel is divided. Strips are joined as it fits.
func TestWiderMeasureNeverShrinksAPanel(outer *testing.T) {
	outer.Parallel()
	divides := []string{"face strip", "channel width"}
	all := kind.All()
	rapid.Check(outer, func(t *rapid.T) {
		k := rapid.SampledFrom(all).Draw(t, "kind")
		m := rapid.SampledFrom(k.Measures).Filter(func(m kind.Measure) bool { return !slices.Contains(divides, m.Name) }).Draw(t, "measure")
		length := func(from unit.Length, name string) unit.Length {
			return unit.Length(rapid.Int64Range(int64(from/(unit.Inch/16)), int64(m.Most/(unit.Inch/16))).Draw(t, name)) * unit.Inch / 16
		}
		narrow := length(m.Least, "narrow")
		wide := length(narrow, "wide")
		sizes := func(l unit.Length) map[string]Size {
			measures := k.Likely()
			measures[m.Name] = l
			out := map[string]Size{}
			s, _, f := pieceOf(outer, k, threeGoods["vinyl"], measures).fromKinds()
			if len(f) > 0 { // what follows from the measure is out of range
				return out
			}
			goods, f := goodsOf(s)
			require.Empty(t, f)
			covers, _ := coversOf(s, goods)
			for _, c := range covers {
				for _, p := range c.cover.Panels {
					w, h := p.Outline.Size()
					if slices.ContainsFunc(s.Pieces[0].Panels, func(q PanelSpec) bool { return q.Name == p.Name }) || strings.HasSuffix(p.Name, "plate") {
						out[p.Name] = Size{w, h}
					}
				}
			}
			return out
		}
		before, after := sizes(narrow), sizes(wide)
		for name, a := range before {
			b, ok := after[name]
			if ok && (b.Width < a.Width || b.Length < a.Length) {
				t.Fatalf("%s, %s from %v to %v: %s shrinks from %v to %v", k.Name, m.Name, narrow, wide, name, a, b)
			}
		}
	})
}

// Faults of the parts of a kind have their places, whatever they are of.
func TestFaultsOfAKindHaveAPlace(t *testing.T) {
	const wing = `{"name": "%s", "goods": "cloth", "pair": true, "width": "9 in", "length": "19 in"}`
	for name, piece := range map[string]string{
		"twice":    `"count": 2, "panels": [` + fmt.Sprintf(wing, "outside wing") + `,` + fmt.Sprintf(wing, "outside wing") + `]`,
		"too many": `"count": 1000000000`,
	} {
		_, err := Read(t.Context(), strings.NewReader(`{"schema": "coverwright/job/1", "name": "chairs", "currency": "USD",
			"goods": [{"id": "cloth", "kind": "roll", "name": "tweed", "material": "woven", "price": "42.00 USD/yd", "width": "54 in"}],
			"pieces": [{"name": "wing chair", "from": "wing chair", "goods": "cloth", "goods_for": {"lining": "cloth"}, "measures": {
				"seat width": "25 in", "seat depth": "23 in", "front border height": "8 in", "arm front width": "4 in", "arm front height": "9 in",
				"inside arm depth": "25 in", "wing depth at the arm": "8 in", "wing height": "19 in", "inside back width": "23 in",
				"inside back height": "27 in", "outside arm width": "24 in", "outside arm height": "13 in", "outside back width": "24 in",
				"outside back height": "27 in", "welt on wings and arms": "84 in", "welt round the back": "79 in"}, `+piece+`}],
			"quote": {"labour_rate": "60.00 USD/h"}}`), Options{Effort: 0.0001})
		var faults Faults
		require.ErrorAs(t, err, &faults, name)
	}
}

// The pad of a seat that is narrower at the back has its shape, and an ottoman has one.
func TestPadsOfKinds(t *testing.T) {
	t.Parallel()
	for piece, want := range map[string]unit.Area{
		`"from": "drop-in seat", "width": "20 in", "depth": "16 in", "back_width": "16 in", "build": "board"`:           288 * unit.SquareInch,
		`"from": "ottoman", "width": "24 in", "depth": "18 in", "height": "12 in", "goods_for": {"dust cover": "mesh"}`: 432 * unit.SquareInch,
	} {
		s := expanded(t, madeJob(t, `{"name": "a seat", "goods": "cloth", `+piece+`, "filling": {"use": "seat", "duty": "normal", "base": "board", "price": "3.40 USD/bd ft"}}`))
		require.Len(t, s.Pieces[0].Foam, 1)
		pad := s.Pieces[0].Foam[0]
		area, err := pad.Width.By(pad.Depth)
		require.NoError(t, err)
		if pad.Outline != nil {
			o, err := pad.Outline.Outline()
			require.NoError(t, err)
			area = o.Area()
		}
		require.Equal(t, want, area, piece)
	}
}

// A part of a kind that does not fit the goods is named once.
func TestPartOfAKindIsNamedOnce(t *testing.T) {
	_, err := read(t, `{"schema": "coverwright/job/1", "name": "a job", "currency": "USD",
		"goods": [{"id": "cloth", "kind": "roll", "name": "plain", "material": "woven", "price": "40.00 USD/yd", "width": "54 in", "repeat": "9 in"}],
		"pieces": [{"name": "window seat", "from": "boxed cushion", "goods": "cloth", "width": "66 in", "depth": "20 in", "thickness": "4 in"}], "quote": {"labour_rate": "60.00 USD/h"}}`)
	assert.ErrorContains(t, err, "pieces[0].from: “cushion, bottom plate, cut 67 in wide”")
}
