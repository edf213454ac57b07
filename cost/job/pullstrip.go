package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PullStrip is an edge of a panel that ends in a strip of other goods, sewn on to do
// the pulling, or that might.
type PullStrip struct {
	Panel string   `json:"panel"` // of the cover
	Edges []string `json:"edges"` // such as bottom
	Goods string   `json:"goods"` // of the panel
	// With is the goods of the strip; empty where there is none yet.
	With string `json:"with,omitempty"`
	// Pulled is what goes over or through the rails and is held beyond them.
	Pulled unit.Length `json:"pulled"`
	// Saved is the area of Goods that the cut pieces are smaller by, of all pieces
	// of furniture. What is bought need not be that much less.
	Saved unit.Area `json:"saved"`
	Kind  cite.Kind `json:"kind"`
}

// suggestedOver is how much must be pushed through before a strip is worth its seam, as
// common practice has it.
const suggestedOver = 3 * unit.Inch

// stripped is a fastening whose edge ends in a strip.
type stripped struct {
	at        unit.Path // of the job file
	goods     string
	fastening int
	seam      int // of the strip to its panel
	// edge is what the panel would end in without it.
	edge allowance.Edge
}

// sewStrips puts the pull strips to the cover.
func (w *whole) sewStrips(strips []stripped) faults {
	var f faults
	for _, s := range strips {
		panels, hold := len(w.cover.Panels), w.cover.Fastenings[s.fastening]
		c, err := w.cover.WithPullStrip(s.fastening, s.goods)
		if err != nil {
			f = append(f, moved(err, w.place))
			continue
		}
		if w.cover = c; len(c.Panels) == panels {
			continue // what is wrong with the fastening is told of it
		}
		s.seam = len(c.Seams) - 1
		if s.edge, err = hold.Edge(); err != nil {
			continue // told of the fastening
		}
		w.origin(unit.Path("panels").At(panels), s.at, true)
		w.origin(unit.Path("seams").At(s.seam), s.at, true)
		w.of, w.strips = append(w.of, covered{at: s.at}), append(w.strips, s)
	}
	return f
}

// pullStrips gives what the pull strips of a cover save, and where a strip would
// save something: of leather and vinyl, where more than 3 in are pushed through.
func (w whole) pullStrips(work allowance.CoverWork, c catalog) ([]PullStrip, error) {
	var out []PullStrip
	add := func(edges []string, pulled allowance.Edge, with string, dear bool, edge func(now allowance.Edge) allowance.Edge) error {
		name, first := panelEdge(edges[0])
		i := slices.IndexFunc(work.Pieces, func(p allowance.CoverPiece) bool { return p.Name == name })
		p := work.Pieces[i]
		if g, _, _ := c.find(p.Goods); dear && !g.dear() { //nolint:errcheck // the cover was made with it
			return nil
		}
		other := p.Panel
		other.Edges = map[string]allowance.Edge{}
		for name, e := range p.Panel.Edges {
			other.Edges[name] = e
		}
		for _, e := range edges {
			if _, e = panelEdge(e); e != "" {
				other.Edges[e] = edge(other.Edges[e])
			}
		}
		now, err := p.Panel.Cut()
		if err != nil {
			return err
		}
		then, err := other.Cut()
		if err != nil {
			return err
		}
		saved, err := max(now.Area-then.Area, then.Area-now.Area).Times(w.count)
		if err != nil {
			return err
		}
		k := slices.IndexFunc(out, func(x PullStrip) bool {
			return x.Panel == p.Of && x.With == with && slices.Contains(x.Edges, first)
		})
		if k >= 0 {
			out[k].Saved, err = out[k].Saved.Plus(saved)
			return err
		}
		l, _ := pulled.Allowance.Get()
		s := PullStrip{Panel: p.Of, Goods: p.Goods, With: with, Pulled: l, Saved: saved, Kind: cite.Estimate}
		for _, e := range edges {
			_, e = panelEdge(e)
			s.Edges = append(s.Edges, e)
		}
		out = append(out, s)
		return nil
	}
	for _, s := range w.strips {
		for _, j := range work.Seams {
			if j.Seam != s.seam {
				continue
			}
			if err := add(j.Sides[0], s.edge, s.goods, false, func(allowance.Edge) allowance.Edge { return s.edge }); err != nil {
				return nil, err
			}
		}
	}
	for _, h := range work.Fastenings {
		// What goes over a rail or the edge of a pad is seen; what goes down a gap is not.
		if h.Kind != allowance.PushedThrough || h.Allowance <= suggestedOver || slices.ContainsFunc(w.strips, func(s stripped) bool { return s.fastening == h.Fastening }) {
			continue
		}
		edge := allowance.Edge{Allowance: allowance.Exactly(h.Allowance)}
		if err := add(h.Side, edge, "", true, func(allowance.Edge) allowance.Edge { return allowance.Edge{Finish: allowance.PlainSeam} }); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// dear tells whether goods are worth a seam to save some: leather and vinyl, as
// common practice has it.
func (g GoodsSpec) dear() bool {
	return g.Material == thread.Leather || g.Material == thread.HeavyLeather || g.Material == thread.Vinyl
}

// panelEdge takes the name of an edge apart.
func panelEdge(s string) (piece, edge string) {
	i := strings.LastIndexByte(s, '.')
	return s[:max(i, 0)], s[i+1:]
}
