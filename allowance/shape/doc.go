// Package shape draws the border of a panel: an [Outline] of named edges, each
// a chain of lines, arcs and curves, and measures it.
//
// It stands on package unit; packages allowance, made, material and layout stand
// on it.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Axes
//
// X is across the goods, Y along the grain (up the roll, or along the backbone
// of a hide). Edges run anticlockwise.
//
// # Making an outline
//
// By a constructor ([Rectangle], [Ellipse], [Stations], [Path] and others),
// traced piece by piece with [TraceFrom], or completed from one half by [Half].
// A file writes an outline as a [Form]; an Outline in JSON is written in the
// exact form of one, and reads back to the last bit.
//
// [Outline.Offsets] moves every edge outwards by a distance of its own.
//
// # Taking off an old panel
//
// [Outline.Restored] takes the cuts off its corners, [Outline.Inset] its allowances,
// [Outline.Strained] its stretch, and [Outline.Halved] makes it its own mirror image.
//
// # By tape
//
// Four sides and a diagonal, corners from both ends of a baseline, widths at
// stations, offsets from a straight edge, chord and rise: a [Form] holds the
// measures, and [Form.Taped] gives the outline with a [Tolerance], how far each of
// its sizes may be off. What is printed of it is two figures: plus or minus two
// sigma, within which the truth lies in 95 of 100 cases, and what it cannot be worse
// than while no measure is off by more than its tolerance.
//
// # Plane formulas
//
// Areas and perimeters of circle, ellipse, stadium, rounded rectangle, trapezoid
// and regular polygon, chord and arc, and Steiner's formulas for offsets, each
// written out beside its function.
//
// # What is exact
//
// Corners lie on whole nanometres. Lengths and areas of curves are worked out in
// float64 and rounded once to the nearest nanometre or square micrometre.
package shape
