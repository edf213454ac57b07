package thread

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Specified is what a published specification demands of one thread size.
// These are other threads than the bonded ones of the size table; they show
// how strength and yield go with size, and found the government letter sizes.
type Specified struct {
	// Document is the key of the source, see cite.Lookup.
	Document string `json:"document"`
	// Kind of thread in plain words.
	Kind string `json:"kind"`
	// Size as the document designates it: "tex 70", "letter FF", "3 cord",
	// "20/4".
	Size string `json:"size"`
	// MinStrength is the least breaking strength.
	MinStrength Cell[unit.Force] `json:"min_strength"`
	// MinYield is the least length per mass, held as the count that just
	// meets it; LinearDensity.YardsPerPound gives it as printed.
	MinYield Cell[unit.LinearDensity] `json:"min_yield"`
	// Nominal count as the document states it: the tex of the label, or the
	// count of a nominal length per mass.
	Nominal Cell[unit.LinearDensity] `json:"nominal"`
	// Yarn is the count of all plies together and Plies their number.
	Yarn  Cell[unit.LinearDensity] `json:"yarn"`
	Plies Cell[int]                `json:"plies"`
}

// SpecFor gives the entry of a document for a size. It wraps unit.ErrUnknown.
func SpecFor(document, kind, size string) (Specified, error) {
	for _, s := range specTable {
		if s.Document == document && s.Kind == kind && s.Size == size {
			return s, nil
		}
	}
	return Specified{}, check.Refuse("size", document+" "+kind+" "+size, unit.ErrUnknown, "an entry of Specifications")
}

// Specifications gives every published entry, by document and size.
func Specifications() []Specified {
	return append([]Specified(nil), specTable...)
}

// specLine is one printed line; zero where the document gives no figure.
type specLine struct {
	size  string
	lbf   float64 // least breaking strength
	ypp   float64 // least yards per pound
	tex   float64 // label
	usual float64 // nominal yards per pound
	den   float64 // denier of all plies
	plies int
}

var specTable = buildSpecs()

func buildSpecs() []Specified {
	var t []Specified
	for _, p := range specLists {
		b := cite.Basis{Status: p.status, Source: p.document, Note: p.note}
		for _, l := range p.lines {
			s := l.specified(b)
			s.Document, s.Kind = p.document, p.kind
			t = append(t, s)
		}
	}
	return t
}

func (l specLine) specified(b cite.Basis) Specified {
	const none = "not given in the document"
	s := Specified{Size: l.size,
		MinStrength: gap[unit.Force](none), MinYield: gap[unit.LinearDensity](none),
		Nominal: gap[unit.LinearDensity](none), Yarn: gap[unit.LinearDensity](none), Plies: gap[int](none),
	}
	if l.lbf > 0 {
		s.MinStrength = cell(unit.Force(l.lbf)*unit.PoundForce, b)
	}
	if y, err := unit.YardsPerPoundOf(l.ypp); err == nil { // none of zero
		s.MinYield = cell(y, b)
	}
	if l.tex > 0 {
		s.Nominal = cell(unit.LinearDensity(l.tex), b)
	}
	if y, err := unit.YardsPerPoundOf(l.usual); err == nil {
		s.Nominal = cell(y, b)
	}
	if l.den > 0 {
		s.Yarn = cell(unit.LinearDensity(l.den)*unit.Denier, b)
		s.Plies = cell(l.plies, b)
	}
	return s
}

// specLists are the lines of each document.
var specLists = [...]struct {
	document, kind string
	status         cite.Status
	note           string
	lines          []specLine
}{
	{"FAA-PRH", "nylon", cite.Published, "figure 3-40", []specLine{
		{size: "letter E", lbf: 8.5},
		{size: "letter FF", lbf: 16},
		{size: "3 cord", lbf: 24},
		{size: "5 cord", lbf: 40},
	}},
	{"A-A-52109", "nylon", cite.Standard, "paragraph 2.2", []specLine{
		{size: "letter B", lbf: 6},
		{size: "letter E", lbf: 9},
	}},
	{"A-A-52095B", "polyester, textured", cite.Standard, "Table I", []specLine{
		{size: "tex 18", lbf: 1.4, tex: 18},
		{size: "tex 24", lbf: 1.9, tex: 24},
		{size: "tex 35", lbf: 2.5, tex: 35},
		{size: "tex 45", lbf: 3.2, tex: 45},
		{size: "tex 50", lbf: 3.9, tex: 50},
		{size: "tex 70", lbf: 5.8, tex: 70},
		{size: "tex 105", lbf: 6.9, tex: 105},
	}},
	{"A-A-50195B", "heat resistant", cite.Standard, "Table II", []specLine{
		{size: "tex 40", lbf: 3, tex: 40},
		{size: "tex 60", lbf: 5, tex: 60},
		{size: "tex 80", lbf: 6, tex: 80},
		{size: "tex 120", lbf: 10, tex: 120},
		{size: "tex 180", lbf: 15, tex: 180},
		{size: "tex 240", lbf: 20, tex: 240},
		{size: "tex 300", lbf: 25, tex: 300},
		{size: "tex 350", lbf: 30, tex: 350},
		{size: "tex 450", lbf: 35, tex: 450},
	}},
	{"A-A-50198A", "cotton gimp, soft", cite.Standard, "Table I", []specLine{
		{size: "tex 210", lbf: 6.5, tex: 210},
		{size: "tex 270", lbf: 9, tex: 270},
		{size: "tex 350", lbf: 11.3, tex: 350},
	}},
	{"A-A-50198A", "cotton gimp, glazed", cite.Standard, "Table I", []specLine{
		{size: "tex 180", lbf: 6.8, tex: 180},
		{size: "tex 210", lbf: 6.8, tex: 210},
		{size: "tex 300", lbf: 9.4, tex: 300},
		{size: "tex 350", lbf: 11.8, tex: 350},
	}},
	{"A-A-55220", "para-aramid", cite.Standard, "Table I", []specLine{
		{size: "tex 40", lbf: 14, ypp: 10000, tex: 40, den: 400, plies: 2},
		{size: "tex 60", lbf: 23, ypp: 6700, tex: 60, den: 600, plies: 3},
		{size: "tex 80", lbf: 30, ypp: 5000, tex: 80, den: 800, plies: 4},
		{size: "tex 120", lbf: 45, ypp: 3350, tex: 120, den: 1200, plies: 3},
		{size: "tex 210", lbf: 64, ypp: 2100, tex: 210, den: 2000, plies: 5},
		{size: "tex 400", lbf: 135, ypp: 1050, tex: 400, den: 4000, plies: 4},
		{size: "tex 450", lbf: 150, ypp: 900, tex: 450, den: 4500, plies: 3},
		{size: "tex 800", lbf: 225, ypp: 550, tex: 800, den: 7500, plies: 5},
	}},
	{"AC-43.13-1B", "cotton, aircraft", cite.Published, "Table 2-2", []specLine{
		{size: "20/4", lbf: 5, usual: 5000},
		{size: "8/4", lbf: 14, usual: 1650},
	}},
}
