package rect

import "slices"

// lengthLimit is the longest cut segment of a piece that fits the strip, 0 if none does, and maxCoord if only the
// open end of the strip limits it.
func (j *Job) lengthLimit(p *Piece) int64 {
	cross := p.W
	if p.Split.Along == X {
		cross = p.H
	}
	end := j.MaxLength
	if end == 0 {
		end = maxCoord
	}
	var most int64
	for _, t := range p.turns() {
		if (p.Split.Along == X) != t.quarter() { // the divided side lies across the strip
			if cross <= end {
				most = max(most, j.Width)
			}
		} else if cross <= j.Width {
			most = max(most, end)
		}
	}
	return most
}

// leastSeams is the smallest number of seams any division of the piece needs, or -1 if even the most allowed are not
// enough.
func (j *Job) leastSeams(p *Piece) int {
	s := p.Split
	side, limit := p.H, j.lengthLimit(p)
	if s.Along == X {
		side = p.W
	}
	if side <= limit {
		return 0
	}
	for k := int64(1); k <= int64(s.MaxSeams); k++ {
		// both ends carry one allowance, the segments between them two
		if finished := 2*(limit-s.Allowance) + (k-1)*(limit-2*s.Allowance); limit > s.Allowance && finished >= side {
			if k > 1 && limit <= 2*s.Allowance {
				return -1
			}
			return int(k)
		}
		if limit > 1<<53 {
			break
		}
	}
	return -1
}

// divisions lists sensible ways to divide a piece, each as the finished lengths of its segments: whole if it fits;
// with the fewest seams and up to two more, in equal parts or in full widths of the strip and a rest.
func (j *Job) divisions(p *Piece) [][]int64 {
	s := p.Split
	side, limit := p.H, j.lengthLimit(p)
	if s.Along == X {
		side = p.W
	}
	if limit == 0 {
		return nil
	}
	var out [][]int64
	add := func(parts []int64) {
		for i, f := range parts {
			if f < s.Min || cutLength(parts, i, s.Allowance) > limit {
				return
			}
		}
		if len(parts) > 0 && !slices.ContainsFunc(out, func(o []int64) bool { return slices.Equal(o, parts) }) {
			out = append(out, parts)
		}
	}
	if side <= limit {
		out = append(out, []int64{side})
	}
	least := j.leastSeams(p)
	if least < 0 {
		return out
	}
	for _, full := range []int64{limit, min(limit, j.Width)} {
		if full <= side {
			add(s.full(side, full))
		}
	}
	for k := max(1, least); k <= min(s.MaxSeams, max(1, least)+2); k++ {
		add(equal(side, int64(k+1)))
		// equal cut lengths: the two ends may be finished longer by one allowance
		n := int64(k + 1)
		inner := (side - 2*s.Allowance) / n
		if k >= 2 && inner >= 1 {
			parts := slices.Repeat([]int64{inner}, k+1)
			parts[0] += s.Allowance
			parts[n-1] = side - sum(parts[:n-1])
			add(parts)
		}
	}
	return out
}

// full divides a side into segments of full cut length and a rest; nil if that takes more seams than are allowed, or
// none.
func (s *Split) full(side, cut int64) []int64 {
	var parts []int64
	for rest := side; rest > 0; {
		f := cut - s.Allowance
		if len(parts) > 0 {
			f = cut - 2*s.Allowance
			if rest <= cut-s.Allowance {
				f = rest
			}
		}
		if f < 1 || len(parts) > s.MaxSeams {
			return nil
		}
		f = min(f, rest)
		parts = append(parts, f)
		rest -= f
	}
	k := len(parts)
	if k < 2 || k-1 > s.MaxSeams {
		return nil
	}
	if short := s.Min - parts[k-1]; short > 0 { // lend the last segment its least length
		parts[k-1] += short
		parts[k-2] -= short
	}
	return parts
}

// equal divides a side into n parts, the first ones longer by a unit where it does not go up.
func equal(side, n int64) []int64 {
	parts := make([]int64, n)
	for i := range parts {
		parts[i] = side / n
		if int64(i) < side%n {
			parts[i]++
		}
	}
	return parts
}

func sum(a []int64) int64 {
	var t int64
	for _, v := range a {
		t += v
	}
	return t
}

// cutLength is the cut length of segment i: finished length and an allowance at each seam.
func cutLength(parts []int64, i int, allowance int64) int64 {
	l := parts[i]
	if i > 0 {
		l += allowance
	}
	if i+1 < len(parts) {
		l += allowance
	}
	return l
}
