package material

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PartShare is the share of a skin that one of its parts takes.
type PartShare struct {
	Part  string     `json:"part"`
	Share unit.Ratio `json:"share"` // of the area of the whole skin
	Basis cite.Basis `json:"basis"`
}

const bookbinding = "BOOKBINDING-DICTIONARY"

var partShares = []PartShare{
	{"bellies", 0.23, cite.In(bookbinding, "both, cut parallel to the backbone, shanks included")},
	{"crops", 0.77, cite.Basis{Status: cite.Derived, Source: bookbinding, Note: "a hide less its bellies"}},
	{"butt", 0.13, cite.Practice("map of value for shoe uppers")},
	{"bend", 0.30, cite.Practice("map of value for shoe uppers")},
	{"shoulder", 0.32, cite.Practice("map of value for shoe uppers")},
	{"head and belly", 0.25, cite.Practice("map of value for shoe uppers")},
}

// PartShares gives the shares of the parts of a cattle hide: bellies and crops
// by one source; butt, bend, shoulder, head and belly by another, which
// together are a whole hide. The two do not agree in detail.
func PartShares() []PartShare { return append([]PartShare(nil), partShares...) }

// Of gives the area of the part in a skin of an area from zero: share × area,
// to the nearest quantum. It wraps unit.ErrRange.
func (p PartShare) Of(area unit.Area) (unit.Area, error) {
	if err := check.Between("area", area, 0, mostSkin); err != nil {
		return 0, err
	}
	if err := check.Ratio("share", p.Share, 0, 1); err != nil {
		return 0, err
	}
	return area.Scale(p.Share, unit.Nearest)
}

// PartNote says what a part of a skin is like, or how skins are cut.
type PartNote struct {
	Part  string     `json:"part"`
	Text  string     `json:"text"`
	Basis cite.Basis `json:"basis"`
}

var partNotes = []PartNote{
	{"butt", "stoutest and firmest, least stretch: what is worn most", cite.Practice("shoe trade: selection of skins")},
	{"ribs", "as good as the butt", cite.Practice("shoe trade: selection of skins")},
	{"shoulder", "fine and firm but lighter; growth marks are common", cite.Practice("shoe trade: selection of skins")},
	{"neck", "stout, often veiny, coarser in male skins", cite.Practice("shoe trade: selection of skins")},
	{"belly", "less firm than the shoulder, stretchy", cite.Practice("shoe trade: selection of skins")},
	{"flank", "soft and loose: outside backs and faces that are not sat on; a first pull across the fibres may crack the finish", cite.Practice("upholstery")},
	{"whole skin", "one as long as it is wide cuts better than a long narrow one", cite.Practice("shoe trade: selection of skins")},
	{"seats and inside backs", "from the prime", cite.Practice("upholstery")},
	{"outside arms, outside backs, hidden bands", "from the edges", cite.Practice("upholstery")},
}

// PartNotes says what the parts of a skin are like and what is cut from them.
func PartNotes() []PartNote { return append([]PartNote(nil), partNotes...) }

var stretchNotes = []PartNote{
	{"whole skin", "leather gives most across its lines of tightness, at a right angle", cite.Practice("shoe trade: stretchiness and tightness")},
	{"whole skin", "lines of tightness lie much alike in all animals, but how much they matter depends on substance, quality and tanning", cite.Practice("shoe trade: stretchiness and tightness")},
	{"prime parts", "in firm leather and in the prime the direction matters least", cite.Practice("shoe trade: stretchiness and tightness")},
	{"poorer parts", "in stretchy leather and in the poorer parts keep strictly to the lines of tightness", cite.Practice("shoe trade: stretchiness and tightness")},
	{"pairs", "cut the two of a pair so that they stretch alike on opposite sides", cite.Practice("shoe trade: stretchiness and tightness")},
}

// StretchNotes gives the rules of tightness and stretch. Where the lines run on
// a skin is not tabled: pull it by hand, and enter what you find as its
// StretchRegions.
func StretchNotes() []PartNote { return append([]PartNote(nil), stretchNotes...) }

// StretchAcross gives the direction of most stretch for a line of tightness:
// tightness + 90 degrees, brought to 0 up to 180 (common practice, see
// StretchNotes). Directions within two turns; it wraps unit.ErrRange or
// unit.ErrNotFinite.
func StretchAcross(tightness unit.Angle) (unit.Angle, error) {
	if err := check.Angle("tightness", tightness); err != nil {
		return 0, err
	}
	d := math.Mod(float64(tightness)+90, 180)
	if d < 0 {
		d += 180
	}
	return unit.Angle(d), nil
}
