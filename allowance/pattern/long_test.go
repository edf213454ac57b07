//go:build long

package pattern

import (
	"testing"

	"pgregory.net/rapid"
)

func TestDrawnAreaIsTheCutAreaInFull(t *testing.T) { rapid.Check(t, drawnAreaIsTheCutArea) }

func TestDXFGivesTheLinesBackInFull(t *testing.T) { rapid.Check(t, dxfGivesTheLinesBack) }
