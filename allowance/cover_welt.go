package allowance

import (
	"github.com/coverwright/coverwright/unit"
)

// WeltRun is one length of welt of a cover.
type WeltRun struct {
	Of    string      `json:"of"` // the letter of the seam, or the name of the trim
	Goods string      `json:"goods"`
	Cord  unit.Length `json:"cord"` // diameter
	Bias  bool        `json:"bias,omitzero"`
	// Run is the length of the seam line. Strip is what is cut, before joins: a
	// ring takes 2 in more, 1/2 in turned in and 1 1/2 in of lap; an open run
	// goes through the margins at its ends. The cord of a ring butts, that of an
	// open run ends with the run.
	Run        unit.Length `json:"run"`
	Strip      unit.Length `json:"strip"`
	CordLength unit.Length `json:"cord_length"`
	Ring       bool        `json:"ring,omitzero"`
}

// ringLap is what the strip of a ring of welt has beyond the ring.
const ringLap = 2 * unit.Inch

// welt gives the welt of a welted seam.
func (g *graph) welt(j joint) WeltRun {
	s := g.cover.Seams[j.seam]
	w := WeltRun{Goods: s.Welt, Cord: s.Cord, Bias: s.Bias, Run: g.run(j.sides[0]), Ring: j.ring}
	if k := g.shortest(j); k != 0 {
		w.Run = g.run(j.sides[k])
	}
	w.CordLength, w.Strip = w.Run, j.sewn
	if j.ring {
		w.Strip += ringLap
	}
	return w
}

// welts gives all welt: of seams, then of trims.
func (g *graph) welts(labels []string) []WeltRun {
	var out []WeltRun
	for i, j := range g.joints {
		if g.cover.Seams[j.seam].Kind == WeltedJoin {
			w := g.welt(j)
			w.Of = labels[i]
			out = append(out, w)
		}
	}
	for _, t := range g.cover.Trims {
		if t.Kind == StapledWelt {
			out = append(out, WeltRun{Of: t.Name, Goods: t.Welt, Cord: t.Cord, Bias: t.Bias, Run: t.Length, Strip: t.Length, CordLength: t.Length})
		}
	}
	return out
}

// ZipRun is one zip of a cover: Opening is the finished length, Tape what is
// cut, through the margins at its ends.
type ZipRun struct {
	Of      string      `json:"of"` // the name of the tape, or the letter of the seam
	On      string      `json:"on"` // the piece that its first half lies on
	Opening unit.Length `json:"opening"`
	Tape    unit.Length `json:"tape"`
}

// zip is the joints of one zip: one with two sides, or two halves.
type zip struct {
	tape   string
	halves []int
}

// zips lists the zips in the order of their first seam.
func (g *graph) zips() []zip {
	var out []zip
	by := map[string]int{}
	for i, j := range g.joints {
		s := g.cover.Seams[j.seam]
		if s.Kind != ZipJoin {
			continue
		}
		if s.Tape == "" {
			out = append(out, zip{"", []int{i}})
			continue
		}
		name := s.Tape + j.label
		if k, ok := by[name]; ok {
			out[k].halves = append(out[k].halves, i)
			continue
		}
		by[name] = len(out)
		out = append(out, zip{name, []int{i}})
	}
	return out
}

// zipRuns gives the length of every zip.
func (g *graph) zipRuns(labels []string) []ZipRun {
	var out []ZipRun
	for _, z := range g.zips() {
		r := ZipRun{Of: z.tape, On: g.nodes[g.joints[z.halves[0]].sides[0][0].node].name}
		if r.Of == "" {
			r.Of = labels[z.halves[0]]
		}
		for _, i := range z.halves {
			j := g.joints[i]
			r.Opening, r.Tape = max(r.Opening, g.run(j.sides[g.shortest(j)])), max(r.Tape, j.sewn)
		}
		out = append(out, r)
	}
	return out
}
