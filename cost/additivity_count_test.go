//go:build !race

package cost_test

// additivityQuotes is how many random quotes must add up.
const additivityQuotes = 12_000
