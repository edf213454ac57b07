package allowance_test

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// builder states a cover in the words of a shop. Sizes are inches.
type builder struct{ c allowance.Cover }

func tapeInches(x float64) unit.Length { return unit.Length(x * float64(unit.Inch)) }

func sure[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// sides reads sides: edges with + between.
func sides(texts ...string) []allowance.Side {
	var out []allowance.Side
	for _, t := range texts {
		var s allowance.Side
		if err := s.UnmarshalText([]byte(t)); err != nil {
			panic(err)
		}
		out = append(out, s)
	}
	return out
}

// panel adds a rectangle; names rename bottom, right, top and left.
func (b *builder) panel(name string, w, h float64, names ...string) *allowance.CoverPanel {
	o := sure(shape.Rectangle(tapeInches(w), tapeInches(h)))
	if len(names) > 0 {
		o = sure(o.Renamed(names...))
	}
	return b.outline(name, o)
}

func (b *builder) outline(name string, o shape.Outline) *allowance.CoverPanel {
	b.c.Panels = append(b.c.Panels, allowance.CoverPanel{Panel: allowance.Panel{Name: name, Outline: o}, Goods: "cloth"})
	return &b.c.Panels[len(b.c.Panels)-1]
}

func (b *builder) pair(name string, w, h float64, names ...string) {
	b.panel(name, w, h, names...).Pair = true
}

func (b *builder) sew(kind allowance.SeamKind, texts ...string) *allowance.Seam {
	s := allowance.Seam{Kind: kind, Sides: sides(texts...)}
	if kind == allowance.WeltedJoin {
		s.Cord, s.Welt = 5*unit.Inch/32, "cloth"
	}
	b.c.Seams = append(b.c.Seams, s)
	return &b.c.Seams[len(b.c.Seams)-1]
}

func (b *builder) plain(texts ...string)  { b.sew(allowance.PlainJoin, texts...) }
func (b *builder) welted(texts ...string) { b.sew(allowance.WeltedJoin, texts...) }

// fasten adds a fastening; what is turned below goes round a rail of 1 1/4 in.
func (b *builder) fasten(kind allowance.FasteningKind, side string, hidden ...string) *allowance.Fastening {
	f := allowance.Fastening{Kind: kind, Side: sides(side)[0], HiddenBy: hidden}
	if kind == allowance.TurnedBelow {
		f.Rail = 5 * unit.Inch / 4
	}
	b.c.Fastenings = append(b.c.Fastenings, f)
	return &b.c.Fastenings[len(b.c.Fastenings)-1]
}

func (b *builder) meet(first, second string) {
	b.c.Meets = append(b.c.Meets, allowance.Meet{Sides: []allowance.MeetSide{{Side: sides(first)[0]}, {Side: sides(second)[0]}}})
}

func (b *builder) trim(name string, length float64, hidden ...string) {
	b.c.Trims = append(b.c.Trims, allowance.Trim{Name: name, Length: tapeInches(length), Cord: 5 * unit.Inch / 32, Welt: "cloth", HiddenBy: hidden})
}

func (b *builder) add(prefix string, c allowance.Cover) { b.c = b.c.Joined(c.Nested(prefix)) }

// sewnGoods are the goods of the fixtures.
func sewnGoods() map[string]allowance.SewnGoods {
	limits := func(c allowance.EaseClass) allowance.EaseLimits { l, _ := c.Limits(); return l }
	return map[string]allowance.SewnGoods{
		"cloth":   {Ease: limits(allowance.FirmWoven), Heft: 69},
		"leather": {Ease: limits(allowance.FirmLeather), Heft: 92, Thickness: unit.Inch / 20},
		"lining":  {Ease: limits(allowance.FirmWoven), Heft: 46, TwoFaced: true},
		"vinyl":   {Ease: limits(allowance.FirmLeather), Heft: 92, Thickness: 45 * unit.Inch / 1000},
		"backing": {Ease: limits(allowance.FirmWoven), Thickness: 15 * unit.Inch / 1000, TwoFaced: true},
	}
}

// boxedCushion is 22 x 22 x 4 in with a zip of 35 in round the back.
func boxedCushion() allowance.Cover {
	var b builder
	for _, name := range []string{"top plate", "bottom plate"} {
		b.panel(name, 22, 22, "front", "right", "back", "left")
	}
	b.panel("boxing", 53, 4)
	b.panel("zip upper", 35, 2)
	b.panel("zip lower", 35, 2)
	b.sew(allowance.ZipJoin, "zip upper.bottom").Tape = "zip"
	b.sew(allowance.ZipJoin, "zip lower.top").Tape = "zip"
	b.plain("boxing.left", "zip lower.right + zip upper.right")
	b.plain("boxing.right", "zip upper.left + zip lower.left")
	round := func(p string) string {
		return strings.ReplaceAll("P.right from 15.5 in + P.back + P.left + P.front + P.right to 15.5 in", "P", p)
	}
	b.welted(round("top plate"), "boxing.top + zip upper.top")
	b.welted(round("bottom plate"), "boxing.bottom + zip lower.bottom")
	return b.c
}

func wingChair() allowance.Cover {
	var b builder
	b.panel("deck", 22, 20, "front", "right", "back", "left")
	b.panel("front border", 22, 8)
	b.outline("inside arm", sure(sure(shape.Polygon(corner(0, 0), corner(22, 0), corner(22, 12), corner(6, 12), corner(0, 12))).Renamed("bottom", "front", "outer", "rear top", "back"))).Pair = true
	b.pair("arm front", 4, 8, "bottom", "outer", "top", "inner")
	b.pair("inside wing", 6, 16, "bottom", "front", "top", "back")
	b.panel("inside back", 24, 28)
	b.pair("outside wing", 8, 18, "bottom", "back", "top", "front")
	b.pair("outside arm", 24, 12, "bottom", "back", "top", "front")
	b.panel("outside back", 26, 30)
	b.panel("dust cover", 24, 24)

	b.welted("deck.front", "front border.top")
	b.welted("arm front.top + arm front.inner", "inside arm.front")
	b.plain("inside arm.rear top", "inside wing.bottom")

	b.fasten(allowance.TurnedBelow, "front border.bottom")
	b.fasten(allowance.StapledFlat, "front border.right", "arm front left")
	b.fasten(allowance.StapledFlat, "front border.left", "arm front right")
	b.fasten(allowance.PushedThrough, "deck.right", "outside arm left")
	b.fasten(allowance.PushedThrough, "deck.left", "outside arm right")
	b.fasten(allowance.PushedThrough, "deck.back", "outside back")
	b.fasten(allowance.PushedThrough, "inside arm.bottom", "outside arm")
	through := b.fasten(allowance.PushedThrough, "inside arm.back", "outside back")
	through.Over, through.Hold = allowance.Exactly(3*unit.Inch), allowance.Exactly(unit.Inch)
	b.fasten(allowance.PulledOver, "inside arm.outer", "outside arm")
	b.fasten(allowance.PulledOver, "inside wing.front + inside wing.top", "outside wing")
	b.fasten(allowance.PushedThrough, "inside wing.back", "outside back")
	b.fasten(allowance.PulledOver, "inside back.top", "outside back")
	b.fasten(allowance.PushedThrough, "inside back.left", "outside back")
	b.fasten(allowance.PushedThrough, "inside back.right", "outside back")
	b.fasten(allowance.PushedThrough, "inside back.bottom", "outside back")
	b.fasten(allowance.StapledFlat, "arm front.outer", "outside arm")
	b.fasten(allowance.TurnedBelow, "arm front.bottom")
	b.fasten(allowance.ToothedStrip, "outside wing.top + outside wing.front")
	b.fasten(allowance.StapledFlat, "outside wing.bottom", "outside arm")
	b.fasten(allowance.StapledFlat, "outside wing.back", "outside back")
	b.fasten(allowance.BlindTacked, "outside arm.top")
	b.fasten(allowance.ToothedStrip, "outside arm.front")
	b.fasten(allowance.StapledFlat, "outside arm.back", "outside back")
	b.fasten(allowance.TurnedBelow, "outside arm.bottom")
	b.fasten(allowance.BlindTacked, "outside back.top")
	b.fasten(allowance.ToothedStrip, "outside back.left")
	b.fasten(allowance.ToothedStrip, "outside back.right")
	b.fasten(allowance.TurnedBelow, "outside back.bottom")
	b.fasten(allowance.FoldedIn, "dust cover.bottom + dust cover.right + dust cover.top + dust cover.left", "")
	b.c.Fastenings[len(b.c.Fastenings)-1].HiddenBy = nil

	b.trim("welt round wings and arms", 96, "outside wing", "outside arm")
	b.trim("welt round the back", 84, "outside back")
	b.add("seat cushion", boxedCushion())
	b.meet("inside back.bottom", "seat cushion.top plate.back")
	b.meet("front border.top", "seat cushion.boxing.bottom")
	b.meet("inside wing left.back", "inside back.right")
	b.meet("inside wing right.back", "inside back.left")
	return b.c
}

func corner(x, y float64) shape.Point { return shape.Point{X: tapeInches(x), Y: tapeInches(y)} }

// sofa has end cushions with one ear each, and a skirt.
func sofa() allowance.Cover {
	var b builder
	b.panel("deck", 72, 24, "front", "right", "back", "left")
	b.panel("front border", 72, 6)
	b.pair("inside arm", 24, 14, "bottom", "front", "top", "back")
	b.pair("arm front", 5, 14, "bottom", "outer", "top", "inner")
	b.panel("inside back", 72, 26)
	b.pair("outside arm", 30, 20, "bottom", "back", "top", "front")
	b.panel("outside back", 76, 30)
	b.panel("dust cover", 70, 28)
	b.panel("skirt", 72, 7)
	b.panel("skirt lining", 72, 6)
	b.plain("deck.front", "front border.top")
	b.welted("front border.bottom", "skirt.top")
	b.plain("skirt.bottom", "skirt lining.bottom")
	for _, p := range []string{"skirt", "skirt lining"} {
		b.fasten(allowance.Hemmed, p+".left")
		b.fasten(allowance.Hemmed, p+".right")
	}
	b.fasten(allowance.Hemmed, "skirt lining.top")
	b.fasten(allowance.StapledFlat, "front border.right", "arm front left")
	b.fasten(allowance.StapledFlat, "front border.left", "arm front right")
	b.fasten(allowance.PushedThrough, "deck.right", "outside arm left")
	b.fasten(allowance.PushedThrough, "deck.left", "outside arm right")
	b.fasten(allowance.PushedThrough, "deck.back", "outside back")
	b.fasten(allowance.PushedThrough, "inside arm.bottom", "outside arm")
	b.fasten(allowance.PushedThrough, "inside arm.back", "outside back")
	b.fasten(allowance.PulledOver, "inside arm.top", "outside arm")
	b.fasten(allowance.StapledFlat, "inside arm.front", "arm front")
	b.fasten(allowance.FoldedIn, "arm front.bottom + arm front.outer + arm front.top + arm front.inner")
	b.fasten(allowance.PulledOver, "inside back.top", "outside back")
	for _, e := range []string{"left", "right", "bottom"} {
		b.fasten(allowance.PushedThrough, "inside back."+e, "outside back")
	}
	outsides(&b)
	b.add("centre cushion", boxedCushion())
	b.add("end cushion", earedCushion())
	b.meet("end cushion.top plate.back left", "inside back.bottom from 2 in to 26 in")
	return b.c
}

// outsides fastens outside arms, outside back and dust cover.
func outsides(b *builder) {
	b.fasten(allowance.BlindTacked, "outside arm.top")
	b.fasten(allowance.ToothedStrip, "outside arm.front")
	b.fasten(allowance.StapledFlat, "outside arm.back", "outside back")
	b.fasten(allowance.TurnedBelow, "outside arm.bottom")
	b.fasten(allowance.BlindTacked, "outside back.top")
	b.fasten(allowance.ToothedStrip, "outside back.left")
	b.fasten(allowance.ToothedStrip, "outside back.right")
	b.fasten(allowance.TurnedBelow, "outside back.bottom")
	b.fasten(allowance.FoldedIn, "dust cover.bottom + dust cover.right + dust cover.top + dust cover.left")
}

// earedCushion is a pair of end cushions: an L with one ear, knife edged with a
// zip in the back.
func earedCushion() allowance.Cover {
	var b builder
	// seen from above, front below: the ear lies at the front on the left
	ell := sure(sure(shape.Polygon(corner(0, 0), corner(28, 0), corner(28, 24), corner(4, 24), corner(4, 4), corner(0, 4))).Renamed("front", "inner", "back left", "outer", "ear back", "ear end"))
	b.outline("top plate", ell).Pair = true
	b.outline("bottom plate", sure(ell.Mirrored().Renamed("ear end", "ear back", "outer", "back left", "inner", "front"))).Pair = true
	b.sew(allowance.ZipJoin, "top plate.back left", "bottom plate.back left")
	b.welted("top plate.outer + top plate.ear back + top plate.ear end + top plate.front + top plate.inner",
		"bottom plate.inner + bottom plate.front + bottom plate.ear end + bottom plate.ear back + bottom plate.outer")
	return b.c
}

func dropIn() allowance.Cover {
	var b builder
	b.panel("seat", 20, 18)
	b.panel("dust cover", 18, 16)
	for _, e := range []string{"top", "bottom", "left", "right"} {
		f := b.fasten(allowance.PulledOver, "seat."+e, "dust cover")
		f.Over = allowance.Exactly(11 * unit.Inch / 4)
	}
	b.fasten(allowance.FoldedIn, "dust cover.bottom + dust cover.right + dust cover.top + dust cover.left")
	return b.c
}

func barrelChair() allowance.Cover {
	var b builder
	b.panel("deck", 22, 20, "front", "right", "back", "left")
	b.panel("front border", 22, 8)
	b.panel("inside back", 43.9, 16)
	b.panel("top band", 43.5, 4, "inner", "right", "outer", "left")
	b.pair("arm front", 4, 16, "bottom", "outer", "top", "inner")
	b.panel("outside back", 56, 24)
	b.welted("deck.front", "front border.top")
	b.plain("inside back.top", "top band.inner")
	b.plain("top band.right", "arm front left.top")
	b.plain("top band.left", "arm front right.top")
	b.welted("inside back.right", "arm front left.inner")
	b.welted("inside back.left", "arm front right.inner")
	b.fasten(allowance.PushedThrough, "inside back.bottom", "outside back")
	b.fasten(allowance.PulledOver, "top band.outer", "outside back")
	b.fasten(allowance.StapledFlat, "arm front.outer", "outside back")
	for _, p := range []string{"arm front", "front border", "outside back"} {
		b.fasten(allowance.TurnedBelow, p+".bottom")
	}
	b.fasten(allowance.StapledFlat, "front border.right", "arm front left")
	b.fasten(allowance.StapledFlat, "front border.left", "arm front right")
	b.fasten(allowance.PushedThrough, "deck.right + deck.back + deck.left", "outside back")
	b.fasten(allowance.BlindTacked, "outside back.top")
	b.fasten(allowance.ToothedStrip, "outside back.left")
	b.fasten(allowance.ToothedStrip, "outside back.right")
	return b.c
}

// channelBooth has five channels sewn to a lining.
func channelBooth() allowance.Cover {
	var b builder
	const n = 5
	lining := b.panel("lining", 40, 24)
	lining.Goods = "lining"
	for i := 1; i < n; i++ {
		x := float64(8 * i)
		lining.Lines = append(lining.Lines, allowance.InnerLine{Name: "line " + string(rune('0'+i)), From: corner(x, 0), To: corner(x, 24)})
	}
	for i := range n {
		b.panel("channel "+string(rune('a'+i)), 9, 24)
	}
	b.panel("seat", 40, 20, "front", "right", "back", "left")
	b.panel("seat border", 40, 6)
	b.pair("end panel", 20, 30)
	for i := 1; i < n; i++ {
		b.plain("channel "+string(rune('a'+i-1))+".right", "channel "+string(rune('a'+i))+".left", "lining.line "+string(rune('0'+i)))
	}
	b.fasten(allowance.PulledOver, "channel a.left", "end panel right")
	b.fasten(allowance.PulledOver, "channel e.right", "end panel left")
	for i := range n {
		c := "channel " + string(rune('a'+i))
		b.fasten(allowance.PulledOver, c+".top")
		b.fasten(allowance.PushedThrough, c+".bottom")
	}
	for _, e := range []string{"top", "bottom", "left", "right"} {
		b.fasten(allowance.StapledFlat, "lining."+e)
		b.fasten(allowance.FoldedIn, "end panel."+e)
	}
	b.sew(allowance.DoubleTopStitchedJoin, "seat.front", "seat border.top")
	b.fasten(allowance.TurnedBelow, "seat border.bottom")
	b.fasten(allowance.StapledFlat, "seat border.left", "end panel right")
	b.fasten(allowance.StapledFlat, "seat border.right", "end panel left")
	b.fasten(allowance.StapledFlat, "seat.left", "end panel right")
	b.fasten(allowance.StapledFlat, "seat.right", "end panel left")
	b.fasten(allowance.StapledFlat, "seat.back")
	b.meet("channel c.bottom", "seat.back")
	return b.c
}

func ottoman() allowance.Cover {
	var b builder
	b.panel("top", 24, 18, "front", "right", "back", "left")
	b.panel("boxing long", 24, 6).Count = 2
	b.panel("boxing short", 18, 6).Count = 2
	b.panel("dust cover", 23, 17)
	b.plain("boxing long 1.right", "boxing short 1.left")
	b.plain("boxing short 1.right", "boxing long 2.left")
	b.plain("boxing long 2.right", "boxing short 2.left")
	b.plain("boxing short 2.right", "boxing long 1.left")
	b.welted("top.front + top.right + top.back + top.left",
		"boxing short 2.top + boxing long 2.top + boxing short 1.top + boxing long 1.top")
	b.fasten(allowance.TurnedBelow, "boxing long.bottom", "dust cover")
	b.fasten(allowance.TurnedBelow, "boxing short.bottom", "dust cover")
	b.fasten(allowance.FoldedIn, "dust cover.bottom + dust cover.right + dust cover.top + dust cover.left")
	return b.c
}

func knifeEdge() allowance.Cover {
	var b builder
	b.panel("face", 18, 18)
	b.panel("back", 18, 18)
	zip := b.sew(allowance.ZipJoin, "face.bottom from 1.5 in to 16.5 in", "back.bottom from 1.5 in to 16.5 in")
	zip.Allowance = allowance.Exactly(unit.Inch / 2)
	b.plain("face.bottom to 1.5 in", "back.bottom from 16.5 in")
	b.plain("face.bottom from 16.5 in", "back.bottom to 1.5 in")
	b.sew(allowance.TopStitchedJoin, "face.right + face.top + face.left", "back.right + back.top + back.left").Row = unit.Inch / 4
	return b.c
}

// bolster is 20 in long and about 7 in through.
func bolster() allowance.Cover {
	var b builder
	round := sure(shape.Circle(7 * unit.Inch))
	girth := sure(round.EdgeLength(round.Edges()[0]))
	body := sure(sure(shape.Rectangle(20*unit.Inch, girth)).Renamed("near", "right", "far", "left"))
	b.outline("body", body)
	end := b.outline("end", round)
	end.Count = 2
	b.sew(allowance.ZipJoin, "body.near", "body.far")
	b.welted("body.right", "end 1."+round.Edges()[0])
	b.welted("body.left", "end 2."+round.Edges()[0])
	return b.c
}

// motorSeat is a seat of inserts, sides, nose and rear on a pan.
func motorSeat() allowance.Cover {
	var b builder
	b.panel("insert", 10, 14)
	b.panel("rider insert", 10, 10)
	b.pair("side", 24, 6, "bottom", "rear", "inner", "front")
	b.panel("nose", 10, 5)
	b.pair("nose cheek", 5, 6, "bottom", "rear", "inner", "front")
	b.panel("tail", 10, 5)
	for i := range b.c.Panels {
		b.c.Panels[i].Goods = "vinyl"
	}
	b.sew(allowance.TopStitchedJoin, "insert.top", "rider insert.bottom")
	b.plain("insert.bottom", "nose.top")
	b.plain("rider insert.top", "tail.bottom")
	// The left side lies at the right as drawn, its front towards the nose: its
	// inner edge runs from rear to front.
	b.sew(allowance.DoubleTopStitchedJoin, "insert.right + rider insert.right", "side left.inner")
	b.sew(allowance.DoubleTopStitchedJoin, "rider insert.left + insert.left", "side right.inner")
	b.plain("nose cheek.rear", "side.front")
	b.plain("nose.right", "nose cheek left.inner")
	b.plain("nose.left", "nose cheek right.inner")
	for _, side := range []string{"side.bottom", "side.rear", "nose cheek.bottom", "nose cheek.front", "nose.bottom", "tail.top", "tail.left", "tail.right"} {
		f := b.fasten(allowance.PulledOver, side)
		f.Over = allowance.Exactly(unit.Inch)
	}
	return b.c
}

// marine is a pair of L-shaped cushions with boxing and a zip along the hull.
func marine() allowance.Cover {
	var b builder
	ell := sure(sure(shape.Polygon(corner(0, 0), corner(60, 0), corner(60, 22), corner(24, 22), corner(24, 44), corner(0, 44))).Renamed("front", "end", "inner long", "inner short", "back", "hull"))
	b.outline("top plate", ell).Pair = true
	b.outline("bottom plate", sure(ell.Mirrored().Renamed("hull", "back", "inner short", "inner long", "end", "front"))).Pair = true
	b.pair("boxing", 158, 4)
	b.pair("zip upper", 50, 2)
	b.pair("zip lower", 50, 2)
	for i := range b.c.Panels {
		b.c.Panels[i].Goods = "vinyl"
	}
	b.sew(allowance.ZipJoin, "zip upper.bottom").Tape = "zip"
	b.sew(allowance.ZipJoin, "zip lower.top").Tape = "zip"
	b.plain("boxing.left", "zip lower.right + zip upper.right")
	b.plain("boxing.right", "zip upper.left + zip lower.left")
	// The zip lies on the hull and 3 in round both its ends.
	b.sew(allowance.TopStitchedJoin,
		"top plate.back from 21 in + top plate.hull + top plate.front + top plate.end + top plate.inner long + top plate.inner short + top plate.back to 21 in",
		"boxing.top + zip upper.top")
	b.sew(allowance.TopStitchedJoin,
		"bottom plate.front from 57 in + bottom plate.hull + bottom plate.back + bottom plate.inner short + bottom plate.inner long + bottom plate.end + bottom plate.front to 57 in",
		"boxing.bottom + zip lower.bottom")
	return b.c
}

// slipCover covers a small armless chair: everything sewn, nothing stapled.
func slipCover() allowance.Cover {
	var b builder
	b.panel("inside back", 20, 24)
	b.panel("outside back", 20, 40)
	b.panel("seat", 20, 20, "front", "right", "back", "left")
	b.panel("front border", 20, 10)
	b.pair("side", 20, 10)
	b.panel("skirt", 80, 6)
	b.welted("inside back.top", "outside back.top")
	b.plain("inside back.bottom", "seat.back")
	b.welted("seat.front", "front border.top")
	b.welted("seat.right", "side left.top")
	b.welted("seat.left", "side right.top")
	b.plain("front border.right", "side left.left")
	b.plain("front border.left", "side right.left")
	// behind, the outside back hangs past the seat; one corner opens on a zip
	b.welted("inside back.right", "outside back.left to 24 in")
	b.welted("inside back.left", "outside back.right from 16 in to 40 in")
	b.sew(allowance.ZipJoin, "side left.right", "outside back.left from 24 in to 34 in")
	b.plain("side right.right", "outside back.right from 6 in to 16 in")
	b.fasten(allowance.Hemmed, "outside back.left from 34 in")
	b.fasten(allowance.Hemmed, "outside back.right to 6 in")
	b.fasten(allowance.Hemmed, "outside back.bottom")
	b.c.Panels[len(b.c.Panels)-1].Outline = sure(shape.Rectangle(60*unit.Inch, 6*unit.Inch))
	b.welted("side right.bottom + front border.bottom + side left.bottom", "skirt.top")
	for _, e := range []string{"left", "right", "bottom"} {
		b.fasten(allowance.Hemmed, "skirt."+e)
	}
	return b.c
}
