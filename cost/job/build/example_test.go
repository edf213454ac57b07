package build_test

import (
	"fmt"

	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/unit"
)

// A dining chair with a webbed seat: what it takes, and what is still to be asked.
func ExampleSpec_Needs() {
	seat := build.Support{On: build.Webbing, Width: 16 * unit.Inch, Depth: 15 * unit.Inch, Gap: 2 * unit.Inch}
	needs, asks, err := build.Spec{Seat: &seat, Back: &build.Support{On: build.Zigzag}}.Needs()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range needs {
		fmt.Println(n.ID+":", n.How)
	}
	for _, q := range asks {
		fmt.Println(q.Field+":", q.Text)
	}
	// Output:
	// webbing: seat: 3 strips of 21 in and 3 of 22 in
	// staple: seat webbing: 9 at each of 12 ends
	// burlap: seat: 20 in x 19 in
	// staple: seat burlap at 1 1/2 in
	// build.back.width: not worked out: width of the back, inside the rails, for its zigzag springs
	// build.back.depth: not worked out: depth of the back, inside the rails, for its zigzag springs
	// build.feet: how many feet or glides, 0 where it has none
}

func ExampleNamed() {
	f, err := build.Named("cord, 5/32 in")
	fmt.Println(f.ID, f.Waste.PercentText(0, unit.Nearest), err)
	_, err = build.Named("ribbon")
	fmt.Println(err != nil)
	// Output:
	// cord 5 % <nil>
	// true
}

func ExampleSpec_Over() {
	kind := build.Spec{Seat: &build.Support{On: build.Zigzag}}
	own := build.Spec{Seat: &build.Support{Width: 24 * unit.Inch, Depth: 22 * unit.Inch}}
	fmt.Println(own.Over(kind).Seat.On)
	// Output: zigzag springs
}

func ExampleSpec_Closed() {
	s := build.Spec{Seat: &build.Support{On: build.Webbing}}
	fmt.Println(s.Closed(false)[0].Text)
	// Output: dust cover: the outer size of the underside
}

func ExampleLoose_Needs() {
	for _, n := range (build.Loose{Snaps: 2, Drains: 2}).Needs(4) {
		fmt.Println(n.Net, n.ID)
	}
	// Output:
	// 8 pieces snap
	// 8 pieces drain eyelet
}

func ExampleRun() {
	r := build.Run("cord, 5/32 in", []unit.Length{92 * unit.Inch})
	fmt.Println(r.Ends)
	// Output: 2 in
}

func ExampleFindings() {
	fmt.Println(build.Findings()[0].ID, build.Findings()[0].Step)
	// Output: webbing 9 in
}

func ExampleSundries_Has() {
	s := &build.Sundries{Share: 0.02, Covers: []string{"staple", "thread, nylon 69"}}
	fmt.Println(s.Has("staple, 3/8 in"), s.Has("thread, polyester 69"))
	// Output: true false
}
