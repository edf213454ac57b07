package cost

import (
	"strconv"
	"time"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Date is a calendar day, such as the day a quote was issued. The zero value
// is no date. Nothing in this package reads the clock.
type Date struct {
	year, month, day int
}

const isoDate = "2006-01-02"

// NewDate gives a day of the calendar, from the year 1 to 9999. It wraps
// unit.ErrRange for a day that does not exist.
func NewDate(year, month, day int) (Date, error) {
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if year < 1 || year > 9999 || t.Year() != year || int(t.Month()) != month || t.Day() != day {
		text := strconv.Itoa(year) + "-" + strconv.Itoa(month) + "-" + strconv.Itoa(day)
		return Date{}, check.Refuse("date", text, unit.ErrRange, "a day of the calendar from year 1 to 9999")
	}
	return Date{year, month, day}, nil
}

// ParseDate reads a day as ISO 8601 writes it, such as 2026-11-30. It wraps
// unit.ErrSyntax.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(isoDate, s)
	if err != nil || t.Year() < 1 {
		return Date{}, check.Refuse("date", s, unit.ErrSyntax, "a day such as 2026-11-30")
	}
	return Date{t.Year(), int(t.Month()), t.Day()}, nil
}

func (d Date) time() time.Time {
	return time.Date(d.year, time.Month(d.month), d.day, 0, 0, 0, 0, time.UTC)
}

// IsZero tells whether d is no date.
func (d Date) IsZero() bool { return d == Date{} }

// AddDays gives the day n days later. It wraps unit.ErrRange beyond the year
// 9999 and unit.ErrRequired for the zero value.
func (d Date) AddDays(n int) (Date, error) {
	if d.IsZero() {
		return Date{}, check.Refuse("date", "", unit.ErrRequired, "a day such as 2026-11-30")
	}
	if n < -mostDays || n > mostDays {
		return Date{}, check.Refuse("days", strconv.Itoa(n), unit.ErrRange, "from -36600 to 36600")
	}
	t := d.time().AddDate(0, 0, n)
	return NewDate(t.Year(), int(t.Month()), t.Day())
}

const mostDays = 36_600

// Compare gives -1, 0 or 1 for d before, on or after e.
func (d Date) Compare(e Date) int { return d.time().Compare(e.time()) }

// String writes the day as ISO 8601 does; the zero value is "".
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.time().Format(isoDate)
}

// MarshalText writes d as String does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads d as ParseDate does; empty text is no date.
func (d *Date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*d = Date{}
		return nil
	}
	v, err := ParseDate(string(text))
	if err == nil {
		*d = v
	}
	return err
}
