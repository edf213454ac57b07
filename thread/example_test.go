package thread_test

import (
	"fmt"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// The six drop-in seats of the Larkfield Reading Room are in leather, two
// layers at the seam.
func ExampleRecommend() {
	advice, err := thread.Recommend(thread.Request{Goods: thread.Leather, Layers: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range advice.All() {
		fmt.Printf("%d. %s, needle %s, stitch %s: %s\n", i+1, p.Thread, p.Needle, p.StitchLength, p.Reason)
	}
	// Output:
	// 1. nylon 92, needle 120/19, stitch 4.5 mm: usual size for upholstery leather
	// 2. nylon 69, needle 110/18, stitch 4.5 mm: thin leather
	// 3. nylon 138, needle 140/22, stitch 4.5 mm: thick leather and heavy wear
}

// A needle that stands in the machine may not suit.
func ExampleRecommend_badMatch() {
	advice, err := thread.Recommend(thread.Request{
		Goods: thread.Leather, Layers: 2, Size: thread.Size138, Needle: 90,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(advice.Best().Flags)
	// Output:
	// needle too fine for the thread: it does not lie in the groove
}

// Ten feet of boxing seam on the window-seat cushion, 3 mm thick under the
// foot, six stitches to the inch.
func ExampleConsume() {
	stitch, err := thread.StitchesPerInch(6).StitchLength()
	if err != nil {
		fmt.Println(err)
		return
	}
	use, err := thread.Consume(thread.Seam{
		Name:         "boxing",
		Length:       10 * unit.Foot,
		Thickness:    3 * unit.Millimetre,
		Stitch:       thread.Lockstitch301,
		StitchLength: stitch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needle", use.Needle.Decimal(unit.Metre, 2, unit.Up))
	fmt.Println("bobbin", use.Under.Decimal(unit.Metre, 2, unit.Up))
	// Output:
	// needle 5.21 m
	// bobbin 5.21 m
}

// Every cell of the size table has a basis, or is a gap that says why.
func ExampleThread_Row() {
	row, err := thread.Thread{Fibre: thread.Nylon, Size: thread.Size69}.Row()
	if err != nil {
		fmt.Println(err)
		return
	}
	strength, ok := row.MinStrength.Value()
	fmt.Println(strength.Decimal(unit.PoundForce, 1, unit.Nearest), ok)
	fmt.Println(row.MinStrength.Basis().Status)
	_, ok = row.MinYield.Value()
	fmt.Println(ok, row.MinYield.Basis().Note)
	// Output:
	// 8.5 lbf true
	// common practice
	// false no specification of bonded thread read that gives it
}
