package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// hideSpec is a hide in the words of a job file.
type hideSpec struct {
	Name    string     `json:"name"`
	Outline shape.Form `json:"outline"`
}

// hidesOf writes what a photo shows as the hides of goods.
func hidesOf(r reading) ([]byte, error) {
	panels, err := panelsOf(r, "", "")
	if err != nil {
		return nil, err
	}
	var out struct {
		Hides []hideSpec `json:"hides"`
	}
	for _, p := range panels {
		out.Hides = append(out.Hides, hideSpec{strings.Replace(p.Name, "panel", "hide", 1), p.Outline})
	}
	return encoded(out)
}

// tellAreas writes the area of every hide and how far it may be off, at most: a rim
// as wide as the outline may be off without its scale, and twice the share of the
// scale.
//
//	dA = P e + 2 A s
func (r reading) tellAreas(w io.Writer) {
	for _, p := range r.panels {
		area := p.outline.Area().SquareMetres()
		rim := p.outline.Perimeter().Metres() * (p.wrong() - p.off.Scale).Metres()
		off := rim + 2*area*float64(p.off.Lengths)
		squareFeet := unit.Foot.Metres() * unit.Foot.Metres()
		fmt.Fprintf(w, "%s: %.1f sq ft (%.3f m2), off by at most %.1f sq ft (%.1f %%)\n", strings.Replace(p.name, "panel", "hide", 1),
			area/squareFeet, area, off/squareFeet, 100*off/area)
	}
	fmt.Fprintln(w, "holes, marks in the leather and grades are not read: add them as defects, holes and zones of the hide")
}
