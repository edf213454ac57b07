// Package job is where the packages meet: a [Spec] in, a [WorkOrder] out.
//
// It stands on all of them but pattern, sheet and wrap; programs stand on it.
//
// A Spec says what a shop knows before a knife touches the goods: the pieces
// of furniture with their measured panels and cushions, the cloth and leather
// on offer, the foam wanted, the hours and the prices. [Read] reads it from
// JSON, on top of what the jobs of a [Shop] have in common where [Shop.Read] does,
// and reports every fault with its field and line. [Build] works out the
// cut list, what to buy, thread and needle, foam and the quote, and labels
// every figure with what it is worth.
//
// Panels have any outline of package shape and are cut from rolls or from hides,
// measured or of a usual shape; both are laid out by package layout. Cushions,
// boxings, welts, skirts, tufted panels and channels are made up from their
// measurements by package made. Package schema has the JSON Schemas of the files;
// the README describes every field.
//
// # A pipeline
//
// Build runs stages, each a function in a file of its name, values in, values and
// faults out:
//
//	kinds    a Spec with what kinds of furniture bring
//	covers   a Spec -> the cover of every part
//	cut      covers -> the cut list, rows of stitching
//	tasks    the cut list -> what to buy, the layouts to make
//	lay      layouts, and what matching patterned goods costs
//	buy      layouts -> purchases
//	sew      rows of stitching -> thread, needle, stitch
//	fill     foam
//	find     findings: what the cover tells and the builds take
//	usual    the time that pieces usually take
//	labour   the time of the job, with errands
//	rough    pieces that nobody has measured
//	price    labour, extras, terms
//	build    runs them and adds up the quote
//
// An option is the same pipeline from a changed Spec.
package job
