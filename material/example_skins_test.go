package material_test

import (
	"fmt"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Twelve seats before the hides have been seen.
func ExampleForecastSkins() {
	f, err := material.ForecastSkins(60*unit.SquareFoot, material.SkinSupply{Mean: 48 * unit.SquareFoot, Spread: 4 * unit.SquareFoot},
		material.Yields(material.MixedPieces)[0], 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Skins, "skins at a yield of", f.Yield.From, "- enough in", f.Chance.PercentText(1, unit.Down), "of cases;", f.SkinsAtBest, "at", f.Yield.To)
	// Output: 3 skins at a yield of 55 % - enough in 99.9 % of cases; 2 at 70 %
}

func ExampleNaturalShape() {
	hide, err := material.NaturalShape(material.WholeHide, 50*unit.SquareFoot)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, l := hide.Size()
	fmt.Println(w.Decimal(unit.Foot, 1, unit.Nearest), "by", l.Decimal(unit.Foot, 1, unit.Nearest), "holds", hide.Area().Decimal(unit.SquareFoot, 2, unit.Nearest))
	// Output: 8.2 ft by 8.6 ft holds 50.00 sq ft
}

func ExampleUsualAreas() {
	for _, r := range material.UsualAreas(material.WholeHide) {
		fmt.Println(r.From, "to", r.To, "-", r.Basis)
	}
	// Output:
	// 45 sq ft to 60 sq ft - common practice; statements run from 45-50 to 50-60 sq ft
	// 35 sq ft to 70 sq ft - common practice; extreme range; just under 50 sq ft is typical
}

func ExampleYields() {
	for _, y := range material.Yields(material.LargePieces) {
		fmt.Println(y.Kind, y.From, y.Basis)
	}
	// Output: whole hide 50 % common practice; seat cushions of 30 to 40 in and seamless backs: half is lost
}

func ExamplePartShare_Of() {
	for _, p := range material.PartShares()[:2] {
		a, err := p.Of(50 * unit.SquareFoot)
		fmt.Println(p.Part, a, p.Basis.Status, err)
	}
	// Output:
	// bellies 11.5 sq ft published <nil>
	// crops 38.5 sq ft derived <nil>
}

func ExampleStretchAcross() {
	s, err := material.StretchAcross(90) // tight along the backbone
	fmt.Println(s, err)
	// Output: 0 deg <nil>
}

func ExampleDefect_Weight() {
	fmt.Println(material.Defect{Kind: material.Brand}.Weight(), material.Defect{Kind: material.Brand, Severity: material.PlainMark}.Weight())
	// Output: deep plain
}
