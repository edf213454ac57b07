// Package xlsx reads and writes single cells of a workbook file (ECMA-376,
// Office Open XML) and hands on every other part of it as it came, byte for
// byte.
//
// The file may come from anywhere. Parts are read as streams, one element at a
// time, so that memory does not grow with what a file claims to hold: neither
// with cells in far columns, nor with rows, nor with texts, nor with what a
// small archive unpacks to. Parts that are not needed are never unpacked.
package xlsx

import (
	"errors"
	"fmt"
)

// Bounds of a file.
const (
	MostBytes    = 64 << 20 // of the file
	MostUnpacked = 64 << 20 // of the parts that are read, together
	mostParts    = 10_000
	mostElement  = 1 << 20 // bytes of one tag, text or cell
	mostDepth    = 64
	mostNames    = 10_000
	mostSheets   = 1_000
	mostBlocks   = 10_000 // merged cells and array formulas of a sheet
)

// Bounds of a sheet, from the format.
const (
	MostRows    = 1 << 20
	MostColumns = 1 << 14
)

// Errors of a file that is not read. ErrTooLarge comes with ErrDamaged.
var (
	ErrDamaged  = errors.New("no workbook that can be read")
	ErrTooLarge = errors.New("too large")
)

func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrDamaged, fmt.Sprintf(format, args...))
}

func tooLarge(format string, args ...any) error {
	return fmt.Errorf("%w: %w: %s", ErrDamaged, ErrTooLarge, fmt.Sprintf(format, args...))
}
