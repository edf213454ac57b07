//go:build long

package shape_test

import "testing"

// Of so many trials the share scatters by 0.004.
func TestTapeErrorsHoldInFull(t *testing.T) { tapeErrorsHold(t, 3_000, 0.946) }
