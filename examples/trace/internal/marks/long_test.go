//go:build long

package marks

import (
	"testing"

	"pgregory.net/rapid"
)

func TestPagesAreNamedInFull(t *testing.T) { rapid.Check(t, pagesAreNamed) }
