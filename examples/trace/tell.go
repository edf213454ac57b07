package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// tell writes what was read and how far it may be off.
func (r reading) tell(w io.Writer) {
	sigma, spare := r.view.Sigma()
	camera := r.view.Camera()
	marks := 0
	for _, p := range r.pages {
		marks += len(p)
	}
	fmt.Fprintf(w, "%s, %s, off by %.2f pixels (one standard deviation, %d measures to spare)\n",
		plural(len(r.pages), "page of marks", "pages of marks"), plural(marks, "mark", "marks"), float64(sigma), spare)
	height := fmt.Sprintf("%.1f m", camera.Height.Metres())
	if camera.Usual {
		height = "about " + height
	}
	fmt.Fprintf(w, "camera %s above, tilted by %.0f deg; lens %+.3f\n", height, camera.Tilt.Degrees(), float64(r.view.Lens()))
	for _, p := range r.panels {
		wide, tall := p.outline.Size()
		fmt.Fprintf(w, "%s: %s x %s mm, %s; off by at most %s mm (95 %%): marks and edge %s, scale %s, curves %s",
			p.name, tenths(wide), tenths(tall), plural(len(p.outline.Edges()), "side", "sides"),
			tenths(p.wrong()), tenths(p.off.Picture), tenths(p.off.Scale), tenths(p.fit.Tolerance))
		if p.off.Thickness > 0 {
			fmt.Fprintf(w, ", thickness %s", tenths(p.off.Thickness))
		}
		fmt.Fprintf(w, "; a pixel is %.2f mm; %.0f levels of contrast\n", r.view.PixelSize(p.lies.Centroid()).Millimetres(), p.seen.Levels)
	}
	if len(r.panels) > 0 {
		off := r.panels[0].off
		if off.Unmeasured {
			fmt.Fprintf(w, "scale: not measured, so every length may be off by %.1f %%; measure the two lines on the page (-across, -up)\n", 100*float64(off.Lengths))
		} else {
			fmt.Fprintf(w, "scale: measured to %.2f %%\n", 100*float64(off.Lengths))
		}
	}
	for _, n := range r.notes {
		fmt.Fprintln(w, "note:", n)
	}
}

// wrong is how far an outline may be off in all, its curves included.
func (p panel) wrong() unit.Length { return p.off.Outline + p.fit.Tolerance }

func tenths(l unit.Length) string { return fmt.Sprintf("%.1f", l.Millimetres()) }

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// piece and panelSpec are what goes into a job file, in its words.
type piece struct {
	Name   string      `json:"name,omitempty"`
	Panels []panelSpec `json:"panels"`
}

type panelSpec struct {
	Name    string     `json:"name"`
	Goods   string     `json:"goods"`
	Outline shape.Form `json:"outline"`
}

// panelsOf gives the panels of a photo for a job file. One alone takes the name
// given; more are numbered.
func panelsOf(r reading, name, goods string) ([]panelSpec, error) {
	var out []panelSpec
	for _, p := range r.panels {
		form, err := rounded(p.outline)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.name, err)
		}
		called := p.name
		if name != "" {
			called = name
			if len(r.panels) > 1 {
				called += " " + p.name
			}
		}
		out = append(out, panelSpec{called, goods, form})
	}
	return out, nil
}

// rounded gives the form of an outline of lines and curves with its points on
// hundredths of a millimetre: less than any photo tells.
func rounded(o shape.Outline) (shape.Form, error) {
	const step = unit.Millimetre / 100
	round := func(p shape.Point) shape.Point {
		to := func(l unit.Length) unit.Length { return unit.Length(math.Round(float64(l)/float64(step))) * step }
		return shape.Point{X: to(p.X), Y: to(p.Y)}
	}
	f := o.Shape()
	f.Trace.From = round(f.Trace.From)
	for _, e := range f.Trace.Edges {
		for i, p := range e.Pieces {
			if p.Bulge != 0 || p.Ellipse != nil {
				return o.Shape(), nil // an exact arc is left as it is
			}
			e.Pieces[i].To = round(p.To)
			for k, c := range p.By {
				e.Pieces[i].By[k] = round(c)
			}
		}
	}
	_, err := f.Outline()
	return f, err
}

// encoded writes JSON for people.
func encoded(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
