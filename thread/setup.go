package thread

import "github.com/coverwright/coverwright/unit"

// SetUp is what a machine is set up with for a row of stitching. Two set-ups
// that compare equal need no change between them.
type SetUp struct {
	Thread       Thread      `json:"thread"` // in the needle
	Bobbin       Thread      `json:"bobbin,omitzero"`
	Needle       Needle      `json:"needle,omitzero"`
	Point        NeedlePoint `json:"point,omitzero"`
	StitchLength unit.Length `json:"stitch_length,omitzero"`
}

// SetUp gives what the machine is set up with.
func (p Recommendation) SetUp() SetUp {
	return SetUp{p.Thread, p.Bobbin, p.Needle, p.Point, p.StitchLength}
}

// On gives the recommendation as it is sewn with a set-up of the machine, and
// whether the rules allow it: the same thread, a bobbin thread, a needle and a
// stitch length within their ranges, and its point or a round one that will do.
// Where they do not it gives the recommendation as it is.
func (p Recommendation) On(s SetUp) (Recommendation, bool) {
	switch {
	case s.Thread != p.Thread, s.Bobbin.Fibre != p.Thread.Fibre, s.Bobbin.Size < p.BobbinFrom, s.Bobbin.Size > p.Thread.Size:
		return p, false
	case s.Needle != p.Needle && !p.Needles.Contains(s.Needle):
		return p, false
	case s.StitchLength != p.StitchLength && (s.StitchLength <= 0 || p.Density.compare(s.StitchLength) != 0):
		return p, false
	case s.Point != p.Point && (s.Point != RoundPoint || !p.RoundWillDo):
		return p, false
	}
	p.Bobbin, p.Needle, p.Point, p.StitchLength = s.Bobbin, s.Needle, s.Point, s.StitchLength
	p.SeamStrength = cautiousSeam(p.Thread, p.StitchLength)
	return p, true
}

// SetUpCount is how often a machine is set up anew along an order of sewing.
type SetUpCount struct {
	SetUps  int `json:"set_ups"` // different ones
	Changes int `json:"changes"` // along the order
	// Least is the number of changes that no order stays below.
	Least int `json:"least"`
}

// CountSetUps counts the set-ups of rows in their order of sewing:
//
//	least = set-ups - 1 ≤ changes
//
// More changes than the least come from seams that must be sewn, top-stitched
// and then sewn on.
func CountSetUps(order []SetUp) SetUpCount {
	var n SetUpCount
	seen := make(map[SetUp]bool, len(order))
	for i, s := range order {
		if i > 0 && s != order[i-1] {
			n.Changes++
		}
		seen[s] = true
	}
	n.SetUps = len(seen)
	n.Least = max(n.SetUps-1, 0)
	return n
}

const manyChanges = 3

// SecondMachine tells whether a second machine is worth setting up: at three
// changes or more, common practice.
func (n SetUpCount) SecondMachine() bool { return n.Changes >= manyChanges }
