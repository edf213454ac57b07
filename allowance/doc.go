// Package allowance takes a finished panel to the panel that is cut: seams,
// hems, turn-unders and pulls added edge by edge, stretch taken out, notches
// carried along.
//
// It stands on packages unit and shape; packages made, pattern, layout and job
// stand on it. It knows neither thread nor goods.
//
// Outlines stand in package shape. Cushions, boxing, welt, skirts, tufting and
// other parts that are made of several pieces stand in package made.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Order of working
//
// A finished size is first brought to the seam line (the line that is sewn)
// by [Stretch]: compression and ease, then what the cover stretches, then what
// it shrinks. The allowance of each [Edge] is added outside the seam line and
// gives the trim line; the handling margin is added outside that and gives
// the cut line.
//
//	finished → seam line → trim line → cut line
//
// [RectPanel] does so for a rectangle, [Panel] for any outline. Sizes that
// follow by addition are exact to the nanometre; width and height of curves
// come from their extremes. Where a ratio or π comes in, the result is rounded
// once to the nearest nanometre.
//
// Default allowances stand in one table; see [Finish.Default]. Each carries
// its basis, and each can be overridden, zero included; see [Exactly]. Other
// published and customary allowances stand in [Rules].
//
// [MatchSeam] compares two edges that are sewn together.
//
// # An old cover
//
// [Ripped.Finished] goes the other way: from a panel of the old cover, traced at its
// raw edges, stitches, folds or staples, to the finished one, with what was done to it
// and how sure it is.
//
// # The cover
//
// A [Cover] is one piece of furniture: panels whose edges are joined by a [Seam]
// each, held by a [Fastening], or done in themselves; beside them a [Trim] on the
// frame and a [Meet] of edges that lie against each other. [Cover.Check] finds
// what is wrong with it. From [Cover.Work] come, each in one place, the pieces
// with the allowance of every edge and lettered notches, welt, zips, rows of
// stitching, and the orders of sewing and of fitting.
//
// Outlines are drawn face up, edges run anticlockwise, and hands are the sitter's:
// left = sitter's left. Of a pair the drawn hand is the left one.
//
// # Where sources disagree
//
// Tuck-ins of loose covers (4, 6 and 10 in) and the spare on a pulled edge are
// each published or practised in more than one way. Each way has its own rule
// here, none is averaged. No source was found for the leather rule of 1/4 in
// per 10 in (common practice) or for the limits of ease (from memory).
//
// # Cautions
//
// Figures that come from aircraft, parachute and equipment manuals are quoted
// as allowances of cloth, not as instructions: repairs on such equipment
// belong to those licensed for them. An allowance says nothing about the
// strength of a seam; where a seam carries a load, have it worked out and
// tested.
//
// Drawings stand in the folder doc; its README lists them.
package allowance

//go:generate go run ../internal/dev/drawings ..
