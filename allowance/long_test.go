//go:build long

package allowance_test

import (
	"testing"

	"pgregory.net/rapid"
)

func TestRippedSeldomRefusedInFull(t *testing.T) { rippedSeldomRefused(t, 500, 25, 50) }

func TestFrontLawsInFull(t *testing.T) { rapid.Check(t, frontLaws) }
