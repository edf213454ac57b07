package a

var s string = 1 // ERROR "undefined"
var n int = ""
