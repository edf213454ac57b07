//go:build long

package nest

import (
	"testing"

	"pgregory.net/rapid"
)

func TestStripFlawsAndFallsInFull(t *testing.T) { rapid.Check(t, stripFlawsAndFalls) }

func TestMoreEffortNeverLongensInFull(t *testing.T) { rapid.Check(t, moreEffortNeverLongens) }

func TestMoreEffortNeverTakesMoreHidesInFull(t *testing.T) {
	rapid.Check(t, moreEffortNeverTakesMoreHides)
}
