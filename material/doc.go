// Package material says what leather or cloth to buy and how to cut it.
//
// A question has up to four answers, each labelled with its [cite.Kind]:
//
//   - a rule of thumb: an area with a customary waste factor, see [HidesToBuy];
//   - an estimate: a yield and how much skins differ, see [ForecastSkins];
//   - a bound: no plan can need less, see [Layout] and [SkinPlan];
//   - a layout: every piece placed and checked, see [LayOut], [NestRoll] and
//     [Nest].
//
// # Cloth
//
// Lengths run along the roll, widths across it. "Up the roll" is the usual
// direction: the top of the pattern or nap points along the length. [LayOut]
// lays rectangles (or the boxes around panels), with repeats, flaws, shades and
// joins; [NestRoll] lays the panels themselves, curves and all.
//
// # Leather
//
// A [Skin] is one skin on the table with its border, holes, marks, grades and
// stretch; without a measured border it takes the usual shape of its kind. A
// [Panel] says what it asks of the leather under it. [Nest] lays panels on
// skins, [SkinPlan.SVG] draws the plan, and [CompareBuying] sets it beside the
// rule of thumb. Thickness in ounces and irons is read by
// unit.ParseThickness, marks of area by [ParseFootage].
//
// Grades and severities are scales of this package, in plain words; makers
// grade by rules of their own. Marks of a skin come from the cutter's eye, and a
// plan is as good as they are: look at the leather again before cutting.
package material
