// Package caution says what must be minded with a job: what forbids the work,
// which rules and papers go with it, and what protects those who do it.
//
// [Of] takes the places whose rules are wanted and what is known of each piece of
// furniture, and gives the cautions that this work has, each with its rule, its
// standing and the day it was read, and the papers to ask the suppliers for. Show
// [Deference] with any of them; it is the first of every list. None of it is legal
// advice.
//
// It stands on unit and unit/cite alone.
package caution
