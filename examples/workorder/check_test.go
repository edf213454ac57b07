package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/unit"
)

// These tests make much garbage and keep little: collecting it more seldom takes
// a sixth off their time.
var _ = debug.SetGCPercent(400)

// Jobs that several tests look at are worked out once.

//go:embed testdata/shapes.json
var shapes []byte

var shapesOrder = sync.OnceValues(func() (job.WorkOrder, error) {
	return job.Read(context.Background(), bytes.NewReader(shapes), job.Options{Effort: 0.001})
})

// asPrinted is the order of the demo job as the program makes it, without options.
var asPrinted = sync.OnceValues(func() (job.WorkOrder, error) {
	return build(context.Background(), jobfile.Files{}, job.Options{})
})

func orders(t testing.TB) map[string]job.WorkOrder {
	t.Helper()
	out := map[string]job.WorkOrder{}
	for name, of := range map[string]func() (job.WorkOrder, error){"demo": asPrinted, "shapes": shapesOrder} {
		o, err := of()
		require.NoError(t, err)
		out[name] = o
	}
	return out
}

// element is an element of a page or a drawing, with what is inside it.
type element struct {
	name  string
	attrs map[string]string
	text  string // of its own
	kids  []*element
}

// each calls f for every element below e, e included, in order.
func (e *element) each(f func(*element)) {
	f(e)
	for _, k := range e.kids {
		k.each(f)
	}
}

// all lists the elements of a name whose class is class; an empty class is any.
func (e *element) all(name, class string) []*element {
	var out []*element
	e.each(func(k *element) {
		if k.name == name && (class == "" || k.attrs["class"] == class) {
			out = append(out, k)
		}
	})
	return out
}

// words is the text of e and all below it.
func (e *element) words() string {
	var b strings.Builder
	e.each(func(k *element) { b.WriteString(k.text + " ") })
	return b.String()
}

// parse reads a page or a drawing and demands that it is well-formed XML, which
// our pages are as well.
func parse(t require.TestingT, document []byte) *element {
	dec := xml.NewDecoder(bytes.NewReader(document))
	root := &element{attrs: map[string]string{}}
	stack := []*element{root}
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil { // of many tokens
			require.NoError(t, err)
		}
		top := stack[len(stack)-1]
		switch x := token.(type) {
		case xml.StartElement:
			e := &element{name: x.Name.Local, attrs: map[string]string{}}
			for _, a := range x.Attr {
				if _, twice := e.attrs[a.Name.Local]; twice {
					require.Fail(t, "an attribute twice", a.Name.Local)
				}
				e.attrs[a.Name.Local] = a.Value
			}
			top.kids = append(top.kids, e)
			stack = append(stack, e)
		case xml.EndElement:
			require.Equal(t, top.name, x.Name.Local)
			stack = stack[:len(stack)-1]
		case xml.CharData:
			top.text += string(x)
		}
	}
	require.Len(t, stack, 1)
	return root
}

type spot struct{ x, y float64 }

// polygons reads the closed outlines of an element: a polygon, a rectangle or a
// path of M, further points and Z.
func (e *element) polygons(t require.TestingT) [][]spot {
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return x
	}
	list := func(s string) []spot {
		var out []spot
		for _, p := range strings.Fields(s) {
			x, y, found := strings.Cut(p, ",")
			require.True(t, found, p)
			out = append(out, spot{number(x), number(y)})
		}
		return out
	}
	switch e.name {
	case "polygon":
		return [][]spot{list(e.attrs["points"])}
	case "rect":
		x, y, w, h := number(e.attrs["x"]), number(e.attrs["y"]), number(e.attrs["width"]), number(e.attrs["height"])
		return [][]spot{{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}}
	case "path":
		var out [][]spot
		for _, sub := range strings.Split(e.attrs["d"], "Z") {
			if sub != "" {
				require.True(t, strings.HasPrefix(sub, "M"), sub)
				out = append(out, list(sub[1:]))
			}
		}
		return out
	}
	require.Fail(t, "no outline", e.name)
	return nil
}

// shoelace gives the area inside closed outlines; holes, which run the other
// way, count against it.
func shoelace(outlines [][]spot) float64 {
	var sum float64
	for _, o := range outlines {
		for i, a := range o {
			b := o[(i+1)%len(o)]
			sum += (a.x*b.y - a.y*b.x) / 2
		}
	}
	return math.Abs(sum)
}

func perimeter(line []shape.Point) float64 {
	var sum float64
	for i, a := range line {
		b := line[(i+1)%len(line)]
		sum += math.Hypot((b.X - a.X).Millimetres(), (b.Y - a.Y).Millimetres())
	}
	return sum
}

// squareMM gives an area in mm².
func squareMM(a unit.Area) float64 { return a.SquareMetres() * 1e6 }

// slack is how far the area inside chords may be from that inside the true
// curves, in mm².
func slack(p drawnCut) float64 {
	if p.cut.Panel == nil {
		return 0.01
	}
	return 0.01 + perimeter(p.Cut.Outer)*p.cut.Panel.Tolerance.Millimetres()
}
