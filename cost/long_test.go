//go:build long

package cost_test

import "testing"

func TestEveryQuoteAddsUpInFull(t *testing.T) { everyQuoteAddsUp(t, 12_000) }
