package allowance_test

import (
	"testing"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func BenchmarkSeamMarks(b *testing.B) {
	limits, _ := allowance.FirmWoven.Limits()
	m, err := allowance.MatchSeam(82*unit.Inch, 80*unit.Inch, limits)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := m.Marks(4 * unit.Inch); err != nil {
			b.Fatal(err)
		}
	}
}
