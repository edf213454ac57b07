package caution

import (
	"slices"

	"github.com/coverwright/coverwright/internal/enum"
)

// Part is what a paper is about. The zero value is none.
//
// Its values: Cover, Filling, Lining, Barrier, Glue, FrameOf, Record.
type Part uint8

// The parts that papers are asked for.
const (
	Cover   Part = iota + 1
	Filling      // foam and other filling
	Lining       // lining and decking
	Barrier      // interliner between cover and filling
	Glue         // glue and finish
	FrameOf      // the frame
	Record       // labels, licences, and what is kept
)

var partNames = []string{"", "cover", "filling", "lining", "barrier", "glue", "frame", "record"}

// String gives the name in lower case.
func (p Part) String() string { return enum.Name(p, "Part", partNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (p Part) MarshalText() ([]byte, error) { return enum.Text(p, "part", partNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (p *Part) UnmarshalText(text []byte) error { return enum.Read(p, text, "part", partNames) }

// PaperRule goes before every list of papers.
const PaperRule = "A report names a combination: another cover on the same foam is another, and a seller's word that goods pass is no report."

// Paper is a certificate to ask for, or to keep.
type Paper struct {
	Of           Part         `json:"of"`
	Jurisdiction Jurisdiction `json:"jurisdiction"`
	Ask          string       `json:"ask"`
	Because      string       `json:"because"` // the id of the caution that asks for it, with its rule and standing
}

// String writes the paper as an order prints it: "cover, united states: report ...
// (for F1)".
func (p Paper) String() string {
	out := p.Of.String()
	if p.Jurisdiction > Everywhere {
		out += ", " + p.Jurisdiction.String()
	}
	return out + ": " + p.Ask + " (for " + p.Because + ")"
}

// paperRow is a paper that goes with a caution, and when.
type paperRow struct {
	because string
	of      Part
	ask     string
	when    func(Piece) bool
}

// papersFor gives the papers of a caution that is due for some pieces.
func papersFor(c Caution, pieces []Piece, due func(Piece) bool) []Paper {
	var out []Paper
	for _, r := range papers {
		if r.because == c.ID && slices.ContainsFunc(pieces, func(p Piece) bool { return due(p) && r.when(p) }) {
			out = append(out, Paper{Of: r.of, Jurisdiction: c.Jurisdiction, Ask: r.ask, Because: c.ID})
		}
	}
	return out
}

const sameReport = "the same report, which names cover and filling together"

var papers = []paperRow{
	{"A1", Cover, "burn certificates of the batch", always},
	{"A1", Filling, "burn certificates of the batch", newFoam},
	{"A1", Record, "the mechanic's order and release", always},
	{"V3", Record, "the vehicle maker's paper of the seam where a panel has an airbag", always},
	{"F0", Cover, "its fibres and its cleaning code", always},
	{"F1", Cover, "report of TB 117-2013 section 1, or a barrier of section 2 under it", always},
	{"F1", Barrier, "report of TB 117-2013 section 2, where the cover has no report", always},
	{"F1", Filling, "report of TB 117-2013 section 3", newFoam},
	{"F1", Lining, "report of TB 117-2013 section 4 for decking", always},
	{"F1L", Record, "the permanent label", always},
	{"F3", Record, "in California a statement of the supplier: no covered flame retardant above 1,000 ppm", always},
	{"F4", Record, "licence of the state and label of contents", always},
	{"F5", Cover, "cigarette and match reports", always},
	{"F5", Barrier, "report of the interliner with its use, where there is one", always},
	{"F5", Filling, "report of the foam with its batch", newFoam},
	{"F5", Record, "the permanent label, and the records kept", always},
	{"F7", Cover, "report of EN 1021-1 and EN 1021-2 for this cover on this filling", contract},
	{"F7", Filling, sameReport, func(p Piece) bool { return contract(p) && p.NewFoam }},
	{"F8", Cover, "what the fire authority or the owner names, in writing", always},
	{"F8", Filling, "what the fire authority or the owner names, in writing", newFoam},
	{"F8", FrameOf, "its class of strength", framed},
	{"F10", Cover, "report of EN 1021-1 and EN 1021-2 for this cover on this filling, with crib 5 where the hazard is medium", always},
	{"F10", Filling, sameReport, newFoam},
	{"F10", Record, "statement of BS 7176", always},
	{"C1", Record, "lead in the coating", always},
	{"C2", Cover, "phthalates and lead in vinyl", always},
	{"C2", Record, "small parts", always},
	{"V0", Cover, "report by 49 CFR 571.302 or by ISO 3795", always},
	{"V0", Filling, "report by 49 CFR 571.302 or by ISO 3795", newFoam},
	{"B1", Cover, "report of FTP Code part 8 with the wheel mark", always},
	{"B1", Filling, sameReport, newFoam},
	{"B1", Record, "letter of the class society", always},
	{"H8", Glue, "data sheet of the glue, and of a finish", always},
}
