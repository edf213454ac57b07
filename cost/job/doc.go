// Package job is where the packages meet: a [Spec] in, a [WorkOrder] out.
//
// A Spec says what a shop knows before a knife touches the goods: the pieces
// of furniture with their measured panels and cushions, the cloth and leather
// on offer, the foam wanted, the hours and the prices. [Read] reads it from
// JSON and reports every fault with its field and line. [Build] works out the
// cut list, what to buy, thread and needle, foam and the quote, and labels
// every figure with what it is worth.
//
// Panels have any outline of package allowance and are cut from rolls or from
// hides, measured or of a usual shape; both are laid out by package material.
// Cushions, boxings, welts, skirts, tufted panels and channels are made up from
// their measurements. The JSON Schemas of both ends are [SpecJSONSchema] and
// [OrderJSONSchema].
package job
