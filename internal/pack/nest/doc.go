// Package nest lays polygons on a roll (Strip) or on measured hides
// (Hides), so that as little as possible is bought.
//
// # What goes in and out
//
// Coordinates are whole numbers below 2^30 in a unit the caller chooses (10
// or 1 micrometre). A Piece has an outline, a count, the angles it may be
// turned to (Turn), a mirroring rule, the kinds of ground it may lie on
// (Takes) and, on a roll, a repeat its match point has to meet (Phase), which
// may drop from column to column (Falls). A roll may have flaws (Flaw). A
// Hide has an outline, holes and zones of some kind. Every layout has
// passed package verify, which shares no code with the search, before it
// is returned; touching is allowed, and Gap keeps a knife margin.
//
// # How a layout is found
//
// All pieces lie on the ground, at first overlapping, and are separated:
// guided local search (for nesting: Egeblad et al 2007, Umetani et al 2009)
// moves one piece at a time to the place of least weighted overlap, and the
// weight of every pair that still overlaps grows. When nothing overlaps,
// the strip is shortened, or a hide is taken away, and the search goes on.
// The frame follows Imamichi et al 2009 and Gardeyn, Vanden Berghe and
// Wauters 2025 (arXiv:2509.13329). With enough effort a strip is raced from
// several starts, the worse half given up after each round (file strip.go):
// where a search gets stuck depends more on its start than on its work. Flaws
// are pieces that stay where they are.
//
// How deep two pieces overlap is answered in two ways. With fixed angles it
// depends on the displacement alone and is tabled per pair of shapes (file
// pairtable.go): exact half-planes where the border of the no-fit region
// runs, which finds fits without any slack, and a distance map inside. With
// free angles (file turnsep.go) inscribed circles and border points of one
// outline are looked up in the distance map of the other, group by group
// and the largest circle first, so that most places are given up early. Both
// share one way to move pieces (file relocate.go): a piece goes to the best of many
// places; where it has nowhere to go alone, two of like size exchange places. Whole-number
// tests confirm the result, and a slack of a twenty-thousandth
// of the width stays between the pieces.
//
// # Bounds
//
// A strip is never shorter than the area over the width, nor than its
// longest piece. Hides are bounded by net area, by the area fit for
// demanding pieces, and by the number of large inscribed circles a hide can
// hold (file bound.go).
//
// # Determinism
//
// Effort counts work, not seconds, set-up included. The same job, seed, effort
// and number of workers give the same bytes on every machine, and more effort gives no
// worse layout, but for a case that file stage.go names. If the context ends first, the best layout so
// far is returned and marked as stopped.
package nest
