package bound

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/geom"
)

// Axes is a set of directions.
type Axes uint8

// X is across the roll, Y along it.
const (
	X Axes = 1 << iota
	Y
)

// Repeat is the pattern of the goods. Column i lies at FirstX + i Across for
// every whole i, and its motifs at FirstY + j Along - Falls[i mod len(Falls)]
// for every whole j: a positive fall is LOWER. Across or Along 0 means that
// the pattern does not repeat in that direction and binds nothing there.
type Repeat struct {
	Across, Along  int64
	FirstX, FirstY int64
	// Falls is the drop: how much lower each column lies than column 0. Nil
	// means that all columns are level; otherwise both repeats are needed.
	Falls []int64
	// FreeStart means that the first cut may be made at any height of the
	// pattern: FirstY is chosen with the layout.
	FreeStart bool
}

// Way is one way in which a piece may lie: the outline as it lies, up to a
// shift, and the point of it that must fall on a motif. The outline is simple;
// either sense will do.
type Way struct {
	Ring  geom.Ring
	Match geom.Point
}

// Ways lists the images of an outline and its match point under symmetries of
// the grid: quarter turns, mirrored or not.
func Ways(ring geom.Ring, match geom.Point, turns ...geom.Transform) []Way {
	out := make([]Way, len(turns))
	for i, t := range turns {
		out[i] = Way{ring.Transform(t), t.Apply(match)}
	}
	return out
}

// Piece is an outline to be cut Count times.
type Piece struct {
	Count int
	Ways  []Way // at least one
	// Match says in which directions a motif must lie on the match point.
	Match Axes
	// AnyAngle lets the piece lie at every angle; then only the first way
	// counts, and its match point does not.
	AnyAngle bool
}

// StripJob is a set of outlines to be laid on a roll without overlapping, with
// the least length used.
type StripJob struct {
	Width  int64 // usable width
	Gap    int64 // least distance between two pieces
	Repeat Repeat
	Pieces []Piece
	// Whole means that every corner of a layout, and the motifs, lie on whole
	// units; bounds are then rounded up to the unit.
	Whole bool
}

// InputError is a field of a job outside its range. Match it with errors.As.
type InputError struct {
	Field string // such as "Pieces[3].Count"
	Value string
	Want  string // the accepted range
}

func (e *InputError) Error() string {
	return fmt.Sprintf("bound: %s is %s, want %s", e.Field, e.Value, e.Want)
}

func refuse(field string, value any, want string) error {
	return &InputError{field, fmt.Sprint(value), want}
}

// MaxPieces is the most copies a job may have in all.
const MaxPieces = 20_000

// maxWidth is the largest width of a roll, 8.6 m in nanometres. It keeps sums
// of chords inside 64 bits.
const maxWidth = 1 << 33

// mostCorners is the most corners an outline may have.
const mostCorners = 20_000

func inRange(v int64) bool { return v >= -geom.MaxCoord && v <= geom.MaxCoord }

func checkPieces(pieces []Piece) error {
	total := 0
	for i, p := range pieces {
		name := fmt.Sprintf("Pieces[%d]", i)
		if p.Count < 1 || p.Count > MaxPieces {
			return refuse(name+".Count", p.Count, "1 to 20000")
		}
		if total += p.Count; total > MaxPieces {
			return refuse(name+".Count", total, "at most 20000 pieces in all")
		}
		if len(p.Ways) == 0 || len(p.Ways) > 1000 {
			return refuse(name+".Ways", len(p.Ways), "1 to 1000 ways to lie")
		}
		for k, w := range p.Ways {
			if err := checkRing(fmt.Sprintf("%s.Ways[%d].Ring", name, k), w.Ring); err != nil {
				return err
			}
			if !w.Match.InRange() {
				return refuse(fmt.Sprintf("%s.Ways[%d].Match", name, k), w.Match, "coordinates within 1e11")
			}
		}
		if p.Match > X|Y {
			return refuse(name+".Match", p.Match, "X, Y, both or none")
		}
	}
	return nil
}

func checkRing(field string, r geom.Ring) error {
	if len(r) > mostCorners {
		return refuse(field, fmt.Sprint(len(r), " corners"), "at most 20000 corners")
	}
	for _, q := range r {
		if !q.InRange() {
			return refuse(field, q, "coordinates within 1e11")
		}
	}
	if r.Orientation() == 0 {
		return refuse(field, fmt.Sprint(len(r), " corners"), "an outline with an area")
	}
	return nil
}

// Validate reports the first field outside its range as an [*InputError].
func (j *StripJob) Validate() error {
	if j.Width < 1 || j.Width > maxWidth {
		return refuse("Width", j.Width, "1 to 2^33")
	}
	if j.Gap < 0 || j.Gap > maxWidth {
		return refuse("Gap", j.Gap, "0 to 2^33")
	}
	r := &j.Repeat
	for _, f := range []struct {
		name  string
		value int64
	}{{"Across", r.Across}, {"Along", r.Along}} {
		if f.value < 0 || f.value > geom.MaxCoord {
			return refuse("Repeat."+f.name, f.value, "0 to 1e11")
		}
	}
	if !inRange(r.FirstX) {
		return refuse("Repeat.FirstX", r.FirstX, "within 1e11")
	}
	if !inRange(r.FirstY) {
		return refuse("Repeat.FirstY", r.FirstY, "within 1e11")
	}
	if len(r.Falls) > 0 && (r.Across == 0 || r.Along == 0 || len(r.Falls) > 1000) {
		return refuse("Repeat.Falls", len(r.Falls), "at most 1000, and both repeats")
	}
	for i, f := range r.Falls {
		if !inRange(f) {
			return refuse(fmt.Sprintf("Repeat.Falls[%d]", i), f, "within 1e11")
		}
	}
	return checkPieces(j.Pieces)
}
