package thread

import (
	"math"

	"github.com/coverwright/coverwright/unit"
)

// Row is the row of a thread in the size table. Cells without a figure are
// gaps that say why.
type Row struct {
	Thread Thread `json:"thread"`

	// Label is the tex number on the label, T-90. It is that of the
	// unfinished thread.
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
	// MinYield is the least length per mass by specification, held as the
	// count that just meets it: LinearDensity.YardsPerPound gives it as
	// printed.
	MinYield Cell[unit.LinearDensity] `json:"min_yield"`
	// Diameter is the nominal diameter under light pressure.
	Diameter Cell[unit.Length] `json:"diameter"`
}

// Row gives the thread's row of the size table. It wraps unit.ErrUnknown when
// the thread has no fibre or no size.
func (t Thread) Row() (Row, error) {
	if err := t.check("thread"); err != nil {
		return Row{}, err
	}
	return sizeTable[t.Fibre-1][t.Size-1], nil
}

// Table gives the whole size table in the order of Threads.
func Table() []Row {
	var out []Row
	for _, f := range sizeTable {
		out = append(out, f[:]...)
	}
	return out
}

// sizeLine is what the table states of a size, before fibre.
type sizeLine struct {
	label        float64 // tex
	plyDenier    float64
	plies        int
	letter       string
	cords        int
	ticket       int
	diameter     float64 // mm, where a figure is in use; else fitted
	minNylon     float64 // lbf; the strength published for the letter
	nylon        float64 // lbf, as catalogues print it
	polyester    float64 // lbf, as catalogues print it
	tradeLetter  bool    // the trade pairs letter and number
	tradeDenier  bool    // the trade prints the construction
	tradeTicket  bool    // the trade prints the ticket
	printedLabel bool    // the trade prints tex and trade number together
}

var sizeLines = [sizeCount]sizeLine{
	{label: 16, plyDenier: 70, plies: 2, letter: "00", ticket: 180},
	{label: 35, plyDenier: 100, plies: 3, letter: "AA", ticket: 80},
	{label: 45, plyDenier: 140, plies: 3, letter: "B", ticket: 60, diameter: 0.24, minNylon: 6, nylon: 8, tradeLetter: true, printedLabel: true},
	{label: 70, plyDenier: 210, plies: 3, letter: "E", ticket: 40, diameter: 0.29, minNylon: 8.5, nylon: 11, tradeLetter: true, printedLabel: true},
	{label: 90, plyDenier: 280, plies: 3, letter: "F", ticket: 30, diameter: 0.34, nylon: 15, tradeLetter: true, printedLabel: true},
	{label: 135, plyDenier: 420, plies: 3, letter: "FF", ticket: 20, minNylon: 16, polyester: 20.8, tradeDenier: true, tradeTicket: true, printedLabel: true},
	{label: 210, plyDenier: 630, plies: 3, cords: 3, ticket: 13, minNylon: 24, nylon: 35},
	{label: 270, plyDenier: 840, plies: 3, cords: 4, ticket: 10},
	{label: 350, plyDenier: 1050, plies: 3, cords: 5, ticket: 8, minNylon: 40},
	{label: 400, plyDenier: 1260, plies: 3, cords: 6, ticket: 7},
	{label: 600, plyDenier: 1680, plies: 3, ticket: 5},
}

// diameterFit is k of d = k √T with d in mm and T the label tex, fitted to the
// diameters in use for sizes 46, 69 and 92.
const diameterFit = 0.0351

var sizeTable = buildTable()

func buildTable() (t [2][sizeCount]Row) {
	for i, l := range sizeLines {
		for _, f := range Fibres() {
			t[f-1][i] = l.row(Thread{f, Size(i + 1)})
		}
	}
	return t
}

func (l sizeLine) row(t Thread) Row {
	r := Row{
		Thread:   t,
		Label:    cell(unit.LinearDensity(l.label), practice("")),
		Finished: cell(t.Size.Finished(), practice("ten denier to the trade number")),
		Greige:   cell(unit.LinearDensity(l.plyDenier*float64(l.plies))*unit.Denier, memory("usual yarns of the trade")),
		Plies:    cell(l.plies, memory("usual construction")),
		Letter:   gap[string]("no letter for this size"),
		Cords:    gap[int]("no cord size"),
		Ticket:   cell(l.ticket, memory("usual ticket nearest 3000 / finished tex")),
		MinYield: gap[unit.LinearDensity]("no specification of bonded thread read that gives it"),
	}
	if l.tradeDenier {
		r.Greige = cell(unit.LinearDensity(l.plyDenier*float64(l.plies))*unit.Denier, practice("420 denier, three plies"))
		r.Plies = cell(l.plies, practice(""))
	}
	if l.tradeTicket {
		r.Ticket = cell(l.ticket, practice(""))
	}
	if l.letter != "" {
		r.Letter = cell(l.letter, memory("pairing of letter and trade number"))
		if l.tradeLetter {
			r.Letter = cell(l.letter, practice("pairing of letter and trade number"))
		}
	}
	if l.cords > 0 {
		r.Letter = gap[string]("this size goes by cords")
		r.Cords = cell(l.cords, memory("pairing of cord size and trade number"))
	}
	r.MinStrength = gap[unit.Force]("no specified strength read for this size and fibre")
	r.Strength = gap[unit.Force]("no catalogue strength read for this size and fibre")
	if t.Fibre == Nylon && l.minNylon > 0 {
		b := memory("published for the government size; its pairing with the trade number is from memory")
		if l.tradeLetter {
			b = practice("published for the government size; its pairing with the trade number is practice")
		}
		r.MinStrength = cell(unit.Force(l.minNylon)*unit.PoundForce, b)
	}
	if t.Fibre == Nylon && l.nylon > 0 {
		r.Strength = cell(unit.Force(l.nylon)*unit.PoundForce, practice(""))
	}
	if t.Fibre == Polyester && l.polyester > 0 {
		r.Strength = cell(unit.Force(l.polyester)*unit.PoundForce, practice(""))
	}
	if l.diameter > 0 {
		r.Diameter = cell(tenthMicron(l.diameter), practice(""))
	} else {
		r.Diameter = cell(tenthMicron(diameterFit*math.Sqrt(l.label)), memory("0.0351 mm × √(label tex), fitted to sizes 46, 69 and 92"))
	}
	return r
}

// tenthMicron gives mm as a length of whole tenths of a micrometre: the same
// on every machine, whatever the last bit of a square root.
func tenthMicron(mm float64) unit.Length {
	return unit.Length(math.Round(mm*1e4)) * (unit.Micrometre / 10)
}
