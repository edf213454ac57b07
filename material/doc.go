// Package material says what leather or cloth to buy and how to cut it.
//
// A question has up to three answers, each labelled with its [cite.Kind]:
//
//   - a rule of thumb: an area with a customary waste factor, see [HidesToBuy];
//   - a bound: no plan can need less, see [Layout];
//   - a layout: every piece placed on the roll and checked, see [LayRows].
//
// Lengths run along the roll, widths across it. "Up the roll" is the usual
// direction: the top of the pattern or nap points along the length.
package material
