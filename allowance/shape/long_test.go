//go:build long

package shape_test

import "testing"

func TestTapeErrorsHoldInFull(t *testing.T) { tapeErrorsHold(t, 10_000, 0.95) }
