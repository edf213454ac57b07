//go:build long

package allowance_test

import "testing"

func TestRippedSeldomRefusedInFull(t *testing.T) { rippedSeldomRefused(t, 500, 25, 50) }
