package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
)

// points is an outline as it stands in a file: [[x,y],...].
type points [][]float64

// polygonItem is one outline with its number of copies. Keys that are not
// listed are ignored.
type polygonItem struct {
	ID         any       `json:"id"` // text or number
	Qty        *whole    `json:"qty"`
	Rot        []float64 `json:"rot"`
	MinQuality *whole    `json:"min_quality"`
	Pts        points    `json:"pts"`
}

func (it *polygonItem) name() string { return label(it.ID) }

// label is a name given as text or as a number.
func label(id any) string {
	switch v := id.(type) {
	case string:
		return v
	case nil:
		return ""
	}
	return clip(fmt.Sprint(id))
}

// whole is a whole number that may be written with a fraction of 0.
type whole int

// UnmarshalJSON refuses fractions and numbers beyond 32 bits.
func (w *whole) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return nil
	}
	v, err := wholeNumber(json.Number(data))
	if err != nil {
		return err
	}
	if v < math.MinInt32 || v > math.MaxInt32 {
		return fmt.Errorf("%s is out of range", clip(string(data)))
	}
	*w = whole(v)
	return nil
}

// count is the number of copies: 1 if the key is missing.
func (it *polygonItem) count() (int, error) {
	if it.Qty == nil {
		return 1, nil
	}
	if *it.Qty < 1 {
		return 0, badInput("item %s: qty = %d: want 1 or more", it.name(), *it.Qty)
	}
	return int(*it.Qty), nil
}

// span is the largest coordinate of an outline.
func (p points) span() (m float64, err error) {
	for i, c := range p {
		if len(c) != 2 {
			return 0, badInput("point %d has %d numbers: want x and y", i, len(c))
		}
		m = max(m, math.Abs(c[0]), math.Abs(c[1]))
	}
	return m, nil
}

// area is the area inside the outline, in units of the file.
func (p points) area() float64 {
	s := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		s += a[0]*b[1] - b[0]*a[1]
	}
	return math.Abs(s) / 2
}

// ring scales the outline to whole units.
func (p points) ring(unit float64) (geom.Ring, error) {
	r := make(geom.Ring, len(p))
	for i, c := range p {
		x, y := math.Round(c[0]*unit), math.Round(c[1]*unit)
		if !(math.Abs(x) < nest.MaxCoord && math.Abs(y) < nest.MaxCoord) {
			return nil, badInput("point %d = (%v, %v): out of range", i, c[0], c[1])
		}
		r[i] = geom.Point{X: int64(x), Y: int64(y)}
	}
	return r, nil
}

// unitFor is the power of ten by which a file is scaled so that its largest
// coordinate comes to at least low units: short decimals stay exact.
func unitFor(span, low float64) (float64, error) {
	if !(span > 0) || span > 1e15 || span < 1e-9 {
		return 0, badInput("largest coordinate %v: want 1e-9 .. 1e15", span)
	}
	unit := 1.0
	for span*unit < low {
		unit *= 10
	}
	for span*unit > 1e8 {
		unit /= 10
	}
	return unit, nil
}

// asInput marks what the engine refused as a mistake in the input.
func asInput(name string, err error) error {
	if errors.As(err, new(*nest.InputError)) {
		return badInput("%s: %w", name, err)
	}
	return err
}

func readJSON(file string, std stdio, v any) error {
	data, err := readFile(file, std)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return badInput("%s: %w", file, err)
	}
	return nil
}
