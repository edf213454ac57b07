package cost

import "github.com/coverwright/coverwright/unit"

// ShopQuantity is Quantity as a shop writes it: a volume rounded up to a tenth of a
// board foot, or of a litre where the price is metric. It tells whether anything was
// rounded; Cost and Amount come from the exact quantity all the same.
func (l QuoteLine) ShopQuantity() (text string, rounded bool) {
	v, ok := QuantityAs[unit.Volume](l.Exact.Quantity)
	if !ok {
		return l.Quantity, false
	}
	of := unit.BoardFoot
	if per, _ := QuantityAs[unit.Volume](l.Exact.Price.Unit()); per%unit.Litre == 0 || unit.Litre%max(per, 1) == 0 {
		of = unit.Litre
	}
	// A tenth of a board foot is no whole number of nanolitres.
	return v.Decimal(of, 1, unit.Up), v%of*10%of != 0
}
