package workbook

import (
	"strings"

	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/examples/sheet/internal/jobtable"
)

// limit is what may be typed where a figure may be changed.
type limit struct {
	kind      excelize.DataValidationType
	low, high float64
	say       string
	strict    bool // what lies outside is not to be reckoned with, such as a division by zero
}

// The limits. The greatest bounds what is typed by mistake: more than any job has.
var (
	share1000 = limit{excelize.DataValidationTypeDecimal, 0, 10, "A share from 0 % to 1000 %, such as 25 %.", false}
	whole     = limit{excelize.DataValidationTypeWhole, 0, 1e6, "A whole number, 0 or more.", false}
	number    = limit{excelize.DataValidationTypeDecimal, 0, 1e8, "A number, 0 or more.", false}
)

// decimal gives a limit of numbers of which none outside may be reckoned with.
func decimal(low, high float64, say string) limit {
	return limit{excelize.DataValidationTypeDecimal, low, high, say, true}
}

// limits are those of fields that a job takes less of than their kind has room for, by
// the table and the path.
var limits = map[string]limit{
	"terms.contingency":       decimal(0, 1, "A share from 0 % to 100 %, such as 3 %."),
	"terms.deposit":           part100,
	"terms.step":              above0,
	"terms.shop_rate.burden":  decimal(0, 3, "A share from 0 % to 300 %, such as 25 %."),
	"terms.shop_rate.hours":   above0,
	"terms.shop_rate.margin":  decimal(0, 0.99, "A share from 0 % to 99 %, such as 20 %."),
	"taxes.rate":              decimal(0, 1, "A share from 0 % to 100 %, such as 6.25 %."),
	"discounts.rate":          decimal(0.00001, 1, "A share above 0 %, up to 100 %, such as 5 %."),
	"discounts.amount":        above0,
	"stages.share":            part100,
	"goods.shrinkage":         decimal(0, 0.5, "A share from 0 % to 50 %, such as 3 %."),
	"goods.waste":             decimal(0, 0.9, "A share from 0 % to 90 %, such as 30 %."),
	"goods.increment":         decimal(0.001, 10, "A length above 0, up to 10."),
	"goods.hide_area":         decimal(1, 100, "An area from 1 to 100 square feet."),
	"goods.hide_area, metric": decimal(0.093, 9.29, "An area from 0.093 to 9.29 square metres."),
	"labour.time":             worked,
	"labour.learning":         decimal(0.5, 1, "A share from 50 % to 100 %, such as 95 %."),
	"errands.time":            worked,
}

var (
	above0  = decimal(0.01, 1e8, "A number above 0.")
	part100 = decimal(0.00001, 0.99999, "A share between 0 % and 100 %, such as 50 %.")
	worked  = decimal(0.0167, 10_000, "Hours, from a minute to 10,000 h.")
)

// fieldLimit gives what numbers may stand in the cells of a field of a table.
func fieldLimit(table string, f jobtable.Field, metric bool) (limit, bool) {
	for _, key := range []string{table + "." + f.Path + ", metric", table + "." + f.Path} {
		if l, ok := limits[key]; ok && (metric || !strings.HasSuffix(key, ", metric")) {
			return l, true
		}
	}
	switch f.Kind {
	case jobtable.Count:
		return whole, true
	case jobtable.Share:
		return share1000, true
	case jobtable.Amount, jobtable.Price, jobtable.Hours:
		return number, true
	}
	return limit{}, false
}

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
