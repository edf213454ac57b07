package caution

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The cautions that a customer may get have each a place of its own in their
// order, with none left free.
func TestNoTwoCautionsHaveOnePlace(t *testing.T) {
	var got, want []int
	for _, r := range table {
		if r.customer != 0 {
			got, want = append(got, r.customer), append(want, len(want)+1)
		}
	}
	slices.Sort(got)
	assert.Equal(t, want, got)
}
