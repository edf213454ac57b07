//go:build long

package pattern

import (
	"testing"

	"pgregory.net/rapid"
)

func TestDrawnAreaIsTheCutAreaInFull(t *testing.T) { rapid.Check(t, drawnAreaIsTheCutArea) }
