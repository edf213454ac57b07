package a

var s string = "fine" // ERROR "cannot use"
