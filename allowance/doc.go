// Package allowance takes a finished panel to the panel that is cut: seams,
// hems, turn-unders and pulls added edge by edge, stretch taken out, strips,
// pleats, tufting and developed surfaces worked out.
//
// # Axes
//
// A panel is described in its own axes: X is across the goods, Y along the
// grain (up the roll, or along the backbone of a hide). Width is measured
// across, Height along.
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
// # What is exact
//
// Sizes that follow by addition are exact to the nanometre. Where a ratio or
// π comes in, the result is rounded once to the nearest nanometre.
//
// Default allowances stand in one table; see [Finish.Default]. Each carries
// its basis, and each can be overridden, zero included; see [Exactly].
package allowance
