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
// # Panels of any shape
//
// An [Outline] is made by a constructor ([RectangleOutline], [EllipseOutline],
// [StationOutline], [PathOutline] and others), traced piece by piece with
// [TraceFrom], or completed from one half by [HalfOutline]. [Panel.Cut] moves
// every edge outwards by its own margin and finishes the corners as asked.
// Pictures are in the folder doc.
//
// A file writes an outline as a [Shape]; an Outline in JSON is written in the
// exact form of one, and reads back to the last bit.
//
// # What is exact
//
// Sizes that follow by addition are exact to the nanometre. Where a ratio or
// π comes in, the result is rounded once to the nearest nanometre.
//
// Default allowances stand in one table; see [Finish.Default]. Each carries
// its basis, and each can be overridden, zero included; see [Exactly]. Other
// published and customary allowances stand in [Rules].
//
// # Parts
//
//	edges and panels    Finish, Edge, Rule, RectPanel, Wrap, PatchLap
//	fit                 Stretch, CushionFit, MatchSeam, BowOf, BendOf
//	cushions            KnifeEdgeCushion, BoxedCushion, RoundCushion, TCushion,
//	                    WaterfallCushion, Bolster
//	strips              Boxing, WeltStrip, WeltRun, BiasTube, BiasStrips
//	surface work        Channels, Tufting, BiscuitCover, Pleats, GatheredSkirt,
//	                    PleatedSkirt, KickPleatSkirt
//	developed surfaces  Dome, ConeFrustum, TubBand
//	plane shapes        circle, ellipse, stadium, rounded rectangle, trapezoid,
//	                    regular polygon, chord and arc, Steiner's offsets
//
// # Drawings
//
// Pictures of the shapes stand in allowance/doc; its README lists them. Their
// numbers are worked out by this package from the sizes written in them. They
// are drawn by go generate.
//
// # Where sources disagree
//
// Tuck-ins of loose covers (4, 6 and 10 in), the cover of a cushion (neutral
// or snug), the strip of a thick welt, the cloth of a deep button and the
// spare on a pulled edge are each published or practised in more than one way.
// Each way has its own rule here, none is averaged. No source was found for
// the leather rule of 1/4 in per 10 in (common practice), for the fullness of
// channels (geometry is used) or for the limits of ease (from memory).
//
// # Cautions
//
// Figures that come from aircraft, parachute and equipment manuals are quoted
// as allowances of cloth, not as instructions: repairs on such equipment
// belong to those licensed for them. An allowance says nothing about the
// strength of a seam; where a seam carries a load, have it worked out and
// tested.
package allowance

//go:generate go run ../internal/dev/drawings doc
