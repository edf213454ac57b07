package main

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// decimal is a positive number as written: digits times 10^exp, without trailing zeros.
type decimal struct {
	digits string
	exp    int
}

// scale collects the numbers of an instance and chooses how many decimals to keep.
type scale struct {
	most  int   // most decimals seen
	whole int   // most digits before the point
	total int64 // numbers that may be summed
}

// read parses a JSON number that must be greater than 0 and sane: 1e-9 or so to 1e15.
func (s *scale) read(n json.Number) (decimal, error) {
	text := string(n)
	if strings.HasPrefix(text, "-") {
		return decimal{}, fmt.Errorf("%s is negative, want more than 0", clip(text))
	}
	mant, exp := text, 0
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		e, err := strconv.Atoi(strings.TrimPrefix(text[i+1:], "+"))
		if err != nil || e < -400 || e > 400 {
			return decimal{}, fmt.Errorf("%s is out of range", clip(text))
		}
		mant, exp = text[:i], e
	}
	whole, frac, _ := strings.Cut(mant, ".")
	digits := whole + frac
	if digits == "" || strings.Trim(digits, "0123456789") != "" {
		return decimal{}, fmt.Errorf("%q is not a number", clip(text))
	}
	exp -= len(frac)
	digits = strings.TrimLeft(digits, "0")
	short := strings.TrimRight(digits, "0")
	exp += len(digits) - len(short)
	if short == "" {
		return decimal{}, fmt.Errorf("%s is 0, want more than 0", clip(text))
	}
	if len(short)+exp > 15 || len(short)+exp < -9 {
		return decimal{}, fmt.Errorf("%s is out of range, want 1e-9 to 1e15", clip(text))
	}
	s.most = max(s.most, -exp)
	s.whole = max(s.whole, len(short)+exp)
	return decimal{short, exp}, nil
}

// decimals is how many decimals to keep so that sums of all numbers stay below 2^60, at most 9. Float noise in the
// input (17 digits) would keep pieces from fitting side by side; cut says that digits are dropped.
func (s *scale) decimals() (n int, cut bool) {
	n = min(s.most, 9)
	room := 18 - len(strconv.FormatInt(max(1, s.total), 10)) // digits of one number
	n = max(0, min(n, room-max(0, s.whole)))
	return n, n < s.most
}

// whole is the number in units of 10^-n, rounded down.
func (d decimal) whole(n int) (int64, error) {
	exp := d.exp + n
	text := d.digits
	if exp < 0 {
		if -exp >= len(text) {
			return 0, fmt.Errorf("%se%d is too small next to the other numbers", clip(d.digits), d.exp)
		}
		text = text[:len(text)+exp]
	} else {
		text += strings.Repeat("0", exp)
	}
	v, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return 0, fmt.Errorf("%se%d is out of range", clip(d.digits), d.exp)
	}
	return v, nil
}

// wholeNumber parses a count.
func wholeNumber(n json.Number) (int64, error) {
	v, err := strconv.ParseInt(string(n), 10, 64)
	if err == nil {
		return v, nil
	}
	// 3.0 and 3e0 are whole as well
	f, err := strconv.ParseFloat(string(n), 64)
	if err != nil || f != float64(int64(f)) || f > 1e15 || f < -1e15 {
		return 0, fmt.Errorf("is %s, want a whole number", clip(string(n)))
	}
	return int64(f), nil
}

// clip shortens a text for an error message.
func clip(s string) string {
	if len(s) > 40 {
		return s[:40] + "..."
	}
	return s
}

// pointed writes v times 10^-n without trailing zeros.
func pointed(v int64, n int) string {
	s := strconv.FormatInt(v, 10)
	if n == 0 {
		return s
	}
	neg := strings.HasPrefix(s, "-")
	s = strings.TrimPrefix(s, "-")
	if len(s) <= n {
		s = strings.Repeat("0", n-len(s)+1) + s
	}
	s = strings.TrimRight(s[:len(s)-n]+"."+s[len(s)-n:], "0")
	s = strings.TrimSuffix(s, ".")
	if neg {
		s = "-" + s
	}
	return s
}
