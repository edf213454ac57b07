package nest_test

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
)

// Two L-shaped facings and a square panel on a roll 1.5 m wide, in tenths
// of a millimetre: turned into each other the facings leave no waste.
func ExampleStrip() {
	facing := geom.Ring{{X: 0, Y: 0}, {X: 10000, Y: 0}, {X: 10000, Y: 5000}, {X: 5000, Y: 5000}, {X: 5000, Y: 15000}, {X: 0, Y: 15000}}
	out, err := nest.Strip(context.Background(), nest.StripJob{
		Width: 15000,
		Pieces: []nest.Piece{
			{ID: "facing", Ring: facing, Count: 2, Turn: nest.TurnSet(0, 180*nest.Degree)},
		},
		Options: nest.Options{Effort: 5},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d pieces on %d mm, at least %d mm\n", len(out.Placements), out.Length/10, out.LowerBound/10)
	// Output:
	// 2 pieces on 1500 mm, at least 1333 mm
}

// Six drop-in seats on two small hides with a scar, in tenths of a
// millimetre.
func ExampleHides() {
	hide := geom.Ring{{X: 0, Y: 0}, {X: 16000, Y: 0}, {X: 17000, Y: 9000}, {X: 16000, Y: 18000}, {X: 0, Y: 18000}, {X: -1000, Y: 9000}}
	scar := geom.Ring{{X: 7900, Y: 8000}, {X: 8100, Y: 8000}, {X: 8100, Y: 9000}, {X: 7900, Y: 9000}}
	out, err := nest.Hides(context.Background(), nest.HideJob{
		Hides: []nest.Hide{{ID: "1", Outer: hide, Holes: []geom.Ring{scar}}, {ID: "2", Outer: hide}},
		Pieces: []nest.Piece{{ID: "seat", Count: 6, Turn: nest.TurnAny(),
			Ring: geom.Ring{{X: 0, Y: 0}, {X: 5200, Y: 0}, {X: 5600, Y: 5200}, {X: -400, Y: 5200}}}},
		Options: nest.Options{Effort: 8},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d seats on %d hide, least possible %d\n", len(out.Placements), len(out.Used), out.Least)
	// Output:
	// 6 seats on 1 hide, least possible 1
}
