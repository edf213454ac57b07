package bench

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// hundredths is a span in hundredths of an hour, as tables of the trade write it.
type hundredths [2]unit.Duration

func (h hundredths) span() Span {
	return Span{h[0] * unit.Hour / 100, h[1] * unit.Hour / 100}
}

func minutes(from, to unit.Duration) Span { return Span{from * unit.Minute, to * unit.Minute} }

// Usual gives the table of the trade: hours of one practised worker who waits for
// nothing, in plain cloth. Common practice, put together from no one shop; a slip
// cover is from memory, and so are errands, a visit each, with the way within a town.
func Usual() Table {
	return Table{Pieces: usualPieces(), Extras: usualExtras(), Goods: usualGoods(), Match: Factor{0.10, 0.30}, Errands: usualErrands()}
}

// Names of extras that rows hold.
const (
	deepButton = "deep button"
	singleWelt = "single welt"
	coilSeat   = "coil seat"
)

func usualPieces() []Piece {
	row := func(name, note string, strip, frame, pad, cut, sew, cover, finish hundredths, holds ...Held) Piece {
		return Piece{Name: name, Note: note, Holds: holds, Basis: cite.Practice(""), Strip: strip.span(), Frame: frame.span(), Pad: pad.span(),
			Cut: cut.span(), Sew: sew.span(), Cover: cover.span(), Finish: finish.span()}
	}
	made := func(p Piece) Piece { p.Made = true; return p }
	remembered := func(p Piece) Piece { p.Basis = cite.Memory(""); return p }
	foot := func(p Piece) Piece { p.Per = unit.Foot; return p }
	type h = hundredths
	none := h{}
	coils := Held{Extra: coilSeat, Upper: true}
	return []Piece{ //       strip       frame       pad         cut         sew         cover       finish
		row("drop-in seat", "", h{15, 40}, h{0, 50}, h{10, 30}, h{5, 15}, none, h{20, 50}, h{5, 15}),
		row("dining side chair", "seat and back", h{50, 100}, h{25, 100}, h{25, 75}, h{25, 50}, h{0, 75}, h{100, 200}, h{25, 75}),
		row("ottoman", "boxed top", h{25, 75}, h{0, 100}, h{25, 75}, h{25, 50}, h{50, 125}, h{75, 150}, h{25, 50}),
		row("club chair", "one cushion", h{100, 200}, h{50, 400}, h{100, 200}, h{100, 150}, h{150, 300}, h{300, 500}, h{75, 150}, coils),
		row("wing chair", "", h{125, 250}, h{50, 400}, h{100, 250}, h{100, 200}, h{150, 300}, h{400, 700}, h{100, 200}, coils),
		row("loveseat", "", h{150, 300}, h{75, 500}, h{150, 300}, h{150, 250}, h{250, 450}, h{400, 700}, h{100, 200}, coils),
		row("sofa", "three seats", h{200, 400}, h{100, 700}, h{200, 400}, h{200, 300}, h{300, 600}, h{500, 900}, h{100, 250}, coils),
		row("chaise", "", h{125, 250}, h{75, 500}, h{150, 300}, h{100, 200}, h{150, 350}, h{350, 600}, h{75, 150}, coils),
		made(row("boxed cushion", "zip and welt", h{0, 10}, none, h{15, 35}, h{20, 40}, h{75, 150}, h{10, 25}, h{5, 15}, Held{Extra: singleWelt})),
		made(row("bolster", "", none, none, h{10, 25}, h{15, 30}, h{50, 125}, h{10, 20}, h{5, 10})),
		row("headboard", "about 40 deep buttons", h{25, 75}, h{0, 50}, h{100, 200}, h{75, 150}, h{0, 150}, h{400, 900}, h{50, 100}, Held{Extra: deepButton, Count: 40}),
		foot(row("booth", "a running foot, seat and back", h{10, 30}, h{0, 20}, h{10, 25}, h{10, 20}, h{15, 50}, h{25, 60}, h{5, 15})),
		row("motorcycle seat", "", h{25, 50}, h{0, 50}, h{50, 250}, h{25, 75}, h{75, 250}, h{50, 125}, h{10, 25}),
		row("car bucket seat", "", h{100, 200}, h{0, 100}, h{50, 150}, h{75, 150}, h{200, 500}, h{100, 250}, h{25, 75}),
		made(row("boat cushion", "boxed", h{5, 10}, none, h{15, 40}, h{25, 50}, h{75, 175}, h{10, 30}, h{5, 20})),
		remembered(made(row("slip cover", "of a chair without arms", none, none, none, h{75, 150}, h{150, 300}, h{25, 75}, h{15, 40}))),
	}
}

func usualExtras() []Extra {
	each := func(name, note string, t Task, from, to unit.Duration) Extra {
		return Extra{Name: name, Note: note, Task: t, Time: minutes(from, to), Basis: cite.Practice("")}
	}
	foot := func(name, note string, t Task, from, to unit.Duration) Extra {
		e := each(name, note, t, from, to)
		e.Per = unit.Foot
		return e
	}
	return []Extra{
		each("shallow button", "", Cover, 3, 6),
		each(deepButton, "diamond, folds laid", Cover, 8, 15),
		each("channel", "sewn and filled", Sew, 10, 20),
		foot(singleWelt, "made and sewn", Sew, 2, 4),
		foot("double welt", "glued", Finish, 3, 5),
		foot("spaced nails", "", Finish, 3, 6),
		foot("close nails", "head to head", Finish, 10, 15),
		foot("skirt", "lined", Sew, 8, 15),
		foot("hand-sewn edge", "", Cover, 6, 10),
		each(coilSeat, "of a chair, eight ties", Frame, 3*60, 6*60),
	}
}

func usualGoods() []Goods {
	row := func(name string, from, to unit.Ratio) Goods {
		return Goods{Name: name, Factor: Factor{from, to}, Basis: cite.Practice("")}
	}
	return []Goods{
		row("leather", 1.25, 1.5),
		row("vinyl", 1.05, 1.2),
		row("velvet", 1.05, 1.2),
		row("slippery goods", 1.05, 1.2),
		row("stretch goods", 1.05, 1.2),
	}
}

func usualErrands() []Errand {
	row := func(t Task, from, to unit.Duration) Errand {
		return Errand{Task: t, Time: minutes(from, to), Basis: cite.Memory("")}
	}
	return []Errand{
		row(Measure, 30, 90),
		row(Quote, 20, 60),
		row(Order, 15, 45),
		row(Collect, 30, 90),
		row(Deliver, 30, 90),
		row(Set, 15, 60),
	}
}
