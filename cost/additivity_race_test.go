//go:build race

package cost_test

// additivityQuotes is fewer under the race detector, which looks for shared
// state and not for cents.
const additivityQuotes = 1200
