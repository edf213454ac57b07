// Package table is the one table of spreadsheet functions: name, arguments
// with their units, result, help, worked examples and errors. The add-in, its
// interface description, the function reference and the JSON-lines filter are
// all made from it.
//
// A function takes flat numbers, texts and ranges and gives a number, a text,
// a column of numbers or a grid. It keeps no state: the same arguments give the same
// answer, so a sheet that recalculates is right without volatile functions.
package table

// Level counts what a workbook can rely on: it rises by one when functions or
// optional trailing arguments are added. The meaning of a function never
// changes; a changed meaning gets a new name.
const Level = 2

// Version is the text that VERSIONTEXT gives.
const Version = "coverwright sheet functions, level 2"

// Prefix is what stands before the name in a cell: SHOP.BOARDFEET.
const Prefix = "SHOP"
