package sheet

import (
	"math/big"

	"github.com/coverwright/coverwright/unit"
)

// leastSheets is a number of sheets no layout can go under. Cuts with a kerf
// between them take no more room than cuts a kerf larger each way on a sheet a
// kerf larger each way, so their areas add; and of cuts that are more than half
// a sheet both ways no two share a sheet.
func leastSheets(s Stock, kerf unit.Length, faces []face) int {
	var sum, one, w big.Int
	area := func(z *big.Int, length, width unit.Length) *big.Int {
		return z.Mul(z.SetInt64(int64(length+kerf)), w.SetInt64(int64(width+kerf)))
	}
	large := 0
	for _, f := range faces {
		sum.Add(&sum, area(&one, f.Length, f.Width))
		// A way that does not fit the sheet at all cannot be used either.
		half := func(l, w unit.Length) bool {
			return l > s.Length || w > s.Width || 2*(l+kerf) > s.Length+kerf && 2*(w+kerf) > s.Width+kerf
		}
		if half(f.Length, f.Width) && (!f.turnable || half(f.Width, f.Length)) {
			large++
		}
	}
	area(&one, s.Length, s.Width)
	sum.Add(&sum, &one)
	sum.Sub(&sum, w.SetInt64(1))
	return max(1, large, int(sum.Div(&sum, &one).Int64()))
}
