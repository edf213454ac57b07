package thread

import (
	"math"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// TableRow is the row of a thread in the size table. Cells without a figure are
// gaps that say why.
type TableRow struct {
	Thread Thread `json:"thread"`

	// Label is the tex number on the label, T-90. It is that of the
	// unfinished thread, as ASTM D3823 has ticket numbers: finishing changes
	// the count.
	Label Cell[unit.LinearDensity] `json:"label"`
	// Finished is the count of the thread as it comes off the cone.
	Finished Cell[unit.LinearDensity] `json:"finished"`
	// Greige is the count of the plies before twisting, dyeing and bonding.
	Greige Cell[unit.LinearDensity] `json:"greige"`
	// Plies is the number of yarns twisted together.
	Plies Cell[int] `json:"plies"`
	// Letter is the government letter size, such as "FF".
	Letter Cell[string] `json:"letter"`
	// Cords is the government size in cords: 3, 4, 5, 6.
	Cords Cell[int] `json:"cords"`
	// Ticket is the metric ticket number on the label.
	Ticket Cell[int] `json:"ticket"`
	// MinStrength is the least breaking strength of the size by
	// specification.
	MinStrength Cell[unit.Force] `json:"min_strength"`
	// Strength is the average breaking strength catalogues print.
	Strength Cell[unit.Force] `json:"strength"`
	// Cautious is the strength that estimates reckon with: MinStrength where
	// it is known, else 70 % of Strength, else a strength by weight.
	Cautious Cell[unit.Force] `json:"cautious"`
	// MinYield is the least length per mass by specification, held as the
	// count that just meets it: LinearDensity.YardsPerPound gives it as
	// printed.
	MinYield Cell[unit.LinearDensity] `json:"min_yield"`
	// Diameter is the nominal diameter under light pressure.
	Diameter Cell[unit.Length] `json:"diameter"`
}

// Row gives the thread's row of the size table. It wraps unit.ErrUnknown when
// the thread has no fibre or no size.
func (t Thread) Row() (TableRow, error) {
	if err := t.check("thread"); err != nil {
		return TableRow{}, err
	}
	return sizeTable[t.Fibre-1][t.Size-1], nil
}

// Table gives the whole size table in the order of Threads.
func Table() []TableRow {
	var out []TableRow
	for _, f := range sizeTable {
		out = append(out, f[:]...)
	}
	return out
}

// sizeLine is what the table states of a size in both fibres. The strengths
// are in pounds-force, zero where none was read.
type sizeLine struct {
	label    Cell[unit.LinearDensity]
	plies    int
	ply      float64 // denier of one ply
	build    cite.Basis
	letter   Cell[string]
	cords    Cell[int]
	ticket   Cell[int]
	diameter Cell[unit.Length]

	minNylon         float64
	nylon, polyester float64
}

// The bases of the size table.
var (
	inTrade    = practice("")
	usualBuild = memory("usual construction of the trade")
	usualTkt   = memory("usual ticket nearest 3000 / finished tex")
	pairing    = practice("pairing of government size and trade number")
	guessed    = memory("pairing of government size and trade number: the published strengths of FF, 3 and 5 cord stand to 1260, 1890 and 3150 denier as 5.76 gf/den each")
	recalled   = memory("pairing of government size and trade number")
)

var (
	noLetter = gap[string]("this size goes by cords")
	noCords  = gap[int]("this size goes by a letter")
)

var sizeLines = [sizeCount]sizeLine{
	{label: tex(16, inTrade), ply: 70, plies: 2, build: usualBuild, letter: cell("00", recalled), cords: noCords,
		ticket: cell(180, usualTkt)},
	{label: tex(35, practice("also sold as T-30")), ply: 100, plies: 3, build: usualBuild, letter: cell("AA", recalled), cords: noCords,
		ticket: cell(80, usualTkt)},
	{label: tex(45, inTrade), ply: 140, plies: 3, build: usualBuild, letter: cell("B", pairing), cords: noCords,
		ticket: cell(60, usualTkt), diameter: mm(0.24, inTrade), minNylon: 6, nylon: 8},
	{label: tex(70, inTrade), ply: 210, plies: 3, build: usualBuild, letter: cell("E", pairing), cords: noCords,
		ticket: cell(40, usualTkt), diameter: mm(0.29, inTrade), minNylon: 8.5, nylon: 11},
	{label: tex(90, inTrade), ply: 280, plies: 3, build: usualBuild, letter: cell("F", pairing), cords: noCords,
		ticket: cell(30, usualTkt), diameter: mm(0.34, inTrade), nylon: 15},
	{label: tex(135, inTrade), ply: 420, plies: 3, build: inTrade, letter: cell("FF", guessed), cords: noCords,
		ticket: cell(20, inTrade), minNylon: 16, polyester: 20.8},
	{label: tex(210, inTrade), ply: 630, plies: 3, build: usualBuild, letter: noLetter, cords: cell(3, guessed),
		ticket: cell(13, usualTkt), minNylon: 24, nylon: 35},
	{label: tex(270, inTrade), ply: 840, plies: 3, build: usualBuild, letter: noLetter, cords: cell(4, guessed),
		ticket: cell(10, usualTkt)},
	{label: tex(350, inTrade), ply: 1050, plies: 3, build: usualBuild, letter: noLetter, cords: cell(5, guessed),
		ticket: cell(8, usualTkt), minNylon: 40},
	{label: tex(400, inTrade), ply: 1260, plies: 3, build: usualBuild, letter: noLetter, cords: cell(6, guessed),
		ticket: cell(7, memory("labelled 6 or 7"))},
	{label: tex(600, inTrade), ply: 1680, plies: 3, build: usualBuild, letter: gap[string]("no government size this heavy was read"),
		cords: gap[int]("no government size this heavy was read"), ticket: cell(5, usualTkt)},
}

// Rules for cells that no source fills.
const (
	// diameterFit is k of d = k √T with d in mm and T the label tex, fitted
	// to the diameters in use for sizes 46, 69 and 92.
	diameterFit = 0.0351
	// shareOfAverage is the specified minimum as a share of the catalogue's
	// average where both are known: 0.69 to 0.77.
	shareOfAverage = 0.70
	// Strength by weight in grams-force per denier of the unfinished thread:
	// nylon by the published minima of FF, 3 and 5 cord, polyester by 70 % of
	// the average printed for 138.
	tenacityNylon     = 5.76
	tenacityPolyester = 5.24
)

var sizeTable = buildTable()

func buildTable() (t [2][sizeCount]TableRow) {
	for i, l := range sizeLines {
		for _, f := range Fibres() {
			t[f-1][i] = l.row(Thread{f, Size(i + 1)})
		}
	}
	return t
}

func (l sizeLine) row(t Thread) TableRow {
	greige := unit.LinearDensity(l.ply*float64(l.plies)) * unit.Denier
	r := TableRow{
		Thread:      t,
		Label:       l.label,
		Finished:    cell(t.Size.Finished(), practice("ten denier to the trade number")),
		Greige:      cell(greige, l.build),
		Plies:       cell(l.plies, l.build),
		Letter:      l.letter,
		Cords:       l.cords,
		Ticket:      l.ticket,
		MinYield:    gap[unit.LinearDensity]("no specification of bonded thread read that gives it"),
		MinStrength: gap[unit.Force]("no specified strength read for this size and fibre"),
		Strength:    gap[unit.Force]("no catalogue strength read for this size and fibre"),
		Diameter:    l.diameter,
	}
	average, tenacity := l.nylon, tenacityNylon
	if t.Fibre == Polyester {
		average, tenacity = l.polyester, tenacityPolyester
	}
	if average > 0 {
		r.Strength = cell(unit.Force(average)*unit.PoundForce, inTrade)
	}
	if t.Fibre == Nylon && l.minNylon > 0 {
		r.MinStrength = cell(unit.Force(l.minNylon)*unit.PoundForce, l.strengthBasis())
	}
	switch least, ok := r.MinStrength.Value(); {
	case ok:
		r.Cautious = cell(least, r.MinStrength.Basis())
	case average > 0:
		r.Cautious = cell(shareOfAverage*unit.Force(average)*unit.PoundForce, practice("70 % of the average strength"))
	default:
		r.Cautious = cell(unit.Force(tenacity*l.ply*float64(l.plies)/1000)*unit.KilogramForce, memory("strength by weight of the unfinished thread"))
	}
	if !r.Diameter.Known() {
		tex, _ := l.label.Value()
		r.Diameter = mm(diameterFit*math.Sqrt(tex.Tex()), memory("0.0351 mm × √(label tex), fitted to sizes 46, 69 and 92"))
	}
	return r
}

// strengthBasis founds a government size's published strength on a trade
// number: no better than their pairing.
func (l sizeLine) strengthBasis() cite.Basis {
	b := l.cords.Basis()
	if l.letter.Known() {
		b = l.letter.Basis()
	}
	if b.Status == cite.CommonPractice {
		return practice("published for the government size; its pairing with the trade number is practice")
	}
	return memory("published for the government size; its pairing with the trade number is from memory")
}

func tex(count float64, b cite.Basis) Cell[unit.LinearDensity] {
	return cell(unit.LinearDensity(count), b)
}

// mm gives a length of whole tenths of a micrometre: the same on every
// machine, whatever the last bit of a square root.
func mm(count float64, b cite.Basis) Cell[unit.Length] {
	return cell(unit.Length(math.Round(count*1e4))*(unit.Micrometre/10), b)
}
