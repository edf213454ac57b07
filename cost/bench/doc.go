// Package bench says how long a piece of furniture usually takes at the bench,
// task by task.
//
// It stands on packages unit and cost.
//
// [Usual] is the table of the trade: pieces with their tasks, extras by count or by
// length, and factors for goods that take longer. [Table.With] puts rows of a shop's
// own in its place. [Table.Estimate] takes the rows that a build needs, and
// [Line.Caution] tells of a figure of the shop that lies outside what is usual.
//
//	task       what is done, and how it is taxed
//	span       from the quickest to the slowest
//	table      pieces, extras, goods, errands
//	usual      the figures
//	estimate   the time of a build
//
// No government, school or time-study text with hours by piece was found: every
// figure is common practice or from memory, the hours of one practised worker who
// waits for nothing. What a shop writes down of its own work is better.
package bench
