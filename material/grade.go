package material

import "github.com/coverwright/coverwright/internal/enum"

// Grade is the quality of a region, a scale of this package, best first:
// [PrimeGrade], [GoodGrade], [FairGrade], [RoughGrade]. Makers grade by rules of
// their own. The zero value is prime.
type Grade uint8

const (
	// PrimeGrade is even and tight: seats, inside backs, cushion tops.
	PrimeGrade Grade = iota
	// GoodGrade has light growth lines: arms, boxing, cushion backs.
	GoodGrade
	// FairGrade is uneven or loose: outside backs, outside arms.
	FairGrade
	// RoughGrade is for hidden parts: tack strips, facings under a cover.
	RoughGrade
)

var gradeNames = []string{"prime", "good", "fair", "rough"}

// String gives the name.
func (g Grade) String() string { return enum.Name(g, "grade", gradeNames) }

// MarshalText writes the name; an unknown grade wraps unit.ErrUnknown.
func (g Grade) MarshalText() ([]byte, error) { return enum.Text(g, "grade", gradeNames) }

// UnmarshalText reads a name as String writes it.
func (g *Grade) UnmarshalText(text []byte) error { return enum.Read(g, text, "grade", gradeNames) }

// Severity is how much a mark spoils the leather, a scale of this package:
// [NoMark], [FaintMark], [PlainMark], [DeepMark], [ThroughMark]. As a demand of a panel it is the worst mark that may lie on it; the zero value
// allows none.
type Severity uint8

const (
	// NoMark is clean leather.
	NoMark Severity = iota
	// FaintMark is seen only when looked for: a vein, a healed scratch.
	FaintMark
	// PlainMark is seen at a glance but sound: a growth mark, a wrinkle.
	PlainMark
	// DeepMark can be felt or weakens the leather: an open scratch, a brand.
	DeepMark
	// ThroughMark is a hole or a cut that may open: nothing may lie on it.
	ThroughMark
)

var severityNames = []string{"none", "faint", "plain", "deep", "through"}

// String gives the name.
func (s Severity) String() string { return enum.Name(s, "severity", severityNames) }

// MarshalText writes the name; an unknown severity wraps unit.ErrUnknown.
func (s Severity) MarshalText() ([]byte, error) { return enum.Text(s, "severity", severityNames) }

// UnmarshalText reads a name as String writes it.
func (s *Severity) UnmarshalText(text []byte) error {
	return enum.Read(s, text, "severity", severityNames)
}

// DefectKind says what a mark is: [Vein], [HealedScratch], [OpenScratch],
// [GrowthMark], [Wrinkle], [InsectMark], [Brand], [Stain], [FlayCut] or
// [OpenHole]. The zero value, [OtherDefect], is a mark of no named kind.
type DefectKind uint8

// The kinds of marks.
const (
	OtherDefect DefectKind = iota
	Vein
	HealedScratch
	OpenScratch
	GrowthMark
	Wrinkle
	InsectMark
	Brand
	Stain
	FlayCut // a slip of the knife on the flesh side
	OpenHole
)

var defectNames = []string{"other", "vein", "healed scratch", "open scratch", "growth mark", "wrinkle", "insect mark", "brand", "stain", "flay cut", "hole"}

var usualSeverity = []Severity{DeepMark, FaintMark, FaintMark, DeepMark, PlainMark, PlainMark, PlainMark, DeepMark, PlainMark, ThroughMark, ThroughMark}

// String gives the name.
func (k DefectKind) String() string { return enum.Name(k, "defect", defectNames) }

// MarshalText writes the name; an unknown kind wraps unit.ErrUnknown.
func (k DefectKind) MarshalText() ([]byte, error) { return enum.Text(k, "defect", defectNames) }

// UnmarshalText reads a name as String writes it.
func (k *DefectKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "defect", defectNames)
}

// UsualSeverity gives the severity a mark of the kind counts as when none is
// stated: an assumption of this package, for the cutter to correct.
func (k DefectKind) UsualSeverity() Severity {
	if int(k) >= len(usualSeverity) {
		return ThroughMark
	}
	return usualSeverity[k]
}
