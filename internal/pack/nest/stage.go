package nest

import (
	"iter"
	"math"
)

// A search plans ahead: how many lines it starts, how fine its maps are and how it
// cools down depend on the work it has. So a search with more work is another one,
// and may be out of luck. So work comes in stages: the first has little, every further
// one twice what all before it had, planned alike whatever the effort; the effort only
// says where the last is cut off. A stage begins afresh, as where a search gets stuck
// depends on its start, and looks at the best layout before it only at its end. What is
// cut off is what more effort goes on from, and a layout is only ever changed for a
// better one: so more effort gives no worse one. That is not shown for one case: a
// first layout by pair tables that is cut off, after a stage by maps whose layout the
// tables cannot hold.

// stage is one of them: planned for some units of effort, of which it may use the
// first most. All before it had before units.
type stage struct {
	number             int
	plan, most, before int
	whole              int // the effort
}

// stages gives those of an effort.
func stages(effort int) iter.Seq[stage] {
	return func(yield func(stage) bool) {
		for n, before, end := 0, 0, stageEnds[0]; before < effort; n++ {
			if !yield(stage{n, end - before, min(end, effort) - before, before, effort}) {
				return
			}
			if before = end; n+1 < len(stageEnds) {
				end = stageEnds[n+1]
			} else if end < math.MaxInt32/3 {
				end *= 3
			} else {
				end = math.MaxInt32
			}
		}
	}
}

// stageEnds are where the first stages end, in units of effort; every further one
// ends at three times as much.
var stageEnds = [...]int{1, 6, 20}

// seeded is the seed of a stage.
func (st stage) seeded(seed uint64) uint64 { return seed + uint64(st.number)*0x9e3779b97f4a7c15 }

// tell passes on the progress of a stage as that of the whole: of so many workers, units
// of effort of so much work. Where the stage has nothing better yet, the best before
// it counts.
func (st stage) tell(o Options, unit, length int64) func(Progress) {
	if o.Progress == nil {
		return nil
	}
	all := unit * int64(o.Workers)
	return func(p Progress) {
		p.Work, p.Budget = min(p.Work, all*int64(st.most))+all*int64(st.before), all*int64(st.whole)
		if length > 0 && (p.Length == 0 || p.Length > length) {
			p.Length = length
		}
		o.Progress(p)
	}
}
