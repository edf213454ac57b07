package foam

import (
	"slices"

	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit/cite"
)

// Jurisdiction is a place with its own fire rules for upholstery. The zero
// value is none; Everywhere marks cautions that hold in any place.
//
// Its values: Everywhere, UnitedStates, UnitedKingdom, EuropeanUnion.
type Jurisdiction uint8

// The jurisdictions known.
const (
	Everywhere Jurisdiction = iota + 1
	UnitedStates
	UnitedKingdom
	EuropeanUnion
)

var jurisdictionNames = []string{"", "everywhere", "united states", "united kingdom", "european union"}

// String gives the name in lower case.
func (j Jurisdiction) String() string { return enum.Name(j, "Jurisdiction", jurisdictionNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (j Jurisdiction) MarshalText() ([]byte, error) {
	return enum.Text(j, "jurisdiction", jurisdictionNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (j *Jurisdiction) UnmarshalText(text []byte) error {
	return enum.Read(j, text, "jurisdiction", jurisdictionNames)
}

// Hazard is what a caution is about. The zero value is none.
//
// Its values: Fire, Adhesive, Heat, Dust.
type Hazard uint8

// The hazards known.
const (
	Fire     Hazard = iota + 1 // flammability and its labels
	Adhesive                   // glues and their solvents
	Heat                       // hot wire, hot knife, welding
	Dust                       // dust and crumbling old foam
)

var hazardNames = []string{"", "fire", "adhesive", "heat", "dust"}

// String gives the name in lower case.
func (h Hazard) String() string { return enum.Name(h, "Hazard", hazardNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (h Hazard) MarshalText() ([]byte, error) { return enum.Text(h, "hazard", hazardNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (h *Hazard) UnmarshalText(text []byte) error {
	return enum.Read(h, text, "hazard", hazardNames)
}

// Caution is one warning: where it holds, by which rule, in which edition, from
// which date, and what it says in short. It is no legal advice.
type Caution struct {
	Hazard       Hazard       `json:"hazard"`
	Jurisdiction Jurisdiction `json:"jurisdiction"`
	Rule         string       `json:"rule,omitempty"`    // its number, when there is a rule
	Edition      string       `json:"edition,omitempty"` // edition or amendment meant
	From         string       `json:"from,omitempty"`    // in force from, YYYY-MM-DD
	Text         string       `json:"text"`
	Basis        cite.Basis   `json:"basis"`
}

// Deference is the sentence that goes before every list of cautions.
const Deference = "Rules change and differ from place to place: read the text in force where the piece is sold and used, " +
	"keep the supplier's certificate for the very foam used, and ask the local authority or a test house when in doubt."

// Cautions gives the cautions for the given jurisdictions and those that hold
// everywhere; with none given, all. Show [Deference] with them. An unknown
// jurisdiction is refused with unit.ErrUnknown or unit.ErrRequired.
func Cautions(js ...Jurisdiction) ([]Caution, error) {
	for _, j := range js {
		if err := given("jurisdiction", j, jurisdictionNames); err != nil {
			return nil, err
		}
	}
	if len(js) == 0 {
		return slices.Clone(cautions), nil
	}
	out := make([]Caution, 0, len(cautions))
	for _, c := range cautions {
		if c.Jurisdiction == Everywhere || slices.Contains(js, c.Jurisdiction) {
			out = append(out, c)
		}
	}
	return out, nil
}

func citeIn(status cite.Status, source string) cite.Basis {
	return cite.Basis{Status: status, Source: source}
}

var cautions = []Caution{
	{Hazard: Fire, Jurisdiction: Everywhere,
		Text:  "Polyurethane foam burns fast and gives off carbon monoxide and hydrogen cyanide. Foam that passes a smoulder test is not flame-proof.",
		Basis: custom},
	{Hazard: Fire, Jurisdiction: UnitedStates, Rule: "16 CFR part 1640", Edition: "86 FR 18440, adopting California TB 117-2013", From: "2021-06-25",
		Text:  "Indoor upholstered seating made, imported or reupholstered from this date must meet the smoulder tests of TB 117-2013 for cover, barrier, filling and decking.",
		Basis: citeIn(cite.Standard, "FR-86-18440")},
	{Hazard: Fire, Jurisdiction: UnitedStates, Rule: "16 CFR part 1640", Edition: "86 FR 18440, permanent label", From: "2022-06-25",
		Text:  "A permanent label must state that the piece complies with the upholstered-furniture flammability rule. Whether a piece kept by its owner falls under the rule: check the commission's guidance.",
		Basis: citeIn(cite.Standard, "FR-86-18440")},
	{Hazard: Fire, Jurisdiction: UnitedStates, Rule: "16 CFR part 1633", Edition: "2007",
		Text:  "Mattresses fall under the open-flame rule instead, and under 16 CFR part 1632 for cigarettes.",
		Basis: citeIn(cite.Standard, "CFR-16-1633")},
	{Hazard: Fire, Jurisdiction: UnitedKingdom, Rule: "S.I. 1988/1324", Edition: "as amended 1989, 1993, 2010 and 2025", From: "1988-11-01",
		Text:  "Foam fillings must pass the ignition test of Schedule 1 (BS 5852 Part 2, crib source 5, as made); covers must resist cigarette and match, with exceptions. The regulations bind re-upholsterers too; furniture made before 1950 and its re-upholstery is outside.",
		Basis: cite.Basis{Status: cite.Standard, Source: "UK-SI-1988-1324", Note: "foam and dates; covers and the 1950 limit are common knowledge of the trade"}},
	{Hazard: Fire, Jurisdiction: UnitedKingdom, Rule: "S.I. 2025/531", Edition: "amendment", From: "2025-10-30",
		Text:  "Listed baby products leave the scope, the display label is dropped, the permanent label stays.",
		Basis: citeIn(cite.Standard, "UK-SI-2025-531")},
	{Hazard: Fire, Jurisdiction: UnitedKingdom, Rule: "BS 7176",
		Text:  "Contract seating is usually asked for by hazard: low hazard takes EN 1021-1 and EN 1021-2, medium hazard the wooden crib 5 besides. The buyer's fire officer says which.",
		Basis: custom},
	{Hazard: Fire, Jurisdiction: EuropeanUnion, Rule: "EN 1021-1 and EN 1021-2", Edition: "EN 1021-2:2014",
		Text:  "Test methods for cigarette and match-equivalent flame on the cover and filling together. Whether a piece must pass them is for each country to say; public seating is often stricter.",
		Basis: cite.Basis{Status: cite.Standard, Source: "EN-1021-2", Note: "the test method; that each country decides is from memory"}},
	{Hazard: Adhesive, Jurisdiction: UnitedStates, Rule: "40 CFR part 751", Edition: "89 FR 39254, methylene chloride", From: "2024-07-08",
		Text:  "Methylene chloride, once usual in foam adhesives: the rule keeps it from consumers and restricts or bans its use in trade, in steps. Check the dates now in force.",
		Basis: citeIn(cite.Standard, "FR-89-39254")},
	{Hazard: Adhesive, Jurisdiction: UnitedStates, Rule: "89 FR 65066", Edition: "proposed rule of August 2024, 1-bromopropane",
		Text:  "A ban on most uses of 1-bromopropane, spray adhesives among them, was proposed; whether it is in force was not checked.",
		Basis: custom},
	{Hazard: Adhesive, Jurisdiction: Everywhere,
		Text:  "Spray adhesives: read the safety data sheet, extract or ventilate, no flame, no pilot light, no smoking. Let the solvent go before the cover is closed. Ask for a glue free of methylene chloride and 1-bromopropane.",
		Basis: custom},
	{Hazard: Heat, Jurisdiction: Everywhere,
		Text:  "Cut polyurethane foam cold, with saw or knife. A hot wire makes it give off isocyanates and other harmful fumes; hot wire is for polystyrene and needs extraction even there.",
		Basis: custom},
	{Hazard: Dust, Jurisdiction: Everywhere,
		Text:  "Old foam may crumble and hold flame retardants no longer used: wear a mask, vacuum with a fine filter, bag it.",
		Basis: custom},
}
