package paper

import (
	"cmp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/unit"
)

// names gathers texts, each once, in the order in which they come.
type names []string

func (n *names) add(s string) {
	if s != "" && !slices.Contains(*n, s) {
		*n = append(*n, s)
	}
}

// doing are the tasks of the table of times in words for the customer.
var doing = map[bench.Task]string{
	bench.Strip: "what is old taken off", bench.Frame: "frame, webbing and springs put in order", bench.Pad: "filling built up", bench.Cut: "new cover cut",
	bench.Sew: "new cover sewn", bench.Cover: "new cover put on", bench.Finish: "closed, trimmed and finished",
	bench.Measure: "measuring at your place", bench.Collect: "collection", bench.Deliver: "delivery", bench.Set: "setting up at your place",
}

// freshly are findings that a customer asks about, by their names.
var freshly = map[string]string{
	"webbing": "webbing", "elastic webbing": "elastic webbing", "zigzag spring": "zigzag springs", "coil spring": "coil springs",
	"burlap": "burlap", "edge roll": "edge roll", "felt": "cotton felt", "wrap": "wrap", "decking": "decking", "dust cover": "dust cover underneath",
	"muslin": "inner cover of muslin", "interliner": "interliner behind the cover", "zip chain": "zips", "button": "covered buttons", "decorative nail": "decorative nails",
	"gimp": "gimp", "hook and loop": "hook and loop", "snap": "snaps", "drain eyelet": "drain eyelets", "glide": "glides", "foot": "feet",
}

// kindOf gives what a finding is, without its size.
func kindOf(f build.Line) string {
	id, _, _ := strings.Cut(f.ID, ",")
	return id
}

// piecesOf says what is done for each piece of furniture.
func piecesOf(o job.WorkOrder) []Piece {
	var out []Piece
	for _, g := range o.Quote.Terms.Groups {
		var work, fresh, cover names
		x := Piece{Name: g.Name, Count: max(g.Items, 1)}
		for _, b := range o.Labour {
			if b.Piece == x.Name {
				for _, s := range worded(b) {
					work.add(s)
				}
			}
		}
		for _, f := range o.Findings {
			if f.Paid == build.Unpriced { // the price does not hold it
				continue
			}
			for _, s := range f.Pieces {
				if s.Piece == x.Name && !s.Net.IsZero() {
					fresh.add(freshly[kindOf(f)])
				}
			}
		}
		for _, b := range o.Foam {
			if b.Piece == x.Name {
				fresh.add(filled(o.Foam, b.Piece, b.Part))
			}
		}
		for _, f := range o.Forms {
			if f.Piece == x.Name && f.Priced {
				fresh.add("pillow form: " + f.Part)
			}
		}
		for _, name := range coveredIn(o, x.Name) {
			cover.add(name)
		}
		for _, r := range o.Rough {
			if r.Piece == x.Name {
				x.Unmeasured = true
				cover.add(r.Name)
			}
		}
		x.Work, x.New, x.Cover = work, fresh, cover
		out = append(out, x)
	}
	return out
}

// coveredIn names the goods of a piece of furniture, that of which it has most first.
func coveredIn(o job.WorkOrder, piece string) []string {
	area := map[string]unit.Area{}
	for _, c := range o.Cuts {
		if c.Piece == piece {
			area[c.Goods] += c.Area
		}
	}
	goods := slices.SortedStableFunc(slices.Values(o.Purchases), func(a, b job.Purchase) int { return cmp.Compare(area[b.Goods], area[a.Goods]) })
	var out []string
	for _, p := range goods {
		if area[p.Goods] > 0 {
			out = append(out, p.Name)
		}
	}
	return out
}

// filled says what fills a part, whatever its layers.
func filled(blocks []job.FoamBlock, piece, part string) string {
	wrapped := slices.ContainsFunc(blocks, func(b job.FoamBlock) bool { return b.Piece == piece && b.Part == part && b.Wrap != nil })
	if wrapped {
		return "foam with batting round it: " + part
	}
	return "foam: " + part
}

// worded gives a task in the words of the shop, or of the table of times.
func worded(b job.Bench) []string {
	if !b.FromTable && (b.Piece != "" || len(b.Does) == 0) { // an errand of the table is worded by it, whoever gave its time
		return []string{b.Task}
	}
	var out []string
	for _, t := range b.Does {
		if s := doing[t]; s != "" {
			out = append(out, s)
		}
	}
	return out
}

// aroundOf says what is done for the job as a whole that a customer sees.
func aroundOf(o job.WorkOrder) []string {
	var out names
	for _, b := range o.Labour {
		if b.Piece == "" {
			for _, w := range worded(b) {
				out.add(w)
			}
		}
	}
	return out
}

// coversOf lists the goods of the order, those of pieces that nobody has measured
// last.
func coversOf(list []job.Purchase, cuts []job.Cut, rough []job.RoughPiece) []Cover {
	var out []Cover
	for _, p := range list {
		x := Cover{Goods: p.Goods, Name: p.Name, Fibre: p.Fibre, Length: p.Length, Area: p.Area, Hides: p.Hides + p.AtHand}
		if s := p.Stock; s != nil {
			x.Yours = s.Whose == stock.Customers
			if s.Alone != nil {
				x.Length = s.Alone.Order
			}
			if s.Bring != nil {
				x.Bring = s.Bring.Order
			}
			x.BringHides, x.BringArea = s.BringHides, s.BringArea
		}
		if p.Plan != nil && x.Length == 0 && p.AtHand > 0 {
			x.Area = p.Plan.Areas.Sold
		}
		var on names
		for _, c := range cuts {
			if c.Goods == p.Goods {
				on.add(c.Piece)
			}
		}
		x.Pieces = on
		out = append(out, x)
	}
	for _, r := range rough {
		i := slices.IndexFunc(out, func(x Cover) bool { return x.Goods == r.Goods && x.About })
		if i < 0 {
			i = len(out)
			out = append(out, Cover{Goods: r.Goods, Name: r.Name, Fibre: r.Fibre, Yours: r.Whose == stock.Customers, About: true})
		}
		x := &out[i]
		x.Length, x.Area, x.Hides = x.Length+r.Length, x.Area+r.Area, x.Hides+r.Hides // each of at most 1000 pieces
		x.Pieces = append(x.Pieces, r.Piece)
	}
	return out
}
