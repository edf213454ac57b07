// Package findings counts what goes into a piece of furniture beside its cover,
// thread and foam: webbing, springs and twine, burlap and dust cover, felt, cord,
// zips, staples, tacks and nails, buttons, glue, feet.
//
// It stands on package unit alone.
//
// # From a piece to an order
//
// A calculator says what lies in the piece (net) and what ends and joins take.
// [Buying.Steps] makes an order of it: gross with waste, use in the step it is
// sold by, whole packs. Findings of several pieces of furniture are added net
// and rounded once.
//
// # Figures
//
// A zero field takes the usual figure. [Lengths], [Counts], [Shares], [Areas],
// [Masses] and [Volumes] list them with their ranges and where each comes from.
// Most are custom of the trade: a shop that knows better gives its own. The
// ranges are what is in use; a calculator accepts more.
package findings
