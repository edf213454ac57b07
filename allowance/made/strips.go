package made

import "github.com/coverwright/coverwright/unit"

// Strip is a number of equal rectangular pieces cut as strips.
type Strip struct {
	Use    string      `json:"use"` // such as "boxing" or "zip"
	Count  int         `json:"count"`
	Width  unit.Length `json:"width"`  // cut, across the strip
	Length unit.Length `json:"length"` // cut, along the strip
}

// Area gives the area of all pieces, or wraps unit.ErrOverflow.
func (s Strip) Area() (unit.Area, error) {
	a, err := s.Width.By(s.Length)
	if err != nil {
		return 0, err
	}
	return a.Times(s.Count)
}

// Total gives the length of all pieces end to end, or wraps unit.ErrOverflow.
func (s Strip) Total() (unit.Length, error) { return s.Length.Times(s.Count) }

// mostPieces bounds the pieces one strip is made of.
const mostPieces = 10_000

// share cuts total into n lengths that differ by a nanometre at most and add
// up to it exactly; the longer ones come first.
func share(total unit.Length, n int) []unit.Length {
	out := make([]unit.Length, n)
	base, rest := total/unit.Length(n), total%unit.Length(n)
	for i := range out {
		out[i] = base
		if unit.Length(i) < rest {
			out[i]++
		}
	}
	return out
}

// grouped puts equal neighbours together.
func grouped(use string, width unit.Length, lengths []unit.Length) []Strip {
	var out []Strip
	for _, l := range lengths {
		if k := len(out) - 1; k >= 0 && out[k].Length == l {
			out[k].Count++
			continue
		}
		out = append(out, Strip{Use: use, Count: 1, Width: width, Length: l})
	}
	return out
}
