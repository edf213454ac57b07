// Package layout lays out what a shop cuts: boxes and outlines on a roll,
// outlines on measured hides. Every plan is checked by a verifier that shares no
// code with the engine that made it, and has a bound that no plan can beat.
//
// It stands on packages unit, shape, allowance, made and material; package job
// stands on it.
//
//	Boxes, Rows  rectangles on a roll: repeats, drops, nap, flaws, shades, joins
//	NestRoll     outlines on a roll
//	NestSkins    outlines on hides: holes, marks, grades, grain, stretch
//
// BoxOf, BoxAround, BoxesOf, BoxesOfStrips, RollPanelOf and SkinPanelOf make
// pieces of what packages allowance and made cut.
//
// Effort counts work, never time: the same effort and seed give the same plan on
// every machine. A context ends the search; the plan is then the best so far.
package layout
