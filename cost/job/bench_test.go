package job

import (
	"context"
	"fmt"
	"testing"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// largeJob has about n pieces to cut: a dining room of chairs in two cloths and
// leather.
func largeJob(n int) Spec {
	chairs := n / 8
	curved := func(w, h int) *shape.Form {
		return &shape.Form{Crowned: &shape.CrownedForm{Width: unit.Length(w) * unit.Inch, Height: unit.Length(h) * unit.Inch, Rise: unit.Inch}}
	}
	s := Spec{
		Schema: SpecSchema, Name: "large", Currency: cost.USD,
		Goods: []GoodsSpec{
			{ID: "cloth", Kind: RollGoods, Name: "cloth", Material: thread.Woven, Price: price("40 USD/yd"), Width: 54 * unit.Inch, Repeat: 9 * unit.Inch},
			{ID: "plain", Kind: RollGoods, Name: "plain", Material: thread.Woven, Price: price("20 USD/yd"), Width: 54 * unit.Inch},
			{ID: "hide", Kind: HideGoods, Name: "hide", Material: thread.Leather, Price: price("9.5 USD/sq ft"), HideArea: 50 * unit.SquareFoot},
		},
		Quote: QuoteSpec{LabourRate: hourly("64.55 USD/h")},
	}
	for i := range 5 {
		s.Pieces = append(s.Pieces, Furniture{Name: fmt.Sprintf("chair %d", i+1), Count: max(1, chairs/5), Panels: []PanelSpec{
			{Name: "seat", Goods: "hide", Outline: curved(20+i, 18), Grain: Grain{Way: AnyWay}},
			{Name: "inside back", Goods: "cloth", Outline: curved(18, 20+i)},
			{Name: "outside back", Goods: "cloth", Width: 18 * unit.Inch, Length: unit.Length(20+i) * unit.Inch},
			{Name: "arm", Goods: "cloth", Count: 2, Width: 14 * unit.Inch, Length: 12 * unit.Inch},
			{Name: "arm pad", Goods: "hide", Count: 2, Width: 4 * unit.Inch, Length: unit.Length(11+i) * unit.Inch},
			{Name: "dust cover", Goods: "plain", Width: 20 * unit.Inch, Length: 18 * unit.Inch, MayRailroad: true},
		}})
	}
	return s
}

func BenchmarkBuild(b *testing.B) {
	for _, n := range []int{50, 200} {
		b.Run(fmt.Sprintf("%d pieces", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Build(context.Background(), largeJob(n), Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
