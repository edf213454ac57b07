package workbook

import (
	"fmt"
	"math"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// foamList writes the foam. Board feet (litres in metric) and cost are worked
// out from the size as cut, or from that of the sheets that are bought whole.
func (q *quoting) foamList() {
	s := q.add(foamSheet)
	q.foam = s
	s.top("Foam")
	heads := s.row
	s.headings("piece", "part", ">count", ">length", ">width", ">thickness", ">added to face", ">added to thickness", ">volume", "unit", ">price", ">cost", "ask for")
	first := s.row
	total := 0.0
	rows := make([]int, len(q.order.Foam))
	for i, f := range q.order.Foam {
		rows[i] = s.row
		from := f.Finished
		if f.TakeUp == 0 || f.Form != job.FoamBox && f.Form != job.FoamOutline || f.Slanting() { // the box of another shape has one size
			from = f.Cut
		}
		q.foamSize(f.Piece, f.Name(), f.Count, from, f.Cut)
		if f.PricedBy != job.BySheet {
			total += q.foamCost(unit.Path("foam").At(i), q.foamPrice(f), f.Count, from, f.Cut, f.Volume, f.PricedBy == job.ByOutline)
		}
		s.text(13, q.askFor(f.Selection), style{kind: note, wrap: true, gap: true})
		s.row++
		if f.Wrap != nil {
			q.battingRow(f)
		}
	}
	for i, x := range q.order.Sheets {
		k := x.Order.Stock
		box := foam.Block{Length: k.Length, Width: k.Width, Thickness: k.Thickness}
		q.foamSize("", "sheets", x.Order.Count, box, box)
		q.sheetsOf(x, rows)
		total += q.foamCost(unit.Path("sheets").At(i), "", x.Order.Count, box, box, x.Volume, false)
		s.text(13, q.askFor(q.order.Foam[x.Blocks[0]].Selection), style{kind: note, wrap: true, gap: true})
		s.row++
	}
	if s.row > first {
		s.text(1, "all foam, before markup", style{kind: sum})
		for i := 2; i <= 11; i++ {
			s.blank(i, style{kind: sum})
		}
		s.formula(12, "SUM("+at(12, first)+":"+at(12, s.row-1)+")", total, q.c.step(), style{kind: sum, format: q.c.format()})
		s.row += 2
		s.text(1, caution.Pointer, style{kind: note})
		s.row++
	}
	s.page(true, q.letter(), heads, 14, 19, 7, 9, 9, 9, 9, 9, 10, 8, 9, 11, 25)
}

// wellUsed is the share of a sheet of foam that blocks take where they lie well.
const wellUsed = 0.8

// sheetsOf writes how many sheets are bought: after a change as many as the area of their
// blocks takes, where it grows no fewer than before.
func (q *quoting) sheetsOf(x job.FoamSheets, rows []int) {
	s, m, n := q.foam, q.m, float64(x.Order.Count)
	var sum []string
	was := 0.0
	for _, i := range x.Blocks {
		f, row := q.order.Foam[i], rows[i]
		sum = append(sum, fmt.Sprintf("%[1]s*(%[2]s+%[4]s)*(%[3]s+%[4]s)", at(3, row), at(4, row), at(5, row), at(7, row)))
		was += float64(float64(f.Count) * m.of(f.Cut.Length) * m.of(f.Cut.Width))
	}
	if was == 0 {
		return
	}
	used := was / (n * m.of(x.Order.Stock.Length) * m.of(x.Order.Stock.Width))
	grown := fmt.Sprintf("(%s)/%v", strings.Join(sum, "+"), was)
	then := fmt.Sprintf("MAX(-INT(0.000001-%[1]v*MIN(1,%[2]s)),-INT(0.000001-%[3]v*%[2]s))", n, grown, n*used/max(used, wellUsed))
	s.formula(3, estimated(fmt.Sprint(n), then), n, 1e-9, style{format: countFormat})
}

// foamSize writes how many of what size, before and after what is added.
func (q *quoting) foamSize(piece, part string, count int, from, cut foam.Block) {
	s, m := q.foam, q.m
	s.text(1, piece, style{wrap: true})
	s.text(2, part, style{wrap: true})
	s.countOf(q, 3, piece, part, count)
	sides := q.foamPlaces(piece, part)
	for k, l := range []unit.Length{from.Length, from.Width, from.Thickness} {
		q.sized(s, 4+k, sides[k], m.of(l), style{format: m.format(l)})
	}
	s.number(7, m.of(cut.Length-from.Length), style{format: m.exact})
	s.number(8, m.of(cut.Thickness-from.Thickness), style{format: m.exact})
}

// foamCost writes volume, price and cost of the row, and gives the cost. The volume
// of an outline is no product of three sides, so it stands as a figure.
func (q *quoting) foamCost(source, priced unit.Path, count int, from, cut foam.Block, all unit.Volume, outline bool) float64 {
	s, m := q.foam, q.m
	line := q.line(source)
	p, err := cost.PriceAs[unit.Volume](line.Exact.Price)
	if q.keep(err); err != nil {
		return 0
	}
	price := perOf(p)
	volume := float64(all) / price.quanta
	if outline {
		s.formula(9, fmt.Sprintf("%v*%s/%d", volume, at(3, s.row), count), volume, 1e-9*max(1, volume), style{format: twoFormat})
	} else {
		// A nanolitre is 1e15 cubic nanometres.
		cubes := price.quanta * 1e15 / (float64(m.length) * float64(m.length) * float64(m.length))
		face, thick := m.of(cut.Length-from.Length), m.of(cut.Thickness-from.Thickness)
		gives := float64(count) * (m.of(from.Length) + face) * (m.of(from.Width) + face) * (m.of(from.Thickness) + thick) / cubes
		s.native(9, fmt.Sprintf("%s*(%s+%s)*(%s+%s)*(%s+%s)/%v", at(3, s.row), at(4, s.row), at(7, s.row), at(5, s.row), at(7, s.row), at(6, s.row), at(8, s.row), cubes),
			gives, volume, math.Max(2/price.quanta*1e3, volume*1e-12), style{format: twoFormat})
	}
	s.text(10, price.text, style{gap: true})
	q.figureOf(s, 11, priced, 1, price.amount, style{format: "#,##0.00##"})
	want := figure(line.Cost)
	s.native(12, q.c.round(at(9, s.row)+"*"+at(11, s.row)), q.c.near(volume*price.amount, want), want, q.c.step(), q.money())
	q.foamRow[string(source)] = foamCells{s.of(fixed(9, s.row)), s.of(fixed(11, s.row))}
	return want
}

// foamPlaces are the places of width, depth and thickness of a cushion or a block.
func (q *quoting) foamPlaces(piece, part string) [3]unit.Path {
	at, i, ok := q.piece(piece)
	if !ok {
		return [3]unit.Path{}
	}
	here := unit.Path("")
	for k, c := range q.spec.Pieces[i].Cushions {
		if c.Name == part {
			here = at.Dot("cushions").At(k)
		}
	}
	for k, b := range q.spec.Pieces[i].Foam {
		if b.Name == part {
			here = at.Dot("foam").At(k)
		}
	}
	if here == "" {
		return [3]unit.Path{}
	}
	return [3]unit.Path{here.Dot("width"), here.Dot("depth"), here.Dot("thickness")}
}

// foamPrice is the place of the price of a block; none where sheets are shared, whose
// price several cells may say.
func (q *quoting) foamPrice(f job.FoamBlock) unit.Path {
	at, i, ok := q.piece(f.Piece)
	if !ok || len(q.order.Sheets) > 0 || f.Layer != "" {
		return ""
	}
	p := q.spec.Pieces[i]
	for k, c := range p.Cushions {
		if c.Name == f.Part {
			return at.Dot("cushions").At(k).Dot("foam.price")
		}
	}
	for k, b := range p.Foam {
		if b.Name == f.Part {
			return at.Dot("foam").At(k).Dot("filling.price")
		}
	}
	if p.From != "" {
		return at.Dot("filling.price")
	}
	return ""
}

// battingRow writes the sheets of batting round a part; the quote prices them.
func (q *quoting) battingRow(f job.FoamBlock) {
	s, w := q.foam, f.Wrap
	s.text(1, f.Piece, style{wrap: true})
	s.text(2, f.Part+", batting", style{wrap: true})
	s.number(3, float64(w.Sheets), style{format: countFormat})
	for k, l := range []unit.Length{w.Cut.Length, w.Cut.Around, w.Rule.Batting.Loft} {
		s.number(4+k, q.m.of(l), style{format: q.m.format(l)})
	}
	s.row++
}

// askFor words what to ask the merchant for.
func (q *quoting) askFor(x foam.Selection) string {
	firm, dense := x.Target.Force().Decimal(unit.PoundForce, 0, unit.Nearest), x.Density.Low.Decimal(unit.PoundPerCubicFoot, 1, unit.Nearest)
	if q.m.length == unit.Millimetre {
		firm, dense = x.Target.Force().Decimal(unit.Newton, 0, unit.Nearest), x.Density.Low.Decimal(unit.KilogramPerCubicMetre, 0, unit.Nearest)
	}
	ask := firm + " at 25 %, " + dense + " or more"
	if x.Request.Wet {
		ask = "reticulated or closed-cell, " + ask
	}
	return ask
}
