package allowance

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/unit"
)

// CoverWork is what follows from a cover: what is cut, sewn and fitted for one
// piece of furniture.
type CoverWork struct {
	Pieces     []CoverPiece     `json:"pieces"`
	Seams      []CoverSeam      `json:"seams,omitempty"`
	Fastenings []CoverFastening `json:"fastenings,omitempty"`
	Rows       []CoverRow       `json:"rows,omitempty"` // in the order of the seams, hems last
	Welts      []WeltRun        `json:"welts,omitempty"`
	Zips       []ZipRun         `json:"zips,omitempty"`
	Backings   []Backing        `json:"backings,omitempty"`
	// Sewing is done off the frame; what is closed by hand on it stands in
	// Fitting.
	Sewing  []SewStep `json:"sewing,omitempty"`
	Fitting []FitStep `json:"fitting,omitempty"`
}

// CoverSeam is a seam between single pieces. A seam of the cover that stands for
// both hands or several copies gives several.
type CoverSeam struct {
	// Letter is given in the order of sewing, without I and O: A, C-R, AB-2.
	Letter string     `json:"letter"`
	Seam   int        `json:"seam"` // of Cover.Seams
	Kind   SeamKind   `json:"finish"`
	Sides  [][]string `json:"sides"` // the edges of the pieces
	// Match compares the shortest side with the longest. A seam with one side
	// has none.
	Match SeamMatch `json:"match,omitzero"`
	// Fullness is how much longer the longer side is meant to be, for gathers or
	// pleats; zero where that is not said.
	Fullness unit.Ratio `json:"fullness,omitzero"`
	// Eased is the side that is eased or gathered and lies below, against the
	// feed, or the one that is stretched; -1 is none.
	Eased   int          `json:"eased"`
	Ring    bool         `json:"ring,omitzero"`
	Sewn    unit.Length  `json:"sewn"` // of one row
	Notches []CoverNotch `json:"notches,omitempty"`
}

// CoverFastening is a fastening of single pieces.
type CoverFastening struct {
	Fastening int           `json:"fastening"` // of Cover.Fastenings
	Kind      FasteningKind `json:"finish"`
	To        string        `json:"to,omitempty"`
	Side      []string      `json:"side"`
	Length    unit.Length   `json:"length"`
	Allowance unit.Length   `json:"allowance"`
	HiddenBy  []string      `json:"hidden_by,omitempty"` // pieces
}

// Stitched gives the length of all rows.
func (w CoverWork) Stitched() unit.Length {
	var sum unit.Length
	for _, r := range w.Rows {
		sum += r.Length
	}
	return sum
}

// Work gives what follows from a cover that [Cover.Check] finds no fault with;
// else the faults. Goods is what is known of each id of goods. A cover without
// seams and fastenings gives its pieces with the edges they have of their own.
func (c Cover) Work(goods map[string]SewnGoods) (CoverWork, error) {
	g, err := c.checked(goods)
	if err != nil {
		return CoverWork{}, err
	}
	var w CoverWork
	labels := g.letters(g.order)
	for i, j := range g.joints {
		s, err := g.sewnSeam(j, labels[i])
		if err != nil {
			return CoverWork{}, err
		}
		w.Seams = append(w.Seams, s)
	}
	if w.Pieces, err = g.pieces(w.Seams); err != nil {
		return CoverWork{}, err
	}
	for _, r := range g.trimRows() {
		w.Sewing = append(w.Sewing, SewStep{Do: MakeWelt, Seam: r.Of})
		w.Rows = append(w.Rows, r)
	}
	hems, before := g.hems()
	hemmed := make([]bool, len(hems))
	for _, s := range g.order {
		for _, i := range before[s.joint] {
			if !hemmed[i] && s.do != MakeWelt { // a welt is made apart
				hemmed[i] = true
				w.Sewing = append(w.Sewing, g.hemStep(hems[i]))
			}
		}
		if !g.onFrame(s.joint) {
			done := SewStep{Do: s.do, Seam: labels[s.joint]}
			done.After, done.Why = g.why(s.after, labels)
			w.Sewing = append(w.Sewing, done)
		}
		w.Rows = append(w.Rows, g.stepRows(s, labels[s.joint])...)
	}
	for i, h := range hems {
		if !hemmed[i] {
			w.Sewing = append(w.Sewing, g.hemStep(h))
		}
		w.Rows = append(w.Rows, h.rows...)
	}
	w.Rows = append(w.Rows, c.Rows...)
	w.Welts, w.Zips, w.Backings = g.welts(labels), g.zipRuns(labels), g.backings(labels)
	for _, h := range g.holds {
		of := c.Fastenings[h.fastening]
		f := CoverFastening{Fastening: h.fastening, Kind: of.Kind, To: of.To, Side: g.names(h.side), Length: g.run(h.side)}
		edge, err := of.Edge()
		if err != nil {
			return CoverWork{}, err
		}
		f.Allowance, _ = edge.Allowance.Get()
		for _, n := range h.hidden {
			f.HiddenBy = append(f.HiddenBy, g.nodes[n].name)
		}
		w.Fastenings = append(w.Fastenings, f)
	}
	w.Fitting = g.fitted
	g.tellUses(&w)
	return w, nil
}

// sewnSeam gives one seam.
func (g *graph) sewnSeam(j joint, label string) (CoverSeam, error) {
	of := g.cover.Seams[j.seam]
	s := CoverSeam{Letter: label, Seam: j.seam, Kind: of.Kind, Fullness: of.Fullness, Eased: -1, Ring: j.ring, Sewn: j.sewn, Notches: g.notches(j)}
	short := g.shortest(j)
	for k, side := range j.sides {
		s.Sides = append(s.Sides, g.names(side))
		if k == short {
			continue
		}
		m, err := g.match(j.sides[short], side, of.Stretched)
		if err != nil {
			return s, unit.InField(j.at.Dot("sides").At(k), err)
		}
		if of.Kind == GatheredJoin || of.Fullness > 1 {
			m.Verdict = Gather // as it is meant, whatever the goods would take
		}
		if s.Match == (SeamMatch{}) || m.Difference > s.Match.Difference {
			s.Match = m
			switch {
			case m.Verdict == SewsFlat:
			case of.Stretched:
				s.Eased = short
			default:
				s.Eased = k
			}
		}
	}
	base, hand := splitLabel(label)
	for i := range s.Notches {
		s.Notches[i].Label = base + strconv.Itoa(i+1) + hand
	}
	return s, nil
}

// names lists the edges of a side.
func (g *graph) names(side []span) []string {
	var out []string
	for _, s := range side {
		for _, p := range s.parts {
			out = append(out, g.at(place{s.node, p}))
		}
	}
	return out
}

// letters names every joint in the order in which its seam is sewn.
func (g *graph) letters(steps []step) []string {
	letter := make([]string, len(g.cover.Seams))
	out := make([]string, len(g.joints))
	n := 0
	for _, s := range steps {
		j := g.joints[s.joint]
		if !s.do.closes() {
			continue
		}
		if letter[j.seam] == "" {
			letter[j.seam] = seamLetter(n)
			n++
		}
		out[s.joint] = letter[j.seam] + j.label
	}
	return out
}

// seamLetter gives A, B, ... without I and O, then AA.
func seamLetter(n int) string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	var out []byte
	for n++; n > 0; n = (n - 1) / len(letters) {
		out = append(out, letters[(n-1)%len(letters)])
	}
	slices.Reverse(out)
	return string(out)
}

// splitLabel takes the hand and number off a letter.
func splitLabel(label string) (letter, rest string) {
	for i := range label {
		if label[i] == '-' {
			return label[:i], label[i:]
		}
	}
	return label, ""
}
