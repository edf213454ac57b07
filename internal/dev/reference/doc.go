// Package reference is the check table: what a source says, what this module
// computes, the deviation, and how well the figure is founded.
//
// A check is one row of rows/PACKAGE.csv:
//
//	id         unique in the whole table; first letter by package (u a m n t w f c j)
//	quantity   names the evaluator that computes our value
//	inputs     "name=value; name=value", in the source's own units
//	expected   as printed: a number, several with ";" between, or text
//	unit       of the expected number
//	tolerance  absolute ("0.005"), relative ("0.5%"), or "exact" for text
//	status     published, standard, derived, common practice, from memory
//	source     key of a document of unit/cite; empty for the last two
//	note       page or table, or why source and value differ
//
// A row of status published or standard must have a source; common practice
// and from memory must have none; derived may name the document its inputs
// stand in. Expected values keep the digits of the source, so the tolerance
// is half a unit of the last printed digit unless the note says why not.
//
// What a row protects, its [Strength], follows from its status and from how our
// value comes about: computed, or read out of a cell of one of our tables.
//
// Package evaluate holds one evaluator for each quantity, and names those that
// are cells. The tests of internal/dev fail on a missing evaluator, a row out of
// tolerance, an unknown source key, a source that no row uses, an evaluator that
// no row uses, and a row that is marked better than what it calls.
package reference
