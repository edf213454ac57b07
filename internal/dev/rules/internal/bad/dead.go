package bad

// Here is a comment whose [Gone], [Loose.Lost] and [unit.Vanished] lead nowhere,
// as do unit.Nowhere and Loose.Missing; [Loose], [Loose.Width], [Loose.Method], [unit.Length],
// unit.Length.Plus and an interval [a, b] are fine.
var _ = Loose{}

// Constants of a type count with it.
const (
	First  Named = 1
	Second Named = 2
)
