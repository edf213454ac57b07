package workbook

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// limit is what may be typed where a figure may be changed.
type limit struct {
	kind      excelize.DataValidationType
	low, high float64
	say       string
}

// The limits. The greatest bounds what is typed by mistake: more than any job has.
var (
	share1000 = limit{excelize.DataValidationTypeDecimal, 0, 10, "A share from 0 % to 1000 %, such as 25 %."}
	whole     = limit{excelize.DataValidationTypeWhole, 0, 1e6, "A whole number, 0 or more."}
	number    = limit{excelize.DataValidationTypeDecimal, 0, 1e9, "A number, 0 or more."}
)

// guard lets only the shaded cells be changed, without a password.
func (s *sheet) guard() {
	s.keep(s.f.ProtectSheet(s.name, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true, FormatCells: true, FormatColumns: true, FormatRows: true, InsertRows: true}))
}

// cut shortens a text to so many characters.
func cut(text string, n int) string {
	r := []rune(strings.TrimSpace(text))
	if len(r) <= n {
		return string(r)
	}
	return string(r[:n-1]) + "…"
}
