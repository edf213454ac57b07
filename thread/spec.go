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
	// Nominal count as the document states it: tex label or denier.
	Nominal Cell[unit.LinearDensity] `json:"nominal"`
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

// specLine is one printed line: strength in lbf, yield in yd/lb, nominal count
// in tex; zero where the document gives none.
type specLine struct {
	size            string
	lbf, ypp, denom float64
}

var specTable = buildSpecs()

func buildSpecs() []Specified {
	var t []Specified
	add := func(doc, kind string, status cite.Status, note string, lines ...specLine) {
		b := cite.Basis{Status: status, Source: doc, Note: note}
		for _, l := range lines {
			s := Specified{Document: doc, Kind: kind, Size: l.size,
				MinStrength: gap[unit.Force]("not given in the document"),
				MinYield:    gap[unit.LinearDensity]("not given in the document"),
				Nominal:     gap[unit.LinearDensity]("not given in the document"),
			}
			if l.lbf > 0 {
				s.MinStrength = cell(unit.Force(l.lbf)*unit.PoundForce, b)
			}
			if l.ypp > 0 {
				if y, err := unit.YardsPerPoundOf(l.ypp); err == nil {
					s.MinYield = cell(y, b)
				}
			}
			if l.denom > 0 {
				s.Nominal = cell(unit.LinearDensity(l.denom), b)
			}
			t = append(t, s)
		}
	}
	add("FAA-PRH", "nylon", cite.Published, "figure 3-40",
		specLine{"letter E", 8.5, 0, 0}, specLine{"letter FF", 16, 0, 0},
		specLine{"3 cord", 24, 0, 0}, specLine{"5 cord", 40, 0, 0})
	add("A-A-52109", "nylon", cite.Standard, "paragraph 2.2",
		specLine{"letter B", 6, 0, 0}, specLine{"letter E", 9, 0, 0})
	add("A-A-52095B", "polyester, textured", cite.Standard, "Table I",
		specLine{"tex 18", 1.4, 0, 18}, specLine{"tex 24", 1.9, 0, 24}, specLine{"tex 35", 2.5, 0, 35},
		specLine{"tex 45", 3.2, 0, 45}, specLine{"tex 50", 3.9, 0, 50}, specLine{"tex 70", 5.8, 0, 70},
		specLine{"tex 105", 6.9, 0, 105})
	add("A-A-50195B", "heat resistant", cite.Standard, "Table II",
		specLine{"tex 40", 3, 0, 40}, specLine{"tex 60", 5, 0, 60}, specLine{"tex 80", 6, 0, 80},
		specLine{"tex 120", 10, 0, 120}, specLine{"tex 180", 15, 0, 180}, specLine{"tex 240", 20, 0, 240},
		specLine{"tex 300", 25, 0, 300}, specLine{"tex 350", 30, 0, 350}, specLine{"tex 450", 35, 0, 450})
	add("A-A-51098A", "cotton gimp, soft", cite.Standard, "Table I",
		specLine{"tex 210", 6.5, 0, 210}, specLine{"tex 270", 9, 0, 270}, specLine{"tex 350", 11.3, 0, 350})
	add("A-A-51098A", "cotton gimp, glazed", cite.Standard, "Table I",
		specLine{"tex 180", 6.8, 0, 180}, specLine{"tex 210", 6.8, 0, 210}, specLine{"tex 300", 9.4, 0, 300},
		specLine{"tex 350", 11.8, 0, 350})
	add("A-A-55220", "para-aramid", cite.Standard, "Table I",
		specLine{"tex 40", 14, 10000, 40}, specLine{"tex 60", 23, 6700, 60}, specLine{"tex 80", 30, 5000, 80},
		specLine{"tex 120", 45, 3350, 120}, specLine{"tex 210", 64, 2100, 210}, specLine{"tex 400", 135, 1050, 400},
		specLine{"tex 450", 150, 900, 450}, specLine{"tex 800", 225, 550, 800})
	add("FAA-AC-43.13", "cotton, aircraft", cite.Published, "Table 2-2; yield is nominal",
		specLine{"20/4", 5, 5000, 0}, specLine{"8/4", 14, 1650, 0})
	return t
}
