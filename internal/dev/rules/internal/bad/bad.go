package bad

import "github.com/coverwright/coverwright/unit"

func Bare(width float64) error { return nil }

type Loose struct {
	Width  []float64
	hidden float64
}

func (l *Loose) Method() (float64, error) { return l.hidden, nil }

type Shape interface {
	Area() float64
}

const C = 3

var V = 2.5

// Named is a defined number.
type Named float64

// Plain is an edge.
func (n Named) Plain() float64 { return float64(n) }

// NamedOf is an edge.
func NamedOf(x float64) Named { return Named(x) }

// WidthOf gives another package's kind.
func WidthOf(x float64) unit.Length { return unit.Length(x) }

// Times takes a bare float.
func (n Named) Times(x float64) Named { return n * Named(x) }

// Half takes and gives defined numbers.
func Half(n Named) Named { return n / 2 }

// Table is documented, and bare.
type Table map[string]float32

// Func is documented, and bare.
type Func func(x float64)

// Alias is documented, and bare.
type Alias = float64

// Of is generic.
type Of[T any] struct{ x T }

// Pair is documented, and bare.
func Pair(Of[float64]) {}

func private(x float64) float64 { return x }

var _ = private
