package unit

// OuncesOf gives a mass of count avoirdupois ounces (1/16 lb each), to the
// nearest microgram. It wraps ErrNotFinite or ErrOverflow.
func OuncesOf(count float64) (Mass, error) {
	n, err := ofFloat(count, int64(Pound), 16, "mass")
	return Mass(n), err
}

// Ounces gives m in avoirdupois ounces, to float64 precision.
func (m Mass) Ounces() float64 { return m.Pounds() * 16 }
