package layout

import "errors"

// What can be wrong with a layout. Match with errors.Is.
var (
	// ErrTooWide says a piece does not fit across the usable width in any
	// direction it may be turned.
	ErrTooWide = errors.New("piece wider than the goods")
	// ErrTooMany says a job has more pieces than a layout takes.
	ErrTooMany = errors.New("too many pieces")
	// ErrNoLayout says that no layout was found: flaws, the horizontal repeat
	// or shade groups leave no room.
	ErrNoLayout = errors.New("no layout found")
	// ErrBadLayout says a layout breaks one of its own rules; see [BoxPlan.Verify].
	ErrBadLayout = errors.New("layout is wrong")
)
