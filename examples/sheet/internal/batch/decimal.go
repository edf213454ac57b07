package batch

import (
	"errors"
	"regexp"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// decimal is the sign between the whole and the fraction of a number: a point
// or a comma. A file has one.
type decimal byte

const (
	point decimal = '.'
	comma decimal = ','
)

// grouped are numbers whose sign may stand between thousands: they settle nothing.
var grouped = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}([.,][0-9]{3})+$`)

// signOf looks for the first number with a fraction in the columns of
// arguments. A file without one has the comma where semicolons separate its
// cells, as programs write them that have the comma, and else the point.
func signOf(f *table.Function, at []int, rd *reader) decimal {
	for {
		rec, err := rd.next()
		if err != nil {
			break
		}
		for i, a := range f.Args {
			if a.Kind == table.Text || a.Kind == table.Any || at[i] < 0 || at[i] >= len(rec.cells) {
				continue
			}
			switch t := rec.cells[at[i]].text; {
			case strings.Contains(t, ".") == strings.Contains(t, ","), grouped.MatchString(t):
			case strings.Contains(t, "."):
				return point
			default:
				return comma
			}
		}
	}
	if rd.sep == ';' {
		return comma
	}
	return point
}

var (
	errPoint = errors.New("a number with a decimal point is wanted")
	errComma = errors.New("a number with a decimal comma is wanted")
	between  = regexp.MustCompile(`([0-9]),([0-9])`)
)

// figure reads a plain decimal; no hexadecimals, infinities or underscores.
func (d decimal) figure(s string) (float64, error) {
	bad := errPoint
	if d == comma {
		if bad = errComma; strings.Contains(s, ".") {
			return 0, bad
		}
		s = strings.Replace(s, ",", ".", 1)
	}
	if strings.ContainsFunc(s, func(r rune) bool { return !strings.ContainsRune("0123456789+-.eE", r) }) {
		return 0, bad
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) {
		return 0, bad
	}
	return x, nil // an infinity is refused by the function, as #NUM!
}

// quantity gives a text with a unit as the functions read it, with a point.
func (d decimal) quantity(s string) (string, error) {
	switch {
	case d == point:
		return s, nil
	case strings.Contains(s, "."):
		return "", errComma
	}
	return between.ReplaceAllString(s, "$1.$2"), nil
}

// write writes a number.
func (d decimal) write(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'f', -1, 64), ".", string(d), 1)
}

// isNumber tells whether a text is a plain number, with either sign.
func isNumber(s string) bool {
	_, p := point.figure(s)
	_, c := comma.figure(s)
	return p == nil || c == nil
}
