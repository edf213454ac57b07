// Package rect lays rectangles, or the bounding boxes of panels, on a strip of fixed width and keeps the length short:
// cloth from a roll.
//
// A [Job] says what to lay and under which rules: turns allowed per piece, a gap, the repeat of the pattern with
// drop, flaws, groups that must come from neighbouring places, and long pieces that may be joined. [Solve] returns a
// [Plan] with every piece placed, the length used, a proved lower bound, and whether no shorter layout exists. Every
// plan is checked by package verify before it is returned. Coordinates are whole numbers of any unit; nothing here
// knows inches or millimetres.
//
// # Method
//
// Plain jobs (no repeat, flaws, groups or end of the strip):
//
//   - skyline.go: the decoder that turns priorities into a layout, with early stop and partial repetition.
//   - plain.go: exchanges of priorities towards a fixed height, in turn with the beams.
//   - race.go: the two workers, and when they are told of each other.
//   - beam.go: beam search at a fixed height, also with the strip seen from the side.
//   - endgame.go: what the sides of the last boxes of a beam can add up to.
//   - coarse.go: large boxes first, then small ones into the holes, for jobs of two scales.
//   - cluster.go: joining pieces that share a side, for pieces that were cut from one rectangle.
//
// Jobs with rules of place:
//
//   - place.go: the placer, which looks for the lowest legal place of each piece, under others too.
//   - ordered.go: exchanges in the order of pieces.
//
// Jobs of many pieces on a pattern, by [Stack]:
//
//   - stack.go: the decoder, which lays each part at its lowest free place on the pattern, in the holes too, by the
//     cells it covers; the first part that is bound to motifs which may be moved says where they lie.
//   - stacked.go: exchanges in the order of parts, with late acceptance.
//
// For Solve: bound.go, dff.go and job_bound.go prove lower bounds; exact.go proves the optimum of jobs of up to 16 pieces by
// branch and bound; split.go divides pieces that may be joined.
//
// Ideas are from the literature: skyline with best fit (Burke, Kendall and Whitwell 2004; Leung, Zhang and Sim 2011),
// search at a fixed height (Wei, Oon, Zhu and Lim 2011), corners of a staircase (Martello, Pisinger and Vigo 2000),
// dual feasible functions (Fekete and Schepers 2001; Boschetti and Mingozzi 2003).
//
// # Effort
//
// Work is counted in steps, never in time. [Options.Effort] 1 is about a second on two cores, 10 about ten. Two workers
// run whatever the machine has, and share results at fixed amounts of work; equal job, seed and effort give the same
// plan everywhere. On plain jobs of more than 16 pieces that are not joined, more effort at the same seed never gives a
// longer plan. A worker stops early only when the other one has reached the lower bound with less work. A first
// layout is always made, so very large jobs take the time of a few decodings (about n squared steps in the worst case)
// even at the least effort. When the context ends during the first one, what is left is laid in rows or in haste, so
// that an interrupt ends the layout of 20,000 pieces in about a tenth of a second, too.
//
// # Limits
//
// The exact search covers repeats and drops but not flaws or groups; those plans are proved only when they meet the
// bound. Pieces that may be joined are divided in a few sensible ways (fewest seams and up to two more; equal parts, or
// full widths and a rest), not in all, and are proved only when they meet the bound. The gap is kept in X or in Y
// between pieces; edges and flaws need none. One spot of a piece must coincide with a motif of the goods exactly;
// there is no tolerance.
package rect
