package cite_test

import (
	"fmt"

	"github.com/coverwright/coverwright/unit/cite"
)

func ExampleBasis() {
	inch := cite.Basis{Status: cite.Standard, Source: "UCUM", Note: "in"}
	habit := cite.Basis{Status: cite.CommonPractice}
	fmt.Println(inch)
	fmt.Println(habit)
	// Output:
	// standard (The Unified Code for Units of Measure); in
	// common practice
}

func ExampleLookup() {
	s, ok := cite.Lookup("NIST-SP811")
	fmt.Println(s.Title, ok)
	// Output: NIST Special Publication 811, Guide for the Use of the International System of Units true
}
