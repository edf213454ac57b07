package foam

import (
	"errors"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ErrWrongSystem says a grade code cannot belong to the system it is read in.
var ErrWrongSystem = errors.New("grade code of another system")

// CodeSystem says how a grade code is to be read. 2535 is 2.5 lb/ft³ (40 kg/m³)
// and 35 lbf in one system and 25 kg/m³ and 3.5 kPa in another, so a code is
// never read without one. The zero value is none.
//
// Its values: AmericanTrade, EuropeanBedding.
type CodeSystem uint8

// The systems known.
const (
	// AmericanTrade writes density in tenths of a lb/ft³, then IFD25 in lbf:
	// 2535, or 2.80 41.
	AmericanTrade CodeSystem = iota + 1
	// EuropeanBedding writes an optional family of letters, density in kg/m³
	// and the hardness: two digits are tenths of a kPa, three are newtons:
	// 2535, HR3530, T25120.
	EuropeanBedding
)

var systemNames = []string{"", "american trade", "european bedding"}

// String gives the name in lower case.
func (s CodeSystem) String() string { return enum.Name(s, "CodeSystem", systemNames) }

// MarshalText writes the name, an empty text for the zero value. A value that is
// none of the constants wraps unit.ErrUnknown.
func (s CodeSystem) MarshalText() ([]byte, error) {
	return enum.Text(s, "system", systemNames)
}

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (s *CodeSystem) UnmarshalText(text []byte) error {
	return enum.Read(s, text, "system", systemNames)
}

// GradeCode is a grade code read in a system. Of the three firmness figures
// only the one the code carries is set; the others are zero.
type GradeCode struct {
	System   CodeSystem    `json:"system"`
	Family   string        `json:"family,omitempty"` // letters of a European code
	Density  unit.Density  `json:"density"`
	IFD25    IFD25         `json:"ifd25,omitzero"`    // American
	Stress   unit.Pressure `json:"stress,omitzero"`   // European, two digits: to press the whole face
	Hardness HardnessA     `json:"hardness,omitzero"` // European, three digits
	Basis    cite.Basis    `json:"basis"`
}

// The densities that flexible foam is made in; a code outside them was surely
// written in another system.
var (
	americanDensities = poundsPerCubicFoot(0.5, 6.2)
	europeanDensities = Range[unit.Density]{Low: 15, High: 100}
)

// ParseGradeCode reads a grade code in the given system. A code that the system
// cannot mean is refused with [ErrWrongSystem], one that is no code at all with
// [unit.ErrSyntax], a missing system with [unit.ErrRequired].
func ParseGradeCode(system CodeSystem, code string) (GradeCode, error) {
	if err := given("system", system, systemNames); err != nil {
		return GradeCode{}, err
	}
	if system == AmericanTrade {
		return parseAmerican(code)
	}
	return parseEuropean(code)
}

// parseAmerican reads 2535 or 2.80 41 (with a space, a dash or a slash).
func parseAmerican(code string) (GradeCode, error) {
	s := strings.TrimSpace(code)
	if letters, rest := splitLetters(s); letters != "" && digits(rest) {
		return GradeCode{}, check.Refuse("code", code, ErrWrongSystem, "an American code without letters, such as 2535")
	}
	var density, firm float64
	switch {
	case digits(s) && len(s) == 4:
		density, firm = number(s[:2])/10, number(s[2:])
	case digits(s) && len(s) == 5:
		return GradeCode{}, check.Refuse("code", code, ErrWrongSystem, "four digits: density in tenths of a lb/ft³, then IFD25 in lbf")
	default:
		i := strings.IndexAny(s, " -/")
		if i < 0 {
			return GradeCode{}, check.Refuse("code", code, unit.ErrSyntax, "a code such as 2535 or 2.80 41")
		}
		a, b := s[:i], strings.TrimSpace(s[i+1:])
		whole, frac, point := strings.Cut(a, ".")
		if !point || !digits(whole) || !digits(frac) || len(a) > 5 || !digits(b) || len(b) > 3 {
			return GradeCode{}, check.Refuse("code", code, unit.ErrSyntax, "a code such as 2535 or 2.80 41")
		}
		density, firm = number(a), number(b)
	}
	g := GradeCode{
		System:  AmericanTrade,
		Density: poundsPerCubicFoot(density, density).Low,
		IFD25:   poundsForce(firm, firm).Low,
		Basis:   custom,
	}
	if !americanDensities.Has(g.Density) {
		return GradeCode{}, check.Refuse("code", code, ErrWrongSystem, "a density of 0.5 to 6.2 lb/ft³")
	}
	if g.IFD25 <= 0 {
		return GradeCode{}, check.Refuse("code", code, unit.ErrRange, "a firmness above zero")
	}
	return g, nil
}

// parseEuropean reads 2535, HR3530 or T25120.
func parseEuropean(code string) (GradeCode, error) {
	s := strings.TrimSpace(code)
	if strings.ContainsAny(s, "./") {
		return GradeCode{}, check.Refuse("code", code, ErrWrongSystem, "a European code without a point, such as HR3530")
	}
	family, rest := splitLetters(s)
	if len(family) > 3 || !digits(rest) || (len(rest) != 4 && len(rest) != 5) {
		return GradeCode{}, check.Refuse("code", code, unit.ErrSyntax, "a code such as 2535, HR3530 or T25120")
	}
	g := GradeCode{
		System: EuropeanBedding, Family: family,
		Density: unit.Density(number(rest[:2])) * unit.KilogramPerCubicMetre,
		Basis:   cite.Basis{Status: cite.FromMemory, Note: "letters and digits are common practice, the scale of the hardness is from memory"},
	}
	if !europeanDensities.Has(g.Density) {
		return GradeCode{}, check.Refuse("code", code, ErrWrongSystem, "a density of 15 to 100 kg/m³")
	}
	firm := number(rest[2:])
	if firm <= 0 {
		return GradeCode{}, check.Refuse("code", code, unit.ErrRange, "a hardness above zero")
	}
	if len(rest) == 4 {
		g.Stress = unit.Pressure(firm/10) * unit.Kilopascal
	} else {
		g.Hardness = HardnessA(firm)
	}
	return g, nil
}

func splitLetters(s string) (letters, rest string) {
	i := 0
	for i < len(s) && (s[i] >= 'A' && s[i] <= 'Z' || s[i] >= 'a' && s[i] <= 'z') {
		i++
	}
	return strings.ToUpper(s[:i]), s[i:]
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// number reads text already known to be a short decimal number.
func number(s string) float64 {
	x, _ := strconv.ParseFloat(s, 64) //nolint:errcheck // digits were checked
	return x
}
