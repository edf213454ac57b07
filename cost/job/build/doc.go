// Package build says how a piece of furniture is built under its cover, and which
// findings that takes.
//
// A [Spec] is what must be asked at the bench: what carries the seat, how large its
// opening is, what closes it below, what it stands on. [Spec.Needs] works findings
// out of it, by the figures of package findings, and asks for what nobody gave.
// Package job adds what the cover tells, and makes a [Line] of an order of it.
//
// [Findings] lists what an order may have on it, by ids in plain words that are
// the codes of a price list. A variant follows a comma: "cord, 5/32 in".
package build
