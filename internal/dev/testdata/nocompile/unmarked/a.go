package a

var s string = 1
