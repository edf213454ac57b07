package unit

// Rounding says which way a value goes that lies between two steps. The zero
// value is Nearest.
type Rounding uint8

const (
	// Nearest goes to the nearer step; a tie goes away from zero.
	Nearest Rounding = iota
	// Up goes to the step that is not smaller: nothing gets shorter.
	Up
	// Down goes to the step that is not larger.
	Down
)

// String names the direction.
func (r Rounding) String() string {
	switch r {
	case Nearest:
		return "nearest"
	case Up:
		return "up"
	case Down:
		return "down"
	}
	return "unknown rounding"
}
