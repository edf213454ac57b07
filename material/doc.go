// Package material says what leather or cloth to buy.
//
// It stands on packages unit and shape; packages layout and job stand on it.
//
// A question has up to four answers, each labelled with its [cite.Kind]:
//
//   - a rule of thumb: an area with a customary waste factor, see [HidesToBuy];
//   - an estimate: a yield and how much skins differ, see [ForecastSkins];
//   - a bound and a layout: see package layout.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Cloth
//
// Lengths run along a [Roll], widths across it. "Up the roll" is the usual
// direction: the top of the pattern or nap points along the length.
//
// [Roll.OrderWith] goes from what a layout needs to what is ordered, with a
// [WorkingMargin] for squaring, flaws and tests; [Stock] is goods at hand, and says
// whether they suffice.
//
// # Leather
//
// A [Skin] is one skin on the table with its border, holes, marks, grades and
// stretch; without a measured border it takes the usual shape of its kind.
// Thickness in ounces and irons is read by unit.ParseThickness, marks of area by
// [ParseFootage].
//
// Grades and severities are scales of this package, in plain words; makers
// grade by rules of their own. Marks of a skin come from the cutter's eye, and a
// plan is as good as they are: look at the leather again before cutting.
package material
