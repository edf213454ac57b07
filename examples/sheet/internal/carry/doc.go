// Package carry brings the contents of a workbook that was made anew into a workbook that
// its owner has worked in, and keeps what the owner did to it.
//
// A sheet that the program writes has a defined name of its own, AreaName, for the region
// that is the program's. In that region values, formulas, merged cells, limits of what may
// be typed, protection, print area and the program's notes are those of the new workbook.
// All else is the owner's: other sheets, cells beside and below the region, widths,
// heights, page set-up, charts, pictures, notes by others. Only the parts of the file that
// must change are read and written; every other part, whatever it is, stays byte for byte,
// so that nothing is lost that this package does not know.
//
// Formats follow the meaning of a cell, not its place: see pairing.
package carry

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// AreaName is the defined name, one on each sheet that the program writes, of the region
// that it wrote.
const AreaName = "coverwright_area"

// OriginName is a defined name beside AreaName that holds the name of the sheet as the
// program wrote it, as a text: ="Cut list". It tells a sheet that the owner renamed or
// copied. Without it the name of the sheet counts.
const OriginName = "coverwright_sheet"

// Author is who the notes of the program are by. Notes by others are the owner's.
const Author = "coverwright"

// Bounds of what is read of a workbook into memory.
const (
	mostRead  = 64 << 20  // bytes of parts
	mostUnits = 1_200_000 // elements, texts and attributes
	mostDepth = 64
	mostSteps = 50_000_000 // rows that ranges of formulas go over
)

// ErrRefused says that the contents are not carried over, since something of the owner's
// would be lost. It names what.
var ErrRefused = errors.New("the workbook is left as it is")

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrRefused, fmt.Sprintf(format, args...))
}

func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s", xlsx.ErrDamaged, fmt.Sprintf(format, args...))
}

func tooLarge(format string, args ...any) error {
	return fmt.Errorf("%w: %w: %s", xlsx.ErrDamaged, xlsx.ErrTooLarge, fmt.Sprintf(format, args...))
}
