package sheet

import "github.com/coverwright/coverwright/unit"

// fewestPlies finds the fewest stock thicknesses that add up to t, the thickest
// plies first. The thicknesses have fall.
func fewestPlies(t unit.Length, have []unit.Length, most int) ([]unit.Length, bool) {
	for n := 1; n <= most; n++ {
		if plies, ok := sumOf(t, n, have); ok {
			return plies, true
		}
	}
	return nil, false
}

// sumOf finds n thicknesses, in falling order, that add up to t.
func sumOf(t unit.Length, n int, have []unit.Length) ([]unit.Length, bool) {
	for i, h := range have {
		switch {
		case n == 1 && h == t:
			return []unit.Length{h}, true
		case n > 1 && h < t && h*unit.Length(n) >= t:
			if rest, ok := sumOf(t-h, n-1, have[i:]); ok {
				return append([]unit.Length{h}, rest...), true
			}
		}
	}
	return nil, false
}
