package allowance

import "slices"

// closings makes the seam that closes a body wait for all other rows in it: it is
// the last one in the list that none of the others waits for.
func (g *graph) closings(all []step, first, closing []int) {
	then := make([][]int, len(all))
	for i, s := range all {
		for _, w := range s.after {
			then[w.step] = append(then[w.step], i)
		}
	}
	awaited := func(j int, in []int) bool { // by another joint of the body
		seen := make([]bool, len(all))
		next := slices.Clone(then[first[j]])
		for len(next) > 0 {
			i := next[0]
			next = next[1:]
			if seen[i] {
				continue
			}
			if seen[i] = true; all[i].joint != j && slices.Contains(in, all[i].joint) {
				return true
			}
			next = append(next, then[i]...)
		}
		return false
	}
	for _, b := range g.bodies() {
		if !b.closed {
			continue
		}
		why := closeLast
		for _, j := range b.joints {
			if g.cover.Seams[g.joints[j].seam].Kind == ZipJoin {
				why = zipOpen
			}
		}
		for k := len(b.joints) - 1; k >= 0; k-- {
			j := b.joints[k]
			if s := g.cover.Seams[g.joints[j].seam]; s.Kind.opens() || s.Open != "" || awaited(j, b.joints) {
				continue
			}
			for i, s := range all {
				if s.joint != j && slices.Contains(b.joints, s.joint) && s.do != CloseByHand {
					all[closing[j]].after = append(all[closing[j]].after, wait{i, why})
				}
			}
			break
		}
	}
}
