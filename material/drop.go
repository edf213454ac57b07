package material

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Drop is how far the next column of motifs to the right lies lower, as a part of
// the vertical repeat: Num/Den, such as 1/2 for a half drop. A drop of 1/3 is
// the mirror image of one of 2/3. The zero value is no drop. In files it is text:
// "1/2"; "0" for none.
type Drop struct {
	Num int // from 1 to Den - 1
	Den int // from 2 to 64
}

const finestDrop = 64

func (d Drop) check() error {
	if d == (Drop{}) {
		return nil
	}
	if err := check.Count("den", d.Den, 2, finestDrop); err != nil {
		return err
	}
	return check.Count("num", d.Num, 1, d.Den-1)
}

// String writes the drop as it stands in files.
func (d Drop) String() string {
	if d == (Drop{}) {
		return "0"
	}
	return strconv.Itoa(d.Num) + "/" + strconv.Itoa(d.Den)
}

// MarshalText writes the drop as String does. A drop that is no part of a repeat
// wraps unit.ErrRange.
func (d Drop) MarshalText() ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads a fraction from 0 to under 1, in parts down to 1/64. It
// wraps unit.ErrSyntax.
func (d *Drop) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	if s == "0" {
		*d = Drop{}
		return nil
	}
	num, den, ok := strings.Cut(s, "/")
	n, err1 := strconv.Atoi(strings.TrimSpace(num))
	m, err2 := strconv.Atoi(strings.TrimSpace(den))
	out := Drop{Num: n, Den: m}
	if !ok || err1 != nil || err2 != nil || m < 1 || n != 0 && out.check() != nil {
		return check.Refuse("", s, unit.ErrSyntax, "a fraction under one, such as 1/2")
	}
	if n == 0 {
		out = Drop{}
	}
	*d = out
	return nil
}
