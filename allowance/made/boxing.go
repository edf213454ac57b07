package made

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// Boxing is the strip between the two plates of a boxed cushion. The zero
// value is refused: perimeter and depth must be given.
type Boxing struct {
	Perimeter unit.Length `json:"perimeter"` // of the plate at the stitch line
	Depth     unit.Length `json:"depth"`     // finished height between the stitch lines
	// Seam is the allowance of the long edges and of every join; by default
	// that of a boxed seam. From 0 to 2 m.
	Seam allowance.Override `json:"seam,omitzero"`
	// Longest is the longest piece the goods allow, such as the usable width
	// of the cloth. Zero means no limit.
	Longest unit.Length `json:"longest,omitzero"`
	// Zip is the zip strip at the back; the zero value has none.
	Zip ZipStrip `json:"zip,omitzero"`
}

// ZipStrip is the part of the boxing that opens: two halves with the zip
// between them, across the back and some way round the corners.
type ZipStrip struct {
	// Back is the length of the back at the stitch line. Zero means no zip.
	Back unit.Length `json:"back,omitzero"`
	// Wrap is how much longer than the back the strip is cut at each end;
	// 4 in by default, common practice. From 0 to 2 m.
	Wrap allowance.Override `json:"wrap,omitzero"`
	// Seam is the allowance along the zip, of each half; by default that of a
	// zip seam. From 0 to 2 m.
	Seam allowance.Override `json:"seam,omitzero"`
}

// zipWrap is common practice: the tape is 8 in longer than the back.
const zipWrap = 4 * unit.Inch

// BoxingCut is the boxing as it is cut.
type BoxingCut struct {
	Width  unit.Length `json:"width"`  // cut width of the plain strip
	Length unit.Length `json:"length"` // cut length of all its pieces together
	// Pieces are the pieces of the plain strip, the front piece first, then
	// the zip strip halves.
	Pieces []Strip `json:"pieces"`
	// Joins are the places of the cross seams, as distances round the stitch
	// line from the middle of the back, in rising order.
	Joins []unit.Length `json:"joins"`
	// ZipWidth and ZipLength are the cut size of each of the two zip strip
	// halves, and ZipTape the length of zip; zero without a zip.
	ZipWidth  unit.Length `json:"zip_width,omitzero"`
	ZipLength unit.Length `json:"zip_length,omitzero"`
	ZipTape   unit.Length `json:"zip_tape,omitzero"`
	Area      unit.Area   `json:"area"` // of all pieces
}

// Cut gives the pieces of the boxing. With s the seam allowance, z that along
// the zip and n plain pieces in the ring:
//
//	width             = depth + 2 s
//	length, no zip    = perimeter + 2 s n
//	zip strip length  = back + 2 wrap
//	zip strip width   = depth / 2 + s + z, each of two
//	length beside it  = perimeter - (zip strip length - 2 s) + 2 s n
//
// The joins lie as far back as the goods allow: a single piece joins in the
// middle of the back; when several are needed, the front piece is as long as
// Longest allows and centred on the front, and the others share the rest. With
// a zip the pieces lie the same on both sides, so their number is odd.
//
// The rules are common practice. Errors are *unit.InputError values that name
// the field.
//
// Drawing: allowance/doc/boxing.svg
func (b Boxing) Cut() (BoxingCut, error) {
	if err := check.Positive("perimeter", b.Perimeter); err != nil {
		return BoxingCut{}, err
	}
	if err := check.Positive("depth", b.Depth); err != nil {
		return BoxingCut{}, err
	}
	def, _ := allowance.BoxedSeam.Default()
	s, err := given(b.Seam, "seam", def)
	if err != nil {
		return BoxingCut{}, err
	}
	c := BoxingCut{Width: b.Depth + 2*s}

	ring := b.Perimeter // finished length that the plain pieces must fill
	if b.Zip != (ZipStrip{}) {
		if err := b.zip(&c, s); err != nil {
			return BoxingCut{}, unit.InField("zip", err)
		}
		ring -= c.ZipLength - 2*s
	}
	plain, err := b.pieces(ring, s)
	if err != nil {
		return BoxingCut{}, err
	}
	// walk round from the middle of the back, through the front
	at := (b.Perimeter - ring) / 2
	order := plain
	if n := len(plain); n > 1 {
		// front piece first in the list; round the ring it stands after half
		// of the others, or, without a zip, between the two ends of the back
		order = roundTheRing(plain, c.ZipLength > 0)
		if c.ZipLength == 0 {
			at = b.Perimeter/2 - plain[0]/2
		}
	}
	c.Joins = joins(b.Perimeter, at, order, c.ZipLength > 0)

	cut := make([]unit.Length, len(plain))
	for i, l := range plain {
		cut[i] = l + 2*s
		c.Length += cut[i] // within 1 km + joins
	}
	c.Pieces = grouped("boxing", c.Width, cut)
	if c.ZipLength > 0 {
		c.Pieces = append(c.Pieces, Strip{Use: zipUse, Count: 2, Width: c.ZipWidth, Length: c.ZipLength})
	}
	for _, p := range c.Pieces {
		a, err := p.Area()
		if err != nil {
			return BoxingCut{}, unit.InField("area", err)
		}
		if c.Area, err = c.Area.Plus(a); err != nil {
			return BoxingCut{}, unit.InField("area", err)
		}
	}
	return c, nil
}

// zip works out the zip strip. The finished strip must leave some plain
// boxing, and its cut length must be more than its two joins.
func (b Boxing) zip(c *BoxingCut, s unit.Length) error {
	if err := check.Length("back", b.Zip.Back, 10*unit.Micrometre, b.Perimeter); err != nil {
		return err
	}
	wrap, err := given(b.Zip.Wrap, "wrap", zipWrap)
	if err != nil {
		return err
	}
	def, _ := allowance.ZipSeam.Default()
	z, err := given(b.Zip.Seam, "seam", def)
	if err != nil {
		return err
	}
	half, err := b.Depth.MulDiv(1, 2, unit.Up)
	if err != nil {
		return err
	}
	c.ZipLength = b.Zip.Back + 2*wrap
	c.ZipTape = c.ZipLength
	c.ZipWidth = half + s + z
	return check.Length("length", c.ZipLength, 2*s+10*unit.Micrometre, b.Perimeter+2*s-10*unit.Micrometre)
}

// pieces gives the finished lengths of the plain pieces, the front one first.
func (b Boxing) pieces(ring, s unit.Length) ([]unit.Length, error) {
	if b.Longest == 0 {
		return []unit.Length{ring}, nil
	}
	if err := check.Length("longest", b.Longest, 2*s+unit.Millimetre, check.Longest); err != nil {
		return nil, err
	}
	reach := b.Longest - 2*s // finished length of the longest piece
	n := nano.CeilDiv(ring, reach)
	if n > mostPieces {
		return nil, check.Length("longest", b.Longest, 2*s+ring/mostPieces+1, check.Longest)
	}
	if b.Zip != (ZipStrip{}) && n%2 == 0 {
		n++
	}
	if n == 1 {
		return []unit.Length{ring}, nil
	}
	front := min(reach, ring)
	others := int(n - 1)
	if rest := ring - front; rest < unit.Length(others)*unit.Millimetre {
		// a sliver would be left: share evenly instead
		return share(ring, int(n)), nil
	}
	return append([]unit.Length{front}, share(ring-front, others)...), nil
}

// roundTheRing orders the pieces as they are met. With a zip the walk starts
// at the end of the zip, so half of the others come before the front piece;
// without one it starts at the front piece.
func roundTheRing(plain []unit.Length, zip bool) []unit.Length {
	if !zip {
		return plain
	}
	half := (len(plain) - 1) / 2
	out := append([]unit.Length{}, plain[1:1+half]...)
	out = append(out, plain[0])
	return append(out, plain[1+half:]...)
}

// joins gives the seams between the pieces that start at the given place,
// within the perimeter, in rising order.
func joins(perimeter, at unit.Length, order []unit.Length, zip bool) []unit.Length {
	out := []unit.Length{at % perimeter}
	for i, l := range order {
		at += l
		if i < len(order)-1 || zip {
			out = append(out, at%perimeter)
		}
	}
	slices.Sort(out)
	return out
}
