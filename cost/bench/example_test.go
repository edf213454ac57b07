package bench_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/unit"
)

// A club chair in leather with nails along the arms.
func ExampleTable_Estimate() {
	e, err := bench.Usual().Estimate(bench.Build{Piece: "club chair", Goods: "leather", Extras: []bench.Work{{Extra: "spaced nails", Length: 8 * unit.Foot}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range e.Lines {
		fmt.Printf("%s: %v (%s)\n", l.Name(), l.Usual, l.How)
	}
	fmt.Printf("usual %v, from %v\n", e.Usual, e.Time)
	// Output:
	// strip: 1 h 20 min (a third of the way from 1 h to 2 h)
	// frame: 1 h 40 min (a third of the way from 30 min to 4 h)
	// pad: 1 h 20 min (a third of the way from 1 h to 2 h)
	// cut: 1 h 33 min (a third of the way from 1 h to 1 h 30 min, × 1.3333… for leather)
	// sew: 2 h 40 min (a third of the way from 1 h 30 min to 3 h, × 1.3333… for leather)
	// cover: 4 h 53 min (a third of the way from 3 h to 5 h, × 1.3333… for leather)
	// finish: 1 h (a third of the way from 45 min to 1 h 30 min)
	// spaced nails: 32 min (a third of the way from 3 min to 6 min, × 96 in / 12 in)
	// usual 14 h 58 min, from 10 h 31 min to 24 h 33 min
}

// A shop that needs longer for seats than the trade, and says so once.
func ExampleTable_With() {
	own, err := bench.Usual().With(bench.Table{Pieces: []bench.Piece{{Name: "drop-in seat", Cover: bench.Span{From: unit.Hour, To: unit.Hour}}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := own.Estimate(bench.Build{Piece: "drop-in seat"})
	fmt.Println(e.Usual, err)
	// Output:
	// 1 h <nil>
}

func ExampleSpan_Caution() {
	sofa := bench.Usual().Pieces[6]
	all, err := sofa.Total()
	if err != nil {
		fmt.Println(err)
		return
	}
	said, err := all.Caution(sofa.Name, 12*unit.Hour)
	fmt.Println(said, err)
	// Output:
	// sofa: 12 h is less than the usual 16 h to 35 h 30 min <nil>
}

func ExampleTask_TaxClass() {
	fmt.Println(bench.Pad.TaxClass(true), "|", bench.Pad.TaxClass(false))
	// Output:
	// fabrication labour | repair and application labour
}
