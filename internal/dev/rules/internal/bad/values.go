package bad

import "github.com/coverwright/coverwright/unit"

const (
	half = float64(1) / 2
	// Quarter gets its type from half.
	Quarter = half / 2
	// Again repeats it.
	Again
	// Third is a constant of a type.
	Third = 1 + Second
	// Wide is one of another package's.
	Wide = 2 * unit.Inch
)

type number = float64

// List is seen to hold floats.
var List = []number{1}

// Told does not say what it is.
var Told = Half(2)

// Deep holds floats some way down.
type Deep struct {
	Named
	Inner struct{ By map[string]func(...Alias) }
	Fine  struct{ by number }
}

// Doer wants them.
type Doer interface {
	// Do is documented.
	Do(*Of[number]) error
}

// Double is a number by way of another.
type Double Named

// Halves is an edge.
func (d Double) Halves() float64 { return float64(d) * 2 }
