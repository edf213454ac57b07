package unit

// Products and quotients between kinds. All are checked and rounded once, to
// the nearest quantum.

// By gives the area l × w. It wraps ErrOverflow.
func (l Length) By(w Length) (Area, error) {
	n, err := mulDiv(int64(l), int64(w), int64(Micrometre)*int64(Micrometre), Nearest, "length × length")
	return Area(n), err
}

// Deep gives the volume a × t. It wraps ErrOverflow.
func (a Area) Deep(t Length) (Volume, error) {
	// 1 µm² × 1 nm = 1e-21 m³ = 1e-9 nl
	n, err := mulDiv(int64(a), int64(t), 1_000_000_000, Nearest, "area × length")
	return Volume(n), err
}

// Over gives the length a / w: how long a strip of width w covers a. It wraps
// ErrDivideByZero or ErrOverflow.
func (a Area) Over(w Length, r Rounding) (Length, error) {
	if w == 0 {
		return 0, &InputError{Value: "area / length", Err: ErrDivideByZero, Want: "a width that is not zero"}
	}
	// 1 µm² / 1 nm = 1e-12 m² / 1e-9 m = 1e6 nm
	n, err := mulDiv(int64(a), 1_000_000, int64(w), r, "area / length")
	return Length(n), err
}

// SumLengths adds lengths, or wraps ErrOverflow.
func SumLengths(ls ...Length) (Length, error) { return sum(ls, Length.Plus) }

// SumAreas adds areas, or wraps ErrOverflow.
func SumAreas(as ...Area) (Area, error) { return sum(as, Area.Plus) }

// SumVolumes adds volumes, or wraps ErrOverflow.
func SumVolumes(vs ...Volume) (Volume, error) { return sum(vs, Volume.Plus) }

// SumMasses adds masses, or wraps ErrOverflow.
func SumMasses(ms ...Mass) (Mass, error) { return sum(ms, Mass.Plus) }

func sum[T any](xs []T, plus func(a, b T) (T, error)) (T, error) {
	var total T
	for _, x := range xs {
		var err error
		if total, err = plus(total, x); err != nil {
			var zero T
			return zero, err
		}
	}
	return total, nil
}
