package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Boxing is the strip round a cushion, with or without a zip panel in it: a
// ring. Places on it are lengths along the seam line of the upper plate, from the
// middle of the back anticlockwise as seen from above. The zero value is refused:
// perimeter and depth must be given.
type Boxing struct {
	Perimeter unit.Length `json:"perimeter"` // of the plate at the seam line
	Depth     unit.Length `json:"depth"`     // finished height between the seam lines
	// Corners are those of the plate, in rising order: the back lies between the
	// last and the first. None is a ring without corners.
	Corners []RingCorner `json:"corners,omitempty"`
	// Front is where the front begins and ends, which is best one piece; zero is
	// the run between corners that lies opposite the middle of the back.
	Front [2]unit.Length `json:"front,omitzero"`
	// Match says that the front follows the pattern of its plate: its pieces are so
	// short that they can be moved by the repeat of the goods, or the front alone.
	Match bool `json:"match,omitempty"`
	// Seam is the allowance of the long edges and of every join; by default
	// that of a boxed seam. From 0 to 500 mm.
	Seam allowance.Override `json:"seam,omitzero"`
	// Least is the least finished length of a piece that is joined; 6 in by
	// default, common practice. From 10 mm to 1 m.
	Least allowance.Override `json:"least,omitzero"`

	Zip bool `json:"zip,omitempty"` // has a zip panel in the middle of the back
	// ZipLength is the finished length of the zip panel; zero is worked out.
	ZipLength unit.Length `json:"zip_length,omitzero"`
	// Pocket is how far the boxing laps over each end of the zip panel and is
	// folded back, to hide the slider: 1 1/4 in is usual. Zero has butt ends.
	Pocket unit.Length `json:"pocket,omitzero"`
	// ZipSeam is the allowance along the zip, of each half; by default that of a
	// zip seam. From 0 to 500 mm.
	ZipSeam allowance.Override `json:"zip_seam,omitzero"`
}

// RingCorner is a corner of the plate on its ring.
type RingCorner struct {
	Name string      `json:"name,omitempty"` // such as back and left
	At   unit.Length `json:"at"`
}

// BoxingCut is the boxing as it is made up.
type BoxingCut struct {
	Main    unit.Length `json:"main"`               // finished length beside the zip panel
	Opening unit.Length `json:"opening,omitzero"`   // finished length of the zip panel; zero without a zip
	Turn    unit.Length `json:"turn,omitzero"`      // how far the zip panel goes round each back corner
	Tape    unit.Length `json:"tape,omitzero"`      // length of zip to buy
	Width   unit.Length `json:"width"`              // cut width of the plain strip
	Length  unit.Length `json:"length"`             // cut length of all its pieces together
	Zips    unit.Length `json:"zip_width,omitzero"` // cut width of each half of the zip panel
	Along   bool        `json:"along,omitzero"`     // the pieces lie along the goods
	// Pieces stand round the ring, from the end of the zip panel anticlockwise,
	// without one from the first join; ZipPieces make up each half of the zip
	// panel.
	Pieces    []BoxingPiece `json:"pieces"`
	ZipPieces []BoxingPiece `json:"zip_pieces,omitempty"`
	Joins     []BoxingJoin  `json:"joins"`
	Area      unit.Area     `json:"area"` // of all pieces
}

// BoxingPiece is one piece of the ring.
type BoxingPiece struct {
	Name string      `json:"name"`
	From unit.Length `json:"from"` // place on the ring; below zero is before the middle of the back
	To   unit.Length `json:"to"`
	Cut  unit.Length `json:"cut"` // length to cut
	// Corners are those that it covers between its ends, by their places from where
	// it begins: its left end, the upper edge up.
	Corners []RingCorner `json:"corners,omitempty"`
}

// BoxingJoin is a seam across the ring.
type BoxingJoin struct {
	At     unit.Length `json:"at"`               // place on the ring
	Corner string      `json:"corner,omitempty"` // the nearest, if there is one
	Beyond unit.Length `json:"beyond,omitzero"`  // how far past it anticlockwise; before it below zero
	Front  bool        `json:"front,omitzero"`   // it cannot be kept out of the front
}

// String says where the join is.
func (j BoxingJoin) String() string {
	switch {
	case j.Front:
		j.Front = false
		return j.String() + ", in the front"
	case j.Corner == "":
		return j.At.String() + " from the middle of the back"
	case j.Beyond == 0:
		return "at the corner of " + j.Corner
	case j.Beyond < 0:
		return (-j.Beyond).String() + " before the corner of " + j.Corner
	}
	return j.Beyond.String() + " past the corner of " + j.Corner
}

// Common practice for boxing.
const (
	leastPiece  = 6 * unit.Inch
	clearCorner = 2 * unit.Inch // of a join that is at no corner
	usualTurn   = 3 * unit.Inch // of the zip round a back corner, up to the depth
	usualDeep   = 5 * unit.Inch
)

// seams resolves the allowances.
func (b Boxing) seams() (s, zip, least unit.Length, err error) {
	def, _ := allowance.BoxedSeam.Default()
	if s, err = ranged(b.Seam, "seam", def, 0, 500*unit.Millimetre); err != nil {
		return 0, 0, 0, err
	}
	def, _ = allowance.ZipSeam.Default()
	if zip, err = ranged(b.ZipSeam, "zip_seam", def, 0, 500*unit.Millimetre); err != nil {
		return 0, 0, 0, err
	}
	least, err = ranged(b.Least, "least", leastPiece, unit.Centimetre, unit.Metre)
	return s, zip, least, err
}

// check checks sizes and corners.
func (b Boxing) check() error {
	if err := inRange("perimeter", b.Perimeter, 2*unit.Centimetre, check.Longest); err != nil {
		return err
	}
	if err := inRange("depth", b.Depth, 2*unit.Millimetre, 10*unit.Metre); err != nil {
		return err
	}
	if err := check.Count("corners", len(b.Corners), 0, 1000); err != nil {
		return err
	}
	for i, c := range b.Corners {
		least := unit.Length(0)
		if i > 0 {
			least = b.Corners[i-1].At + 1
		}
		if err := inRange(check.At("corners", i)+".at", c.At, least, b.Perimeter-1); err != nil {
			return err
		}
	}
	if err := inRange("front[0]", b.Front[0], 0, b.Perimeter); err != nil {
		return err
	}
	if err := inRange("front[1]", b.Front[1], b.Front[0], b.Perimeter); err != nil {
		return err
	}
	if err := inRange("pocket", b.Pocket, 0, unit.Foot); err != nil {
		return err
	}
	if !b.Zip && b.ZipLength != 0 {
		return check.Refuse("zip_length", b.ZipLength.String(), unit.ErrRange, "none, or a zip")
	}
	if !b.Zip && b.Pocket != 0 {
		return check.Refuse("pocket", b.Pocket.String(), unit.ErrRange, "none, or a zip")
	}
	return nil
}

// back gives the length of the back, and how far the sides next to it run.
func (b Boxing) back() (w, left, right unit.Length) {
	p := b.Perimeter
	if len(b.Corners) == 0 {
		return 0, 0, 0
	}
	first, last := b.Corners[0].At, b.Corners[len(b.Corners)-1].At
	if len(b.Corners) == 1 {
		return 0, 0, 0
	}
	left, right = p/2-first, last-p/2
	if len(b.Corners) > 2 {
		left, right = b.Corners[1].At-first, last-b.Corners[len(b.Corners)-2].At
	}
	return p - last + first, max(left, 0), max(right, 0)
}

// rounded tells whether the back runs round into the sides, so that its corners are
// those of the front: no straight back is half as long as its ring.
func (b Boxing) rounded() bool {
	w, _, _ := b.back()
	return w > b.Perimeter/2
}

// front gives where the front is, the middle opposite the back when nothing
// says.
func (b Boxing) front() (from, to unit.Length) {
	if b.Front[1] > b.Front[0] {
		return b.Front[0], b.Front[1]
	}
	half := b.Perimeter / 2
	from, to = half, half
	for _, c := range b.Corners {
		if c.At <= half {
			from = c.At
		}
		if c.At >= half && to == half {
			to = c.At
		}
	}
	if from == half || to == half {
		return half, half
	}
	return from, to
}

// turn gives how far a zip goes round each back corner by default: 3 in up to 5
// in of depth, else half the depth and 1 in, but not past the middle of a side;
// on a side too short for a join off its corners it ends at the corner.
func (b Boxing) turn() unit.Length {
	_, left, right := b.back()
	r := usualTurn
	if b.Depth > usualDeep {
		r = b.Depth/2 + unit.Inch
	}
	side := min(left, right)
	if side < 2*clearCorner {
		return 0
	}
	return max(min(r, side/2), clearCorner)
}

// opening gives the zip panel before joins ask for a longer one.
func (b Boxing) opening() (unit.Length, error) {
	if !b.Zip {
		return 0, nil
	}
	z := b.ZipLength
	switch w, _, _ := b.back(); {
	case z != 0:
	case b.rounded(): // off the corners, which are those of the front
		z = min(max(b.Perimeter/2, b.girth()), w-2*clearCorner)
	case w > 0:
		z = w + 2*b.turn()
	default: // half the girth, a core of that size goes in
		z = max(b.Perimeter/2, b.girth())
	}
	field := "zip_length"
	if b.ZipLength == 0 {
		field = "perimeter"
	}
	if z < unit.Centimetre || z > b.Perimeter-unit.Centimetre {
		return 0, check.Refuse(field, z.String(), unit.ErrRange, "a zip panel that leaves some of the ring, at most "+onTape(b.Perimeter-unit.Centimetre, unit.Down, b.Depth).String())
	}
	return z, nil
}

// girth gives the opening through which a round core of the ring goes: its
// diameter and its depth, if they leave some of the ring.
func (b Boxing) girth() unit.Length {
	d, err := b.Perimeter.Scale(1/math.Pi, unit.Up)
	if err != nil || d+b.Depth > b.Perimeter*3/4 {
		return 0
	}
	return d + b.Depth
}
