package camera

import (
	"errors"
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// What a set of marks can be refused for.
var (
	ErrDegenerate = errors.New("marks do not fix the plane")
	ErrMisfit     = errors.New("marks do not fit")
	ErrMirrored   = errors.New("picture is mirrored")
	ErrBehind     = errors.New("behind the camera")
	ErrLens       = errors.New("lens bends lines too much")
	ErrOutside    = errors.New("outside the picture")
)

const (
	mostPixels = 100_000
	// mostPlace is the largest coordinate of a mark, in millimetres.
	mostPlace = 50_000
)

// Pixels writes a number of pixels.
func Pixels(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) + " px" }

// checkMarks refuses what cannot be a picture of marks.
func checkMarks(width, height int, pages [][]Mark) error {
	if err := check.Count("width", width, 16, mostPixels); err != nil {
		return err
	}
	if err := check.Count("height", height, 16, mostPixels); err != nil {
		return err
	}
	if err := check.Count("pages", len(pages), 1, Most); err != nil {
		return err
	}
	total := 0
	for j, p := range pages {
		if total += len(p); len(p) < 2 || total > Most {
			return check.Count(Path(j, -1), len(p), 2, Most-total+len(p))
		}
		for i, m := range p {
			if err := Inside(Path(j, i).Dot("seen"), m.Seen, width, height); err != nil {
				return err
			}
			for _, x := range [2]float64{m.At.X, m.At.Y} {
				if !(math.Abs(x) <= mostPlace) {
					return check.Refuse(Path(j, i).Dot("at"), "", unit.ErrRange, "a place within 50 m")
				}
			}
		}
	}
	return nil
}

// Inside refuses a pixel that does not lie in the picture.
func Inside(field unit.Path, p Point, width, height int) error {
	for _, x := range [2]float64{p.X, p.Y} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return check.Refuse(field, strconv.FormatFloat(x, 'g', -1, 64), unit.ErrNotFinite, "two numbers of pixels")
		}
	}
	if p.X < 0 || p.Y < 0 || p.X > float64(width) || p.Y > float64(height) {
		text := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
		return check.Refuse(field, text(p.X)+", "+text(p.Y), ErrOutside, "a pixel of the picture, up to "+strconv.Itoa(width)+", "+strconv.Itoa(height))
	}
	return nil
}

// spreadOut tells whether the points fix a homography: whether there are four of
// which the smallest triangle has a fiftieth of the area of the box round all.
func spreadOut(ps []Point) bool {
	if len(ps) < 4 {
		return false
	}
	a := farthest(ps, func(p Point) float64 { return p.Sub(ps[0]).Norm() })
	b := farthest(ps, func(p Point) float64 { return p.Sub(a).Norm() })
	area := func(p, q, r Point) float64 { return math.Abs(q.Sub(p).Cross(r.Sub(p))) / 2 }
	c := farthest(ps, func(p Point) float64 { return area(a, b, p) })
	least := func(p Point) float64 {
		return math.Min(math.Min(area(a, b, p), area(b, c, p)), math.Min(area(c, a, p), area(a, b, c)))
	}
	d := farthest(ps, least)
	low, high := ps[0], ps[0]
	for _, p := range ps {
		low, high = Point{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}, Point{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	return least(d) > 0.02*(high.X-low.X)*(high.Y-low.Y)
}

func farthest(ps []Point, far func(Point) float64) Point {
	out, most := ps[0], far(ps[0])
	for _, p := range ps[1:] {
		if d := far(p); d > most {
			out, most = p, d
		}
	}
	return out
}
