package sheet

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// joined cuts the faces that are larger than the sheet into equal shares and
// counts the joins.
func joined(s Stock, faces []face, mostJoins int) ([]face, int, error) {
	out := make([]face, 0, len(faces))
	joins := 0
	for _, f := range faces {
		n, across, ok := fewestShares(s, f, mostJoins)
		if !ok {
			return nil, 0, check.Refuse(fmt.Sprintf("parts[%d].block", f.part), f.Length.String()+" x "+f.Width.String(), ErrNoStock,
				fmt.Sprintf("a face that a sheet of %v x %v gives with at most %d joins", s.Length, s.Width, mostJoins))
		}
		joins += n - 1
		for i := range n {
			g := f
			g.Share = i + 1
			if across {
				g.Width = share(f.Width, i, n)
			} else {
				g.Length = share(f.Length, i, n)
			}
			out = append(out, g)
		}
	}
	return out, joins, check.Count("parts", len(out), 1, mostCuts)
}

// share gives the i-th of n parts of l; all n together make l exactly.
func share(l unit.Length, i, n int) unit.Length {
	return l*unit.Length(i+1)/unit.Length(n) - l*unit.Length(i)/unit.Length(n)
}

// fewestShares finds into how many equal shares a face must be cut to fit the
// sheet; across says the cuts part the width instead of the length.
func fewestShares(s Stock, f face, mostJoins int) (n int, across, ok bool) {
	fits := func(l, w unit.Length) bool {
		return l <= s.Length && w <= s.Width || f.turnable && w <= s.Length && l <= s.Width
	}
	for n = 1; n <= mostJoins+1; n++ {
		// The first of the shares may be a nanometre short, so the largest counts.
		big := func(l unit.Length) unit.Length { return (l + unit.Length(n) - 1) / unit.Length(n) }
		if fits(big(f.Length), f.Width) {
			return n, false, true
		}
		if fits(f.Length, big(f.Width)) {
			return n, true, true
		}
	}
	return 0, false, false
}
