package workbook

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// limit is what may be typed where a figure may be changed.
type limit struct {
	kind      excelize.DataValidationType
	low, high float64
	say       string
}

// entry is what a figure to change is, and its limit.
type entry struct {
	is string
	limit
}

// The limits. The greatest bounds what is typed by mistake: more than any job has.
var (
	share100  = limit{excelize.DataValidationTypeDecimal, 0, 1, "A share from 0 % to 100 %, such as 25 %."}
	share1000 = limit{excelize.DataValidationTypeDecimal, 0, 10, "A share from 0 % to 1000 %, such as 25 %."}
	whole     = limit{excelize.DataValidationTypeWhole, 0, 1e6, "A whole number, 0 or more."}
	number    = limit{excelize.DataValidationTypeDecimal, 0, 1e9, "A number, 0 or more."}
)

// limitOf gives the limit of figures of a format.
func limitOf(format string) limit {
	switch {
	case strings.HasSuffix(format, "%"):
		return share1000
	case format == countFormat:
		return whole
	}
	return number
}

// guard lets only the shaded figures be changed, without a password, and those only to
// what they can be; each says what it is.
func (s *sheet) guard() {
	for _, e := range slices.SortedFunc(maps.Keys(s.open), func(a, b entry) int { return cmp.Or(cmp.Compare(a.is, b.is), cmp.Compare(a.say, b.say)) }) {
		for cells := range slices.Chunk(s.open[e], 200) {
			s.allow(strings.Join(cells, " "), e)
		}
	}
	s.keep(s.f.ProtectSheet(s.name, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true, FormatCells: true, FormatColumns: true, FormatRows: true}))
}

// allow sets the limit of cells, and what is said of them where they are chosen.
func (s *sheet) allow(cells string, e entry) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(cells)
	s.keep(v.SetRange(e.low, e.high, e.kind, excelize.DataValidationOperatorBetween))
	v.SetError(excelize.DataValidationErrorStyleStop, "This cannot be", e.say)
	title, says, _ := strings.Cut(e.is, "\n")
	v.SetInput(cut(title, 32), cut(strings.TrimSpace(says+" "+e.say), 255))
	s.keep(s.f.AddDataValidation(s.name, v))
}

// cut shortens a text to so many characters.
func cut(text string, n int) string {
	r := []rune(strings.TrimSpace(text))
	if len(r) <= n {
		return string(r)
	}
	return string(r[:n-1]) + "…"
}
