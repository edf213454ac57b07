package a

var s string = 1 // ERROR "cannot use 1 .* as string"
