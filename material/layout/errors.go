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
	// ErrNotLaid says that a job is sound but asks for what no engine lays yet.
	ErrNotLaid = errors.New("not laid out yet")
	// ErrBadLayout says a layout breaks one of its own rules; see [Plan.Verify].
	ErrBadLayout = errors.New("layout is wrong")
)
