//go:build long

package sheet

import (
	"testing"

	"pgregory.net/rapid"
)

func TestLayLawsInFull(t *testing.T) { rapid.Check(t, layLaws) }
