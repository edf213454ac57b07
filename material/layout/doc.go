// Package layout lays out what a shop cuts, on rolls and on measured hides.
//
// A [Job] is goods, pieces and rules; [Solve] gives the [Plan]: where every piece
// lies, what to buy, and what each method claims. Rectangles and outlines are two
// engines behind it. Every plan is checked by a verifier that shares no code with
// them, every bound is one of the true outlines, and a plan is called proved only
// when it meets one. [Plan.Draw] draws rolls and hides.
//
// It stands on packages unit, shape, allowance, made, pattern and material;
// package job stands on it.
//
//	job, phase           what is asked for
//	solve, plan, claim   the answer
//	boxes, boxrows       rectangles on a roll: repeats, drops, nap, flaws, shades, joins
//	nested, simplify,    outlines on a roll: filled out where they are too intricate,
//	clusters, joins      with shade groups as blocks, joined pieces in segments
//	matchedjoins, parted pieces joined so that the pattern runs on
//	hides, hide...       outlines on hides: holes, marks, grades, grain, stretch
//	rollbound, hidebound what no layout can stay under
//	compare...           ways to buy leather, and what matching a pattern costs, side by side
//	offcuts, leftovers   what is left, and as goods for another job
//	hidedatum, ...       where the pieces on a hide and its marks are found with a tape
//	draw...              pictures: drawwriting finds the places of texts, drawpiece says
//	                     what stands on a piece, drawhide, drawroll draw
//
// PieceOf, PieceOfRect, PiecesOf and PiecesOfStrips make pieces of what packages
// allowance and made cut.
//
// Effort counts work, never time: the same effort and seed give the same plan on
// every machine. A context ends the search; the plan is then the best so far.
package layout
