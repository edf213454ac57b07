package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// GoreForm is how wide a gore is made: [ArcForm] or [ChordForm]. The zero value
// is the arc form.
type GoreForm uint8

const (
	// ArcForm makes a gore as wide as its share of the circle at each level,
	// so that the gores together have the surface of the sphere.
	ArcForm GoreForm = iota
	// ChordForm makes it as wide as the straight line across that share; the
	// cover is a little smaller and sits tighter.
	ChordForm
)

var goreNames = [...]string{"arc form", "chord form"}

// String gives the name.
func (f GoreForm) String() string { return enum.Name(f, "form", goreNames[:]) }

// MarshalText writes the name.
func (f GoreForm) MarshalText() ([]byte, error) { return enum.Text(f, "form", goreNames[:]) }

// UnmarshalText reads a name as String writes it.
func (f *GoreForm) UnmarshalText(text []byte) error {
	return enum.Read(f, text, "form", goreNames[:])
}

// Dome is part of a sphere covered with equal gores that meet at the top. The
// zero value is refused.
type Dome struct {
	Radius unit.Length `json:"radius"` // of the sphere
	Gores  int         `json:"gores"`  // 3 to 1000
	// Rim is the latitude the gores start from: 0 (the zero value) gives half
	// a sphere, -90 degrees a whole one, 60 degrees a shallow cap. From -90 to
	// under 89.
	Rim  unit.Angle         `json:"rim,omitempty"`
	Form GoreForm           `json:"form,omitzero"`
	Seam allowance.Override `json:"seam,omitzero"` // of the sides; by default that of a plain seam
	// Intervals is how many equal steps the pattern is drawn in, 2 to 1000;
	// zero means 12.
	Intervals int `json:"intervals,omitempty"`
}

// GoreStation is one level of a gore.
type GoreStation struct {
	Latitude  unit.Angle  `json:"latitude"`
	FromRim   unit.Length `json:"from_rim"`   // along the middle of the gore
	HalfWidth unit.Length `json:"half_width"` // of the seam line, from the middle
}

// Gore is one gore of a dome.
type Gore struct {
	Count     int           `json:"count"`  // gores to cut
	Length    unit.Length   `json:"length"` // seam line, rim to pole
	Width     unit.Length   `json:"width"`  // seam line, at the widest
	CutWidth  unit.Length   `json:"cut_width"`
	Area      unit.Area     `json:"area"`       // inside the seam line, of one
	TotalArea unit.Area     `json:"total_area"` // of all gores
	Stations  []GoreStation `json:"stations"`   // rim first
}

// HalfWidth gives half the width of a gore at a latitude t:
//
//	arc form:   π ρ cos t / n
//	chord form: ρ cos t sin(π/n)
//
// at the distance ρ t from the equator. Latitude is from -90 to 90 degrees.
func (d Dome) HalfWidth(latitude unit.Angle) (unit.Length, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if err := check.Between("latitude", latitude, -90*unit.Degree, 90*unit.Degree); err != nil {
		return 0, err
	}
	if latitude == 90*unit.Degree || latitude == -90*unit.Degree {
		return 0, nil
	}
	return nano.Length(float64(d.Radius) * math.Cos(latitude.Radians()) * d.share())
}

// share is half a gore's width at the equator for radius one.
func (d Dome) share() float64 {
	if d.Form == ChordForm {
		return math.Sin(math.Pi / float64(d.Gores))
	}
	return math.Pi / float64(d.Gores)
}

// Gore gives the pattern of one gore. Its length is ρ (90° - rim) and its area
// 2 ρ² k (1 - sin rim), with k the half width at the equator for ρ = 1.
//
// Drawing: allowance/doc/dome.svg
func (d Dome) Gore() (Gore, error) {
	if err := d.check(); err != nil {
		return Gore{}, err
	}
	s, err := seamOr(d.Seam, allowance.PlainSeam)
	if err != nil {
		return Gore{}, err
	}
	g := Gore{Count: d.Gores}
	span := 90*unit.Degree - d.Rim
	if g.Length, err = nano.Length(float64(d.Radius) * span.Radians()); err != nil {
		return Gore{}, err
	}
	widest := d.Rim
	if widest < 0 {
		widest = 0
	}
	half, err := d.HalfWidth(widest)
	if err != nil {
		return Gore{}, err
	}
	g.Width, g.CutWidth = 2*half, 2*half+2*s
	if g.Area, err = nano.Area(2 * nano.Square(float64(d.Radius)) * d.share() * (1 - math.Sin(d.Rim.Radians()))); err != nil {
		return Gore{}, err
	}
	if g.TotalArea, err = nano.Area(2 * nano.Square(float64(d.Radius)) * d.share() * float64(d.Gores) * (1 - math.Sin(d.Rim.Radians()))); err != nil {
		return Gore{}, err
	}
	n := d.Intervals
	if n == 0 {
		n = 12
	}
	for i := range n + 1 {
		st := GoreStation{Latitude: d.Rim + span*unit.Angle(i)/unit.Angle(n)}
		if i == n {
			st.Latitude = 90 * unit.Degree
		}
		if st.FromRim, err = g.Length.MulDiv(i, n, unit.Nearest); err != nil {
			return Gore{}, err
		}
		if st.HalfWidth, err = d.HalfWidth(st.Latitude); err != nil {
			return Gore{}, err
		}
		g.Stations = append(g.Stations, st)
	}
	return g, nil
}

func (d Dome) check() error {
	if err := check.Positive("radius", d.Radius); err != nil {
		return err
	}
	if err := check.Count("gores", d.Gores, 3, 1000); err != nil {
		return err
	}
	if err := check.Between("rim", d.Rim, -90*unit.Degree, 89*unit.Degree); err != nil {
		return err
	}
	if d.Form > ChordForm {
		return check.OneOf("form", d.Form.String(), goreNames[:]...)
	}
	if d.Intervals != 0 {
		return check.Count("intervals", d.Intervals, 2, 1000)
	}
	return nil
}
