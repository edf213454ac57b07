package thread

import (
	"cmp"
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
)

// Member is what a needle passes in one row of stitching: layers of one kind of
// goods, or padding.
type Member struct {
	// Goods of the layers; none for padding.
	Goods Goods `json:"goods"`
	// Layers under the needle, 1 to 20. Required.
	Layers int `json:"layers"`
	// Thickness of one layer, up to 50 mm; it decides between members that ask
	// for the same thread.
	Thickness unit.Length `json:"thickness,omitempty"`
	// Padding is foam, batting or tape: it never chooses the thread.
	Padding bool `json:"padding,omitempty"`
}

// SeamNeed asks for the thread of one row of stitching through all its members.
type SeamNeed struct {
	// Members under the needle, in any order. Required. Cord lies beside the
	// needle and is none.
	Members []Member `json:"members"`
	// Layers at any one place, 1 to 20; zero takes those of all members
	// together. A side that changes its goods on the way has more members than
	// lie under the needle at once.
	Layers int `json:"layers,omitempty"`
	// Purpose of the stitching; the zero value is a seam.
	Purpose Purpose `json:"purpose"`
	// Exposure is where the piece will live; the zero value is indoors.
	Exposure Exposure `json:"exposure"`
	// SeamSize is the thread of the seam that is top-stitched, where it is
	// known; for top-stitching only.
	SeamSize Size `json:"seam_size,omitempty"`
	// Size, fibre, needle and stitch length when they are given; zero lets
	// RecommendSeam choose.
	Size         Size        `json:"size,omitempty"`
	Fibre        Fibre       `json:"fibre,omitempty"`
	Needle       Needle      `json:"needle,omitempty"`
	StitchLength unit.Length `json:"stitch_length,omitempty"`
}

// RecommendSeam gives the one thread, needle and stitch of a row of stitching.
// With each member taken as if it were sewn alone, through all the layers of
// the row,
//
//	decides        the member that asks for the largest thread; of equals the
//	               thickest, then the later of the list of Goods
//	thread, needle those of the member that decides
//	point          cutting when any member is leather, round for different
//	               goods without leather, else the usual one of the goods
//	stitch length  the longest that any coated or leather member asks for,
//	               else the shortest; usual is the range of that goods, of
//	               different cloths all from the longest to the shortest
//	top-stitching  thread the next size over the seam's, of its own stitch
//	               length
//	bobbin         as the needle thread; in top-stitching one size less will do
//	layers         the sum, unless it is given
//
// all of it common practice. What is given is kept, and Flags says what does not
// go together. Errors are *unit.InputError values that name the field, such as
// members[1].goods, and wrap unit.ErrUnknown, unit.ErrRange, unit.ErrRequired
// or unit.ErrForgottenUnit.
func RecommendSeam(n SeamNeed) (Recommendation, error) {
	layers, err := n.check()
	if err != nil {
		return Recommendation{}, err
	}
	need := Need{Layers: layers, Purpose: n.Purpose, Exposure: n.Exposure, Fibre: n.Fibre, Needle: n.Needle}
	var heavy Member
	var out Recommendation
	for _, m := range n.Members {
		if m.Padding {
			continue
		}
		need.Goods = m.Goods
		a, err := Recommend(need)
		if err != nil {
			return Recommendation{}, err
		}
		if alone := a.Best(); heavy.Goods == 0 || heavy.less(out.Thread.Size, m, alone.Thread.Size) {
			heavy, out = m, alone
		}
	}
	if need.Size = n.size(); need.Size != 0 {
		need.Goods = heavy.Goods
		a, err := Recommend(need)
		if err != nil {
			return Recommendation{}, err
		}
		out = a.Best()
	}
	mixed := n.mixed()
	out.Reason = n.reason(out.Reason, heavy.Goods, mixed)
	n.point(&out, mixed)
	n.stitch(&out, layers)
	return out, nil
}

// less tells whether m, which asks for size s, comes behind o in deciding.
func (m Member) less(s Size, o Member, size Size) bool {
	return cmp.Or(cmp.Compare(s, size), cmp.Compare(m.Thickness, o.Thickness), cmp.Compare(m.Goods, o.Goods)) < 0
}

// size is the size that does not depend on the members, zero when they choose.
func (n SeamNeed) size() Size {
	if n.Size == 0 && n.SeamSize != 0 {
		return n.SeamSize.Next()
	}
	return n.Size
}

// mixed tells whether the row goes through different kinds of goods.
func (n SeamNeed) mixed() bool {
	var first Goods
	for _, m := range n.Members {
		switch {
		case m.Padding:
		case first == 0:
			first = m.Goods
		case m.Goods != first:
			return true
		}
	}
	return false
}

// reason names the member that decided.
func (n SeamNeed) reason(alone string, g Goods, mixed bool) string {
	switch {
	case n.Size != 0:
		alone = "size as given"
		if mixed {
			alone += "; needle for the " + g.words()
		}
	case n.SeamSize != 0:
		alone = fmt.Sprintf("one step over the %v of the seam, to be seen", n.SeamSize)
		if mixed {
			alone += "; needle for the " + g.words()
		}
	case mixed:
		alone = "the " + g.words() + " decides: " + alone
	}
	return alone
}

// words names the goods in a sentence.
func (g Goods) words() string {
	if g == LightWoven || g == Woven {
		return g.String() + " cloth"
	}
	return g.String()
}

var roundForAll = practice("round for different goods without leather")

func (n SeamNeed) point(p *Recommendation, mixed bool) {
	var leather Goods
	for _, m := range n.Members {
		if m.Goods.leathery() {
			leather = max(leather, m.Goods)
		}
	}
	switch {
	case leather != 0:
		p.Point, p.PointBasis, p.RoundWillDo = usualPoints[leather-1].point, usualPoints[leather-1].basis, false
	case mixed:
		p.Point, p.PointBasis, p.RoundWillDo = RoundPoint, roundForAll, true
	}
}

// stitch sets the stitch length.
func (n SeamNeed) stitch(p *Recommendation, layers int) {
	var asks Goods
	for _, m := range n.Members {
		if !m.Padding && (asks == 0 || m.Goods.stitchBefore(asks, n.Purpose, layers)) {
			asks = m.Goods
		}
	}
	d := &densities[asks-1]
	length := d.length(n.Purpose, layers)
	if n.StitchLength != 0 {
		length = n.StitchLength
	}
	usual := d.StitchRange
	if !asks.keepsHoles() {
		for _, m := range n.Members {
			if !m.Padding {
				usual = usual.with(densities[m.Goods-1].StitchRange)
			}
		}
	}
	p.stitch(usual, length)
}

var severalCloths = practice("of different cloths")

// with gives a range that holds both.
func (r StitchRange) with(o StitchRange) StitchRange {
	if o.From >= r.From && o.To <= r.To {
		return r
	}
	return StitchRange{min(r.From, o.From), max(r.To, o.To), severalCloths}
}

// stitchBefore tells whether g comes before o in choosing the stitch length.
func (g Goods) stitchBefore(o Goods, p Purpose, layers int) bool {
	if g.keepsHoles() != o.keepsHoles() {
		return g.keepsHoles()
	}
	longer := cmp.Compare(densities[g-1].length(p, layers), densities[o-1].length(p, layers))
	if !g.keepsHoles() {
		longer = -longer
	}
	return cmp.Or(longer, cmp.Compare(g, o)) > 0
}

// keepsHoles tells whether stitches must stand apart in the goods.
func (g Goods) keepsHoles() bool { return g.leathery() || g == Vinyl }

func (n SeamNeed) check() (layers int, err error) {
	if err := check.Count("number of members", len(n.Members), 1, 1000); err != nil {
		return 0, err
	}
	choose := false
	for i, m := range n.Members {
		if err := m.check(); err != nil {
			return 0, unit.InField(check.At[unit.Path]("members", i), err)
		}
		layers += m.Layers
		choose = choose || !m.Padding
	}
	if !choose {
		return 0, check.Required("members", "goods that are not padding")
	}
	if n.Layers != 0 {
		layers = n.Layers
	}
	if err := check.Count("layers", layers, 1, 20); err != nil {
		return 0, err
	}
	if err := enum.Check(n.Purpose, "purpose", purposeNames); err != nil {
		return 0, err
	}
	if n.SeamSize != 0 {
		if n.Purpose != TopStitch {
			return 0, check.Refuse("seam_size", n.SeamSize.String(), unit.ErrRange, "for top-stitching only")
		}
		if err := n.SeamSize.check("seam_size"); err != nil {
			return 0, err
		}
	}
	if n.StitchLength != 0 {
		return layers, check.Length("stitch_length", n.StitchLength, shortestStitch, longestStitch)
	}
	return layers, nil
}

func (m Member) check() error {
	if m.Padding && m.Goods != 0 {
		return check.Refuse("goods", m.Goods.String(), unit.ErrRange, "none for padding")
	}
	if !m.Padding {
		if err := m.Goods.check("goods"); err != nil {
			return err
		}
	}
	if err := check.Count("layers", m.Layers, 1, 20); err != nil {
		return err
	}
	return check.Length("thickness", m.Thickness, 0, thickest)
}
