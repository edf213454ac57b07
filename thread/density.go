package thread

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// StitchRange is a recommended stitch density.
type StitchRange struct {
	From  StitchesPerInch `json:"from"` // longest stitch
	To    StitchesPerInch `json:"to"`   // shortest stitch
	Basis cite.Basis      `json:"basis"`
}

// Lengths gives the stitch lengths of the range, shortest first.
func (r StitchRange) Lengths() (shortest, longest unit.Length, err error) {
	if shortest, err = r.To.StitchLength(); err != nil {
		return 0, 0, err
	}
	longest, err = r.From.StitchLength()
	return shortest, longest, err
}

// compare tells whether stitches are shorter (-1) or longer (1) than the range, to
// the nanometre that a stitch length is rounded to.
func (r StitchRange) compare(l unit.Length) int {
	switch {
	case float64(l+1) < float64(unit.Inch)/float64(r.To):
		return -1
	case float64(l-1) > float64(unit.Inch)/float64(r.From):
		return 1
	}
	return 0
}

// densityLine adds the length a recommendation starts from.
type densityLine struct {
	StitchRange
	usual unit.Length
}

// densities are the stitch densities for seams, by goods.
var densities = [...]densityLine{
	LightWoven - 1:   {StitchRange{10, 12, published("TM-10-8400-201", "clothing repair, types 301 and 401, Table 3-1")}, 2300 * unit.Micrometre},
	Woven - 1:        {StitchRange{6, 8, practice("")}, 3500 * unit.Micrometre},
	Canvas - 1:       {StitchRange{5, 7, published("TM-10-8340-224", "tent canvas, types 301 and 401, para 5-6")}, 4 * unit.Millimetre},
	Vinyl - 1:        {StitchRange{5, 6, practice("more than 6 perforates the goods")}, 4500 * unit.Micrometre},
	Leather - 1:      {StitchRange{5, 6, practice("4 on some coarse work")}, 4500 * unit.Micrometre},
	HeavyLeather - 1: {StitchRange{4, 5, practice("coarse work")}, 5500 * unit.Micrometre},
}

// StitchDensityFor gives the stitch density recommended for seams in goods. It wraps
// unit.ErrUnknown for no goods.
func StitchDensityFor(g Goods) (StitchRange, error) {
	if err := g.check("goods"); err != nil {
		return StitchRange{}, err
	}
	return densities[g-1].StitchRange, nil
}

// StitchDensityAdvice is a published or customary stitch density for a use.
type StitchDensityAdvice struct {
	Use string `json:"use"`
	// Stitches the advice is for; empty when the document names none.
	Stitches []Stitch `json:"stitches,omitempty"`
	// Thread is the government size the document names; empty for none.
	Thread  string      `json:"thread,omitempty"`
	Density StitchRange `json:"density"`
}

var lockAndChain = []Stitch{Lockstitch301, Chainstitch401}

var densityAdvice = []StitchDensityAdvice{
	{"tent canvas", lockAndChain, "", StitchRange{5, 7, published("TM-10-8340-224", "paragraph 5-6")}},
	{"vehicle canvas covers", []Stitch{Lockstitch301}, "", StitchRange{5, 7, published("TM-9-2350-247", "fabric repair")}},
	{"clothing, general", lockAndChain, "E", StitchRange{10, 12, published("TM-10-8400-201", "Table 3-1")}},
	{"clothing, overedge", []Stitch{Overedge503, Overedge504}, "E", StitchRange{6, 10, published("TM-10-8400-201", "Table 3-1")}},
	{"shirts", lockAndChain, "", StitchRange{10, 14, published("TM-10-8400-201", "Table 5-1; thread 50/3")}},
	{"trousers", lockAndChain, "", StitchRange{12, 16, published("TM-10-8400-201", "Table 5-1; thread 50/3")}},
	{"shirts and trousers overedge", []Stitch{Overedge504}, "", StitchRange{6, 10, published("TM-10-8400-201", "Table 5-1; thread 50/3")}},
	{"clothing, safety stitch", []Stitch{Safety516}, "E", StitchRange{10, 12, published("TM-10-8400-201", "Table 3-1; looper thread B")}},
	{"cloth covers and light straps", nil, "E", StitchRange{7, 11, published("TM-10-1670-298", "Table 2-3")}},
	{"cotton cloth of parachutes", nil, "E", StitchRange{7, 11, published("TM-10-1670-287", "Table 2")}},
	{"webbing, 3 cord", nil, "3 cord", StitchRange{5, 8, published("TM-10-1670-298", "Table 2-3")}},
	{"webbing, 5 cord", nil, "5 cord", StitchRange{5, 8, published("TM-10-1670-298", "Table 2-3")}},
	{"webbing, FF", []Stitch{Lockstitch301}, "FF", StitchRange{5, 8, standard("MIL-S-18313G", "stitching pattern")}},
	{"webbing, 4 cord", []Stitch{Lockstitch301}, "4 cord", StitchRange{6, 7, standard("MIL-S-18313G", "stitching pattern")}},
	{"webbing, 6 cord", []Stitch{Lockstitch301}, "6 cord", StitchRange{4, 5, standard("MIL-S-18313G", "stitching pattern")}},
	{"sacking seam", []Stitch{Chainstitch401}, "E", StitchRange{3, 5, standard("A-A-52109", "paragraph 2.2; looper thread B")}},
	{"pillow case", lockAndChain, "", StitchRange{8, 12, standard("A-A-54095", "cotton thread 30/3")}},
	{"headrest pillow", []Stitch{Lockstitch301}, "", StitchRange{10, 15, standard("A-A-55215", "")}},
	{"test seam, cloth to 4 oz/yd²", []Stitch{Lockstitch301}, "", StitchRange{11.5, 12.5, standard("ASTM-D1683", "Table 1")}},
	{"faux leather, strongest joint of a test", []Stitch{Lockstitch301}, "", StitchRange{6.35, 6.35, published("MATERIALS-15-6585", "stitch of 4 mm")}},
	{"upholstery cloth", []Stitch{Lockstitch301}, "E", StitchRange{6, 8, practice("")}},
	{"upholstery leather", []Stitch{Lockstitch301}, "", StitchRange{5, 6, practice("")}},
	{"coarse leather work", []Stitch{Lockstitch301}, "", StitchRange{4, 5, practice("")}},
	{"fine leather work, thin thread and small needle", []Stitch{Lockstitch301}, "B", StitchRange{8, 12, practice("")}},
	{"vinyl and faux leather", []Stitch{Lockstitch301}, "", StitchRange{5, 6, practice("six is the most")}},
	{"heavy cloth and top-stitching", []Stitch{Lockstitch301}, "", StitchRange{5, 6, practice("")}},
	{"medium cloth", []Stitch{Lockstitch301}, "", StitchRange{10, 12, practice("")}},
}

// StitchDensities lists stitch densities by use, published ones first.
func StitchDensities() []StitchDensityAdvice {
	out := slices.Clone(densityAdvice)
	for i := range out {
		out[i].Stitches = slices.Clone(out[i].Stitches)
	}
	return out
}
