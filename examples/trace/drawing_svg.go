package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Elements whose contents are not drawn where they stand.
var undrawn = []string{"defs", "clipPath", "mask", "pattern", "symbol", "marker", "metadata"}

// svg reads the closed lines of an SVG drawing in true size.
func (d drawing) svg(text []byte) (rings []ring, left int, err error) {
	dec := xml.NewDecoder(bytes.NewReader(text))
	dec.Strict = true
	user, depth := d.unit, 0
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			if depth == 0 && user == 0 {
				return nil, 0, refuseDrawing("it holds no SVG")
			}
			return rings, left, nil
		}
		if err != nil {
			return nil, 0, refuseDrawing("it is no SVG that can be read (%v)", err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		name := e.Name.Local
		if slices.Contains(undrawn, name) {
			if err := dec.Skip(); err != nil {
				return nil, 0, refuseDrawing("it is no SVG that can be read (%v)", err)
			}
			continue
		}
		if depth++; depth == 1 && user == 0 {
			if user, err = trueSize(e); err != nil {
				return nil, 0, err
			}
		}
		if attr(e, "transform") != "" {
			return nil, 0, refuseDrawing("an element of it is moved or turned (transform); have the drawing program apply that, and save it again")
		}
		data, closed, err := pathData(e)
		switch {
		case err != nil:
			return nil, 0, err
		case !closed:
			if data != "" {
				left++
			}
			continue
		}
		r, err := ringOf(data, user)
		if err != nil {
			return nil, 0, fmt.Errorf("%w: %s %q: %w", errDrawing, name, attr(e, "id"), err)
		}
		rings = append(rings, r)
	}
}

func ringOf(data string, user unit.Length) (ring, error) {
	o, err := shape.Path(data, user)
	if err != nil {
		return ring{}, err
	}
	paths, err := geom.ParsePath(data, float64(user))
	if err != nil || len(paths) == 0 {
		return ring{}, err
	}
	b := paths[0].Bounds()
	return ring{o, float64(b.Min.X), float64(b.Min.Y), float64(b.Max.X), float64(b.Max.Y)}, nil
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// trueSize gives the length of a user unit: from the width and height of the
// drawing and its box in units.
func trueSize(e xml.StartElement) (unit.Length, error) {
	width, err := unit.ParseLength(attr(e, "width"))
	height, err2 := unit.ParseLength(attr(e, "height"))
	if e.Name.Local != "svg" {
		return 0, refuseDrawing("it holds no SVG")
	}
	box := strings.FieldsFunc(attr(e, "viewBox"), func(r rune) bool { return r == ' ' || r == ',' || r == '\t' || r == '\n' })
	if err != nil || err2 != nil || len(box) != 4 {
		return 0, refuseDrawing("it does not say its true size: width and height in mm or in, and a viewBox; or give -unit, the length of one unit")
	}
	w, err := strconv.ParseFloat(box[2], 64)
	h, err2 := strconv.ParseFloat(box[3], 64)
	if err != nil || err2 != nil || !(w > 0 && h > 0) {
		return 0, refuseDrawing("its viewBox %q holds no size", attr(e, "viewBox"))
	}
	fx, fy := float64(width)/w, float64(height)/h
	if math.Abs(fx/fy-1) > 0.001 || !(fx >= 1000 && fx <= 1e9) {
		return 0, refuseDrawing("it is stretched: width and height do not fit its viewBox")
	}
	return unit.Length(math.Round(fx)), nil
}

// pathData gives path data of an element, and whether it is closed; none for
// elements that are no lines.
func pathData(e xml.StartElement) (data string, closed bool, err error) {
	number := func(name string) float64 {
		s := attr(e, name)
		if s == "" {
			return 0
		}
		v, e := strconv.ParseFloat(s, 64)
		if e != nil && err == nil {
			err = refuseDrawing("%s=%q is no plain number", name, s)
		}
		return v
	}
	switch e.Name.Local {
	case "path":
		data = attr(e, "d")
		return data, strings.HasSuffix(strings.ToLower(data), "z"), nil
	case "polygon":
		return "M " + attr(e, "points") + " Z", true, nil
	case "polyline", "line":
		return "open", false, nil
	case "rect":
		x, y, w, h := number("x"), number("y"), number("width"), number("height")
		if number("rx") != 0 || number("ry") != 0 {
			return "", false, refuseDrawing("a rectangle has round corners; make it a path")
		}
		return fmt.Sprintf("M %v %v h %v v %v h %v z", x, y, w, h, -w), true, err
	case "circle", "ellipse":
		rx, ry := number("rx"), number("ry")
		if e.Name.Local == "circle" {
			rx = number("r")
			ry = rx
		}
		return fmt.Sprintf("M %v %v a %v %v 0 0 0 %v 0 a %v %v 0 0 0 %v 0 z", number("cx")-rx, number("cy"), rx, ry, 2*rx, rx, ry, -2*rx), true, err
	case "use":
		return "", false, refuseDrawing("it repeats a part (use); have the drawing program make it a path")
	}
	return "", false, nil
}
