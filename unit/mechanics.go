package unit

// Products and quotients with the float kinds. Results that are exact types
// are rounded once, to the nearest quantum.

// Mass gives the mass d × v. It wraps ErrNotFinite or ErrOverflow.
func (d Density) Mass(v Volume) (Mass, error) {
	// 1 kg/m³ × 1 nl = 1e-12 kg = 1e-3 µg
	return massOf(d, int64(v), 1000, "density × volume")
}

// Over gives the density m / v: what a block of known weight and size has. The
// volume must not be zero; it wraps ErrDivideByZero.
func (m Mass) Over(v Volume) (Density, error) {
	if v == 0 {
		return 0, &InputError{Value: "mass / volume", Err: ErrDivideByZero, Want: "a volume that is not zero"}
	}
	// 1 µg / 1 nl = 1e-9 kg / 1e-12 m³ = 1000 kg/m³
	return Density(floatQuotient(int64(m), 1000, int64(v))), nil
}

// StandardGravity is the acceleration in m/s² that defines the pound-force
// and the kilogram-force (NIST SP 811, B.8).
const StandardGravity = 9.80665

// Weight gives the force of m under standard gravity.
func (m Mass) Weight() Force { return Force(m.Kilograms() * StandardGravity) }

// Over gives the pressure of f spread over a. The area must not be zero; it
// wraps ErrDivideByZero or ErrNotFinite.
func (f Force) Over(a Area) (Pressure, error) {
	if a == 0 {
		return 0, &InputError{Value: "force / area", Err: ErrDivideByZero, Want: "an area that is not zero"}
	}
	return checked(Pressure(float64(f) / a.SquareMetres()))
}

// On gives the force of p on a. It wraps ErrNotFinite.
func (p Pressure) On(a Area) (Force, error) {
	return checked(Force(float64(p) * a.SquareMetres()))
}

// Mass gives the mass of an area a of the cloth. It wraps ErrNotFinite or
// ErrOverflow.
func (d AreaDensity) Mass(a Area) (Mass, error) {
	// 1 kg/m² × 1 µm² = 1e-12 kg = 1e-3 µg
	return massOf(d, int64(a), 1000, "mass per area × area")
}

// Mass gives the mass of a length l of the thread. It wraps ErrNotFinite or
// ErrOverflow.
func (d LinearDensity) Mass(l Length) (Mass, error) {
	// 1 tex × 1 nm = 1 mg/m × 1e-9 m = 1e-9 mg = 1e-6 µg
	return massOf(d, int64(l), 1_000_000, "yarn count × length")
}

// massOf gives d × amount / den in micrograms, rounded once to the nearest.
func massOf[D floatQuantity](d D, amount int64, den uint64, what string) (Mass, error) {
	if err := d.Check(); err != nil {
		return 0, err
	}
	m, exp := binary(float64(d))
	q, ok := product(m, abs(amount)).scaled(exp, den)
	n, err := signed(q, ok, (d < 0) != (amount < 0), what)
	return Mass(n), err
}

// Length gives the length of thread that weighs m. The count must be above
// zero; it wraps ErrRange, ErrNotFinite or ErrOverflow.
func (d LinearDensity) Length(m Mass) (Length, error) {
	if err := d.Check(); err != nil {
		return 0, err
	}
	if d <= 0 {
		return 0, &InputError{Value: d.String(), Err: ErrRange, Want: "a yarn count above zero"}
	}
	// 1 µg / 1 tex = 1e6 nm
	count, exp := binary(float64(d))
	q, ok := product(abs(int64(m)), 1_000_000).scaled(-exp, count)
	n, err := signed(q, ok, m < 0, "mass / yarn count")
	return Length(n), err
}
