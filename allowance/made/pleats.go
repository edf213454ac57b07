package made

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// PleatKind is how cloth is folded: [KnifePleat], [BoxPleat] or [InvertedPleat].
// The zero value is a knife pleat.
type PleatKind uint8

const (
	// KnifePleat folds all one way.
	KnifePleat PleatKind = iota
	// BoxPleat folds two ways, away from each other, with the box on the face.
	BoxPleat
	// InvertedPleat folds two ways, towards each other, with the box behind.
	InvertedPleat
)

var pleatNames = [...]string{"knife pleat", "box pleat", "inverted pleat"}

// String gives the name.
func (k PleatKind) String() string { return enum.Name(k, "pleat", pleatNames[:]) }

// MarshalText writes the name.
func (k PleatKind) MarshalText() ([]byte, error) { return enum.Text(k, "pleat", pleatNames[:]) }

// UnmarshalText reads a name as String writes it.
func (k *PleatKind) UnmarshalText(text []byte) error {
	return enum.Read(k, text, "pleat", pleatNames[:])
}

// mostFullness is the most cloth for a seam, as a multiple of it.
const mostFullness unit.Ratio = 10

// Pleats is a pleated length. The zero value is refused.
type Pleats struct {
	Kind     PleatKind   `json:"kind"`
	Finished unit.Length `json:"finished"` // length when pleated
	Count    int         `json:"count"`    // pleats in it, 1 to 10 000
	// Underfold is the depth of each fold behind the face: a knife pleat has
	// one, a box or inverted pleat two.
	Underfold unit.Length `json:"underfold"`
	// Double lays a second fold under the first of a box or inverted pleat.
	Double bool `json:"double,omitempty"`
}

// Pleated is a pleated length as it is cut and marked.
type Pleated struct {
	Spacing unit.Length `json:"spacing"` // from pleat to pleat when finished, to the nanometre
	Cloth   unit.Length `json:"cloth"`   // flat length, no ends added
	Ratio   unit.Ratio  `json:"ratio"`   // cloth over finished
	// Meets tells whether the folds behind fill the spacing: they lie edge to
	// edge, or overlap.
	Meets bool `json:"meets"`
}

// Cloth gives the flat length. A fold of depth u takes 2 u of cloth; with f
// folds in each pleat (1 knife, 2 box or inverted, 4 when double) and spacing
// p = finished / count:
//
//	cloth = finished + 2 u f × count
//	ratio = 1 + 2 u f / p
//
// so a knife pleat with u = p/2, p, 1.5 p and 2 p asks for 2, 3, 4 and 5 times
// the length, and box pleats that meet (u = p/2) for 3, double ones for 5. A ratio over 10, the most that GatheredSkirt takes too, is
// refused: no seam holds so many layers.
//
// Drawing: allowance/doc/pleats.svg
func (p Pleats) Cloth() (Pleated, error) {
	if p.Kind > InvertedPleat {
		return Pleated{}, check.OneOf("kind", p.Kind.String(), pleatNames[:]...)
	}
	if err := check.Positives([]string{"finished", "underfold"}, p.Finished, p.Underfold); err != nil {
		return Pleated{}, err
	}
	if err := check.Count("count", p.Count, 1, mostPieces); err != nil {
		return Pleated{}, err
	}
	folds := 1
	if p.Kind != KnifePleat {
		folds = 2
	}
	if p.Double {
		if p.Kind == KnifePleat {
			return Pleated{}, check.Refuse("double", "true", unit.ErrRange, "a box or inverted pleat")
		}
		folds = 4
	}
	more, err := p.Underfold.Times(2 * folds * p.Count)
	if err != nil {
		return Pleated{}, err
	}
	var out Pleated
	if out.Cloth, err = p.Finished.Plus(more); err != nil {
		return Pleated{}, err
	}
	if out.Ratio, err = out.Cloth.Per(p.Finished); err != nil {
		return Pleated{}, err
	}
	if out.Ratio > mostFullness {
		return Pleated{}, check.Refuse("underfold", p.Underfold.String(), unit.ErrRange, fmt.Sprintf("folds that take at most %v times the finished length", float64(mostFullness)))
	}
	if out.Spacing, err = p.Finished.MulDiv(1, p.Count, unit.Nearest); err != nil {
		return Pleated{}, err
	}
	// layers side by side behind one spacing: one fold of a knife pleat, two
	// of a box; a double one lies over the first
	behind := p.Underfold
	if p.Kind != KnifePleat {
		behind *= 2
	}
	out.Meets = behind >= out.Spacing
	return out, nil
}

// KnifePleatRatio gives cloth over finished length for knife pleats of
// underfold u and spacing p: 1 + 2 u / p. Both are above zero.
func KnifePleatRatio(underfold, spacing unit.Length) (unit.Ratio, error) {
	if err := check.Positives([]string{"underfold", "spacing"}, underfold, spacing); err != nil {
		return 0, err
	}
	r, err := underfold.Per(spacing)
	return 1 + 2*r, err
}

// BoxPleatRatio gives cloth over finished length for box pleats of face p with
// a gap g between them, each folded under by half its face on both sides:
//
//	(3 p + g) / (p + g)
//
// which is 3 when they meet and 2 when the gap equals the face. Face is above
// zero, gap from zero.
func BoxPleatRatio(face, gap unit.Length) (unit.Ratio, error) {
	if err := check.Positive("face", face); err != nil {
		return 0, err
	}
	if err := check.NotNegative("gap", gap); err != nil {
		return 0, err
	}
	return (3*face + gap).Per(face + gap)
}

// Fullness is a customary ratio of cloth to finished length.
type Fullness struct {
	Name  string     `json:"name"`
	Ratio unit.Ratio `json:"ratio"`
	Basis cite.Basis `json:"basis"`
}

var fullnesses = [...]Fullness{
	{"gathered skirt", 2, cite.Practice("about")},
	{"loose cover frill", 1.5, cite.Practice("")},
	{"single box pleats", 3, cite.Basis{Status: cite.Derived, Note: "pleats that meet lie three deep"}},
	{"double box pleats", 5, cite.Basis{Status: cite.Derived, Note: "pleats that meet and two folds on each side lie five deep"}},
	{"curtain, light", 1.5, cite.Practice("")},
	{"curtain, usual", 2, cite.Practice("")},
	{"curtain, full", 2.5, cite.Practice("")},
	{"curtain, sheer", 3, cite.Practice("")},
}

// Fullnesses lists the customary ratios.
func Fullnesses() []Fullness { return append([]Fullness(nil), fullnesses[:]...) }

// FullnessNamed finds a customary ratio. The error wraps unit.ErrUnknown and
// lists the names.
func FullnessNamed(name string) (Fullness, error) {
	names := make([]string, len(fullnesses))
	for i, f := range fullnesses {
		if f.Name == name {
			return f, nil
		}
		names[i] = f.Name
	}
	return Fullness{}, check.OneOf("fullness", name, names...)
}
