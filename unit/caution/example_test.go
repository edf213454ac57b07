package caution_test

import (
	"fmt"

	"github.com/coverwright/coverwright/unit/caution"
)

func ExampleOf() {
	list, err := caution.Of([]caution.Jurisdiction{caution.EuropeanUnion}, caution.Piece{Name: "stool", NewFoam: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range list.Cautions {
		fmt.Println(c.Rank, c.Heading(), c.Audience, c.Standing())
	}
	for _, p := range list.Papers {
		fmt.Println(p)
	}
	// Output:
	// papers F0 rules and certificates [office] common practice
	// papers F7 fire, european union [customer office] standard and from memory, read 2026-11-29
	// protects F12 fire [customer bench] common practice
	// protects H8 glue [bench office] common practice
	// protects H11 heat [bench] common practice
	// protects H4 dust [bench] common practice
	// protects H7 knives and machine [bench] common practice
	// cover: its fibres and its cleaning code (for F0)
	// glue: data sheet of the glue, and of a finish (for H8)
}

func ExampleByID() {
	cs, err := caution.ByID("H4")
	fmt.Println(cs[0], err)
	// Output:
	// H4 dust: Old foam may crumble and hold flame retardants no longer used: wear a mask, clean with a fine filter, bag it, and do not shred it. <nil>
}

func ExampleAll() {
	all := caution.All()
	fmt.Println(all[0].Heading(), "and", len(all)-1, "more")
	// Output:
	// A1 aircraft and 48 more
}
