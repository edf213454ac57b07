// Package bound proves lengths that no layout of outlines on a roll can stay
// below, and numbers of hides that none can do with less than.
//
// A [StripJob] is a roll and the pieces to be cut from it; [Strip] returns a
// [Claim] for every bound that says something, the best first, and [Best] the
// best alone. A [HideJob] is a heap of hides and pieces; [Hides] does the same
// for it. Every claim names its [Method] and the place that decides, so that a
// page can say "no layout is shorter than 2 1/4 yd: on the line 24 in above
// the motifs the panels need three rows".
//
// Coordinates are whole numbers of any unit. X runs across the usable width
// from 0, Y along the roll from its end.
//
// # Methods
//
//   - area.go: area over width, and the longest piece.
//   - chords.go: chords through a dual feasible function, added up along the roll.
//   - dff.go: the functions, with their proofs.
//   - phase.go, weighed.go: chords on one pattern line, plain and through a dual feasible function.
//   - arc.go: the same for a free start of the pattern.
//   - columns.go: points of one pattern line at one distance from the columns.
//   - line.go: the rows of one pattern line, exactly, with the ends of the roll.
//   - sequence.go: pieces one after another on lines along the roll; equal pieces
//     split over the columns.
//   - hides.go: areas, large pieces, pairs that cannot share a hide.
//
// # Exactness
//
// No claim exceeds the truth. Outlines are cut into slabs at the height of
// every corner; the ends of their chords are kept in 1/256 of the unit, left
// ends rounded up and right ends down, so that a chord is never too long.
// Sums are whole numbers of 64 or 128 bits. Results are rounded down to the
// unit, or up where [StripJob.Whole] says that layouts lie on whole units.
// Floating point is used for hides, for pieces that may lie at any angle, with
// a margin of 1e-9, and for choosing what to try.
//
// Everything left out makes the problem easier and so the bound weaker, never
// wrong: flaws of the goods, the end of the roll, the order of pieces.
//
// # Limits of work
//
// What is capped falls back to a weaker bound: outlines of more than 512
// heights of corners are thinned (the chord common to all heights between two
// that are kept), a piece higher than 64 repeats is taken for unmatched, a
// piece with more than 64 places across for free across. Phases are thinned
// to about 300,000 meetings of an outline with a pattern line, a million corners
// are cut into slabs (of further outlines only area and box count), pattern
// lines with more than 24 pieces are not solved exactly, and functions and
// points are tried by a budget. When the context ends, the claims proved so far
// come back.
package bound
