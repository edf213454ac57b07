package allowance

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// mostPeak is how far the two angles at the ends of a seam may be off the edge
// that runs past them.
const mostPeak = 3 * math.Pi / 180

// Check finds what is wrong with the cover, everything at once: the error joins
// *unit.InputError values whose fields are paths in the words of the cover's
// JSON. Goods is what is known of each id of goods. It finds
//
//   - an edge used twice, or to be sewn and not used at all
//   - sides that do not run on from part to part, and parts out of range
//   - lengths that will not sew, with the ease and what would
//   - panels sewn face to back, and plates of one hand that twist their boxing
//   - a welt without cord or cord without welt, a row that misses the allowance,
//     a zip with one half
//   - angles at the ends of a seam that leave a peak in the edge across them
//   - a closed body without an opening
//   - orders of sewing or fitting that run in a circle
func (c Cover) Check(goods map[string]SewnGoods) error {
	_, err := c.checked(goods)
	return err
}

// checked gives the graph of a cover without faults.
func (c Cover) checked(goods map[string]SewnGoods) (*graph, error) {
	g := newGraph(c, goods)
	if len(g.drawn) != len(c.Panels) {
		return g, g.faults.err()
	}
	if c.related() {
		g.checkUnused()
		g.checkAllRound()
	}
	for i := range g.joints {
		g.checkLengths(i)
		g.checkFaces(i)
		g.checkPeaks(i)
	}
	g.checkPlumb()
	g.checkTapes()
	g.checkBodies()
	if len(g.faults.list) == 0 { // orders of a faulty graph say little
		var err error
		g.order, err = g.sewing()
		g.faults.add("", err)
		g.fitted, err = g.fitting()
		g.faults.add("", err)
	}
	return g, g.faults.err()
}

// checkGoods holds every panel and welt to goods that are known.
func (g *graph) checkGoods() {
	known := func(at unit.Path, id string) {
		of, ok := g.goods[id]
		if !ok {
			g.faults.add(at, check.Refuse("", id, unit.ErrUnknown, "the id of goods that are known"))
			return
		}
		if of.Ease == (EaseLimits{}) || of.Ease.check() != nil {
			g.faults.add(at, check.Refuse("", id, unit.ErrRange, "goods with limits of ease, such as those of an EaseClass"))
		}
		g.faults.add(at, check.Length("", of.Thickness, 0, 4*unit.Inch))
	}
	for i, p := range g.cover.Panels {
		known(unit.Path("panels").At(i).Dot("goods"), p.Goods)
	}
	for i, s := range g.cover.Seams {
		at := unit.Path("seams").At(i)
		if s.Welt != "" {
			known(at.Dot("welt"), s.Welt)
		}
		if s.Backing != "" {
			known(at.Dot("backing"), s.Backing)
		}
	}
	for i, t := range g.cover.Trims {
		if t.Welt != "" {
			known(unit.Path("trims").At(i).Dot("welt"), t.Welt)
		}
	}
}

// checkSeam checks the fields of a seam apart from the panels it joins.
func (g *graph) checkSeam(i int) bool {
	s, at, before := g.cover.Seams[i], unit.Path("seams").At(i), len(g.faults.list)
	if err := check.OneOf("finish", s.Kind.String(), seamKindNames()...); err != nil {
		g.faults.add(at, err)
		return false
	}
	least, most := 2, 2
	switch s.Kind {
	case PlainJoin:
		most = 6
	case ZipJoin:
		least = 1
	}
	if s.Open != "" {
		least, most = 1, 1
		if s.Kind == PlainJoin {
			most = 2
		}
		if s.Kind != PlainJoin && s.Kind != GatheredJoin {
			g.faults.add(at.Dot("open"), check.Refuse("", s.Open, unit.ErrRange, "none, or a plain, welted or gathered seam"))
		}
	}
	g.checkLap(at, s)
	if most == 2 && s.Kind != PlainJoin && len(s.Sides) > 2 {
		g.faults.add(at.Dot("finish"), check.Refuse("", s.Kind.String(), unit.ErrRange, "a plain seam, the only one of more than two sides"))
	} else {
		g.faults.add(at.Dot("sides"), check.Count("", len(s.Sides), least, most))
	}
	m, err := s.edge().Resolve()
	g.faults.add(at, err)
	g.checkWelt(at, s.Kind == WeltedJoin, s.Cord, s.Welt)
	stitched := s.Kind == TopStitchedJoin || s.Kind == DoubleTopStitchedJoin
	switch {
	case !stitched && s.Row != 0:
		g.faults.add(at.Dot("row"), check.Refuse("", s.Row.String(), unit.ErrRange, "none, or a top-stitched seam"))
	case stitched:
		g.faults.add(at.Dot("row"), check.Length("", s.row(), unit.Millimetre, MostAllowance))
		if err == nil && s.row()+rowCatch > m.Allowance {
			g.faults.add(at.Dot("row"), check.Refuse("", s.row().String(), unit.ErrRange,
				"a row that catches the allowance: at most "+(m.Allowance-rowCatch).String()+", or an allowance of "+(s.row()+rowCatch).String()))
		}
	}
	if s.Backing != "" && s.Kind != DoubleTopStitchedJoin {
		g.faults.add(at.Dot("backing"), check.Refuse("", s.Backing, unit.ErrRange, "none, or a double top-stitched seam"))
	}
	if half := s.Kind == ZipJoin && len(s.Sides) == 1; half != (s.Tape != "") {
		g.faults.add(at.Dot("tape"), check.Refuse("", s.Tape, unit.ErrRange, "the name of the zip for a single side of a zip seam, none for others"))
	}
	if s.Fullness != 0 {
		switch s.Kind {
		case PlainJoin, WeltedJoin:
			g.faults.add(at, check.Ratio("fullness", s.Fullness, 1, 10))
		case GatheredJoin:
			g.faults.add(at, check.Ratio("fullness", s.Fullness, 1.1, 4))
		default:
			g.faults.add(at.Dot("fullness"), check.Refuse("", s.Fullness.String(), unit.ErrRange, "none, or a plain or gathered seam"))
		}
	}
	g.faults.add(at, check.NotNegative("flat_ends", s.FlatEnds))
	g.checkCrossing(at.Dot("pattern"), s.Pattern)
	return len(g.faults.list) == before
}

// checkLap checks what laps over a seam and what is left open of it.
func (g *graph) checkLap(at unit.Path, s Seam) {
	g.faults.add(at, check.Length("lap", s.Lap, 0, MostAllowance/4))
	if s.Lap != 0 && (s.Kind != PlainJoin || len(s.Sides) != 2) {
		g.faults.add(at, check.Refuse("lap", s.Lap.String(), unit.ErrRange, "none, or a plain seam of two sides"))
	}
	g.faults.add(at, check.NotNegative("opening", s.Opening))
	if s.Opening != 0 && (len(s.Sides) != 2 || s.Kind.opens() || s.Kind == GatheredJoin) {
		g.faults.add(at, check.Refuse("opening", s.Opening.String(), unit.ErrRange, "none, or a seam of two sides that the machine closes"))
	}
}

func (g *graph) checkCrossing(at unit.Path, c Crossing) {
	g.faults.add(at, check.OneOf("way", c.Way.String(), patternNames[:]...))
	g.faults.add(at, check.OneOf("point", c.Point.String(), pointNames[:]...))
	g.faults.add(at, check.Length("gap", c.Gap, 0, 10*unit.Foot))
	if c.Way == NoPattern && c != (Crossing{}) {
		g.faults.add(at, check.Required("way", "across, along or both, for a point, a gap or a hidden place"))
	}
}

// checkWelt holds a welt to cord and goods, and all else to neither.
func (g *graph) checkWelt(at unit.Path, welted bool, cord unit.Length, goods string) {
	switch {
	case welted && cord == 0:
		g.faults.add(at, check.Required("cord", "the diameter of the cord in the welt"))
	case welted && goods == "":
		g.faults.add(at, check.Required("welt", "the id of the goods that cover the cord"))
	case welted:
		g.faults.add(at, check.Length("cord", cord, unit.Millimetre, 4*unit.Inch))
	case cord != 0:
		g.faults.add(at, check.Refuse("cord", cord.String(), unit.ErrRange, "none, or a welt"))
	case goods != "":
		g.faults.add(at, check.Refuse("welt", goods, unit.ErrRange, "none, or a welt"))
	}
}

// checkUnused finds edges that are to be sewn and are not, and edges with a
// finish of their own that a relation has too.
func (g *graph) checkUnused() {
	for n, of := range g.nodes {
		p, d := g.cover.Panels[of.panel], g.drawn[of.panel]
		at := unit.Path("panels").At(of.panel)
		for i, part := range d.parts {
			here := at.Dot("edges").Dot(unit.Path(part.edge))
			line := i >= d.border
			if line {
				here = at.Dot("lines").At(i - d.border)
			}
			used := len(g.uses[place{n, i}]) > 0
			_, own := p.Edges[part.edge] // that of its other half may well be sewn
			switch {
			case used && own && !line:
				g.faults.add(here, check.Refuse("", g.at(place{n, i}), unit.ErrRange,
					"a finish of its own or a relation, not both: it is used by "+g.uses[place{n, i}][0].by))
			case !used && (line || g.edge(place{n, i}).Finish.Seam()):
				g.faults.add(here, check.Refuse("", g.at(place{n, i}), unit.ErrRequired, "a seam or a fastening"))
			}
		}
	}
}

// checkAllRound refuses a finish all round of a panel whose edges all have
// relations.
func (g *graph) checkAllRound() {
	free := make([]bool, len(g.cover.Panels))
	for n, of := range g.nodes {
		for i := range g.drawn[of.panel].border {
			free[of.panel] = free[of.panel] || len(g.uses[place{n, i}]) == 0
		}
	}
	for i, p := range g.cover.Panels {
		if p.AllEdges != (Edge{}) && g.drawn[i].ok && !free[i] {
			g.faults.add(unit.Path("panels").At(i).Dot("all_edges"), check.Refuse("", p.AllEdges.String(), unit.ErrRange,
				"no finish all round, since every edge has a seam or a fastening"))
		}
	}
}

// limits gives the ease that the goods of a side take, the least of several.
func (g *graph) limits(side []span) EaseLimits {
	var out EaseLimits
	for i, id := range g.goodsOf(side) {
		if l := g.goods[id].Ease; i == 0 || l.Gather < out.Gather {
			out = l
		}
	}
	return out
}

// limited tells whether the goods of a side have limits of ease.
func (g *graph) limited(side []span) bool {
	l := g.limits(side)
	return l != EaseLimits{} && l.check() == nil
}

// match compares two sides; a difference within SeamTolerance sews flat. The
// limits are those of the longer side, or of the shorter where it is stretched.
func (g *graph) match(a, b []span, stretched bool) (SeamMatch, error) {
	first, second := g.run(a), g.run(b)
	worked := b
	if (first > second) != stretched {
		worked = a
	}
	m, err := MatchSeam(first, second, g.limits(worked))
	if err != nil {
		return m, err
	}
	tol, err := SeamTolerance(min(first, second))
	if err == nil && m.Difference <= tol {
		m.Verdict = SewsFlat
	}
	return m, err
}

// checkLengths compares every side of a seam with the shortest.
func (g *graph) checkLengths(i int) {
	j := g.joints[i]
	s := g.cover.Seams[j.seam]
	short := g.shortest(j)
	if l := g.run(j.sides[short]); s.Opening > l {
		g.faults.add(j.at, check.Length("opening", s.Opening, 0, l))
	}
	for k, side := range j.sides {
		if k == short {
			continue
		}
		at := j.at.Dot("sides").At(k)
		if !g.limited(side) || !g.limited(j.sides[short]) {
			continue // told of the goods
		}
		m, err := g.match(j.sides[short], side, s.Stretched)
		if err != nil {
			g.faults.add(at, err)
			continue
		}
		refuse := func(want string) {
			g.faults.add(at, check.Refuse("", m.Second.String()+" to "+m.First.String()+", "+m.Difference.String()+" or "+
				m.Ease.String()+" of ease: will not sew", unit.ErrRange, want))
		}
		switch {
		case s.Fullness != 0:
			want, err := m.First.Scale(s.Fullness, unit.Nearest)
			tol, tolErr := SeamTolerance(want)
			if err == nil && tolErr == nil && max(want-m.Second, m.Second-want) > tol {
				refuse(want.String() + ", a fullness of " + s.Fullness.String())
			}
		case s.Kind == GatheredJoin:
			if m.Ease < 0.1 || m.Ease > 3 {
				refuse("a longer side of 1.1 to 4 times the shorter, or a seam without gathers")
			}
		case m.Verdict == WillNotSew:
			most, _ := m.First.Scale(1+m.Limits.Gather, unit.Down)     //nolint:errcheck // sides of panels, within 1 km
			least, _ := m.Second.Scale(1/(1+m.Limits.Gather), unit.Up) //nolint:errcheck // sides of panels, within 1 km
			refuse("at most " + onTape(most, unit.Down, m).String() + ", or at least " + onTape(least, unit.Up, m).String() + " on the other side, or gathers")
		}
	}
}

// onTape rounds a length to what is measured: 1/16 in beside lengths in inches,
// else 1 mm.
func onTape(l unit.Length, r unit.Rounding, m SeamMatch) unit.Length {
	step := unit.Millimetre
	if m.First%(unit.Inch/64) == 0 && m.Second%(unit.Inch/64) == 0 {
		step = unit.Inch / 16
	}
	out, err := l.RoundTo(step, r)
	if err != nil {
		return l
	}
	return out
}

// shortest gives the side that the others are eased to.
func (g *graph) shortest(j joint) int {
	best := 0
	for k := range j.sides {
		if g.run(j.sides[k]) < g.run(j.sides[best]) {
			best = k
		}
	}
	return best
}

// checkFaces refuses a panel sewn with its back where the other has its face.
// Goods with two faces are sewn either way, and of three members one must lie with
// its back to the face of another.
func (g *graph) checkFaces(i int) {
	first, found := false, false
	for _, side := range g.joints[i].sides[:min(len(g.joints[i].sides), 2)] {
		for _, s := range side {
			if g.goods[g.cover.Panels[g.nodes[s.node].panel].Goods].TwoFaced || s.line {
				continue
			}
			if found && s.back != first {
				g.faults.add(s.at, check.Refuse("", g.spanName(s), unit.ErrRange, "faces that meet: one of the panels lies with its back up, or is of the wrong hand"))
				return
			}
			first, found = s.back, true
		}
	}
}

// checkPeaks compares the two angles where a seam ends at an edge across it with
// the straight line. Where the panel that is sewn there has a corner they are as
// they are: a boxing stands square to its plate or leans.
func (g *graph) checkPeaks(i int) {
	j := g.joints[i]
	for k, side := range j.sides {
		at := unit.Length(0)
		for n := 1; n < len(side); n++ {
			a, b := side[n-1], side[n]
			at += g.length(a)
			_, end := g.ends(a)
			start, _ := g.ends(b)
			if a.node == b.node || a.line || b.line || end.part >= g.border(a) || start.part >= g.border(b) {
				continue
			}
			sum := g.inside(end) + g.inside(start)
			corner := false // where the other side turns, the two may stand at any angle
			for m, mate := range j.sides {
				corner = corner || m != k && g.cornerAt(mate, g.run(mate)-at)
			}
			if math.Abs(sum-math.Pi) > mostPeak && !corner {
				degrees := unit.Angle(math.Round(sum*1800/math.Pi)/10) * unit.Degree
				g.faults.add(b.at, check.Refuse("", g.spanName(a)+" and "+g.spanName(b)+": "+degrees.String()+" together", unit.ErrRange,
					"angles that add up to 180° within 3°, or the edge has a peak or a dip at the seam"))
			}
		}
	}
}

func (g *graph) border(s span) int { return g.drawn[g.nodes[s.node].panel].border }

// inside gives the angle of the panel at a vertex.
func (g *graph) inside(v vertex) float64 {
	return math.Pi - g.drawn[g.nodes[v.node].panel].parts[v.part].corner
}

// cornerAt tells whether a side has a corner at a length along it.
func (g *graph) cornerAt(side []span, at unit.Length) bool {
	for _, c := range g.corners(side) {
		if d := c.at - at; max(d, -d) <= unit.Inch/8 {
			return true
		}
	}
	return false
}

// checkTapes holds every zip to two halves.
func (g *graph) checkTapes() {
	halves := map[string][]int{}
	for i, s := range g.cover.Seams {
		if s.Tape != "" {
			halves[s.Tape] = append(halves[s.Tape], i)
		}
	}
	for i, s := range g.cover.Seams {
		if n := len(halves[s.Tape]); s.Tape != "" && n != 2 {
			g.faults.add(unit.Path("seams").At(i).Dot("tape"), check.Refuse("", s.Tape, unit.ErrRange, "a zip that two seams name"))
		}
	}
	for _, z := range g.zips() {
		if len(z.halves) != 2 {
			continue
		}
		a, b := g.joints[z.halves[0]].sides[0], g.joints[z.halves[1]].sides[0]
		if !g.limited(a) || !g.limited(b) {
			continue // told of the goods
		}
		if m, err := g.match(a, b, false); err != nil || m.Verdict == WillNotSew {
			g.faults.add(g.joints[z.halves[1]].at, check.Refuse("sides[0]", g.run(b).String(), unit.ErrRange,
				"as long as the other half of the zip, "+g.run(a).String()))
		}
	}
}

// checkBodies finds closed bodies that cannot be turned.
func (g *graph) checkBodies() {
	for _, body := range g.bodies() {
		if !body.closed {
			continue
		}
		open, last := false, 0
		for _, i := range body.joints {
			s := g.cover.Seams[g.joints[i].seam]
			open = open || s.Kind.opens() || s.Opening != 0 || s.Open != ""
			last = max(last, i)
		}
		if !open && len(body.joints) > 0 {
			g.faults.add(g.joints[last].at, check.Refuse("finish", g.cover.Seams[g.joints[last].seam].Kind.String(), unit.ErrRange,
				"an opening to turn the closed body through: a zip, or a seam closed by hand"))
		}
	}
}

// body is pieces that are sewn together.
type body struct {
	nodes  []int
	joints []int
	closed bool // every edge is sewn
}

// bodies gives the bodies that the seams make, in the order of their pieces.
func (g *graph) bodies() []body {
	root := make([]int, len(g.nodes))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	tapes := map[string]int{}
	for _, j := range g.joints {
		first := find(j.sides[0][0].node)
		if tape := g.cover.Seams[j.seam].Tape; tape != "" {
			if other, ok := tapes[tape+j.label]; ok {
				root[find(other)] = first
			}
			tapes[tape+j.label] = first
		}
		for _, side := range j.sides {
			for _, s := range side {
				root[max(find(s.node), find(first))] = min(find(s.node), find(first))
				first = find(first)
			}
		}
	}
	index := map[int]int{}
	var out []body
	for i, n := range g.nodes {
		r := find(i)
		if _, ok := index[r]; !ok {
			index[r] = len(out)
			out = append(out, body{closed: true})
		}
		b := &out[index[r]]
		b.nodes = append(b.nodes, i)
		d := g.drawn[n.panel]
		for part := range d.border {
			used := g.uses[place{i, part}]
			b.closed = b.closed && len(used) > 0 && used[0].seam
		}
	}
	for i, j := range g.joints {
		b := &out[index[find(j.sides[0][0].node)]]
		b.joints = append(b.joints, i)
	}
	return out
}
