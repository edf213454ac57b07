package layout

import (
	"context"
	"errors"
	"runtime/debug"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// These tests make much garbage and keep little: collecting it more seldom takes
// a sixth off their time.
var _ = debug.SetGCPercent(400)

const in = unit.Inch

func nan() float64 { z := 0.0; return z / z }

func inches(x, y unit.Length) shape.Point { return shape.Point{X: x * in, Y: y * in} }

func polygon(t require.TestingT, corners ...shape.Point) shape.Outline {
	o, err := shape.Polygon(corners...)
	require.NoError(t, err)
	return o
}

// boxAt is a rectangle of inches with its lower left corner somewhere.
func boxAt(t require.TestingT, x, y, w, h unit.Length) shape.Outline {
	return polygon(t, inches(x, y), inches(x+w, y), inches(x+w, y+h), inches(x, y+h))
}

func rectOutline(t require.TestingT, w, h unit.Length) shape.Outline {
	o, err := shape.Rectangle(w, h)
	require.NoError(t, err)
	return o
}

// cloth is a rectangle to cut.
type cloth struct {
	name          string
	width, length unit.Length
	count         int
	turn          Turn
	free          bool
	motif         shape.Point
	shade         int
	join          *Piecing
}

func (c cloth) piece() Piece {
	p, _ := RectPiece(c.name, c.width, c.length, c.count) // an outline that is none is refused
	p.Turn, p.Shade, p.Join = c.turn, c.shade, c.join
	if c.free {
		p.Phase.Axes = Unbound
	}
	if c.motif != (shape.Point{}) {
		p.Phase = OnMotif(c.motif)
	}
	return p
}

func pieces(cs ...cloth) []Piece {
	var out []Piece
	for _, c := range cs {
		out = append(out, c.piece())
	}
	return out
}

// quick is enough effort for laws that hold at any effort; light finds good
// plans of small jobs.
var (
	quick = Options{Effort: 0.001}
	light = Options{Effort: 0.02}
)

func onRoll(roll material.Roll, ps []Piece, o Options) (Plan, error) {
	return Solve(context.Background(), Job{Roll: &roll, Pieces: ps}, o)
}

func onHides(t require.TestingT, hides []material.Skin, ps []Piece, o Options) Plan {
	return solved(t, Job{Hides: &Hides{OnOffer: hides}, Pieces: ps}, o)
}

// solved lays a job on hides.
func solved(t require.TestingT, j Job, o Options) Plan {
	plan, err := Solve(context.Background(), j, o)
	require.NoError(t, err)
	require.NoError(t, plan.Verify())
	assert.LessOrEqual(t, plan.Areas.Usable, plan.Areas.Gross)
	return plan
}

// typed tells whether an error names its field, or says that no layout exists.
func typed(err error) bool {
	var in *unit.InputError
	return errors.As(err, &in) || errors.Is(err, ErrNoLayout)
}

func hidesOf(hide material.Skin, ps []Piece, o Options) (Plan, error) {
	return Solve(context.Background(), Job{Hides: &Hides{OnOffer: []material.Skin{hide}}, Pieces: ps}, o)
}
