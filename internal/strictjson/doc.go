// Package strictjson reads JSON from people. It reports every fault it can
// find in one pass, each with the path of its field and its line, refuses
// fields that mean nothing and values that are missing, and bounds its work
// on hostile input.
//
// A struct field takes part when it has a json tag; `required:"true"` marks
// one that must be there, `least:"1"` the least whole number that may be given.
// Values are strings, booleans, whole numbers, types
// with UnmarshalText, structs, and slices, pointers or maps by name of these. A
// slice with UnmarshalText and UnmarshalJSON is a text or a list, such a struct a
// text or an object; a struct with
// UnmarshalJSON alone reads its own form, and its faults keep the elements they name.
package strictjson
