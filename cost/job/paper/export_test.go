package paper

var RangeOf = rangeOf
