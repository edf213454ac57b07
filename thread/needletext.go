package thread

import (
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

const needleWant = `a needle such as "110/18", "110" or "18"`

// ParseNeedle reads a needle as it is sold: metric size and number ("110/18",
// either way round), metric size alone ("110", "Nm 110") or number alone
// ("18", "#18", "22.5"). Metric sizes start at 60 and numbers end at 30, so a
// bare number has one meaning; but numbers 22 and 23 are sold in two metric
// sizes and wrap ErrAmbiguous. Other errors wrap unit.ErrUnknown.
func ParseNeedle(text string) (Needle, error) {
	unknown := func() (Needle, error) {
		return 0, check.Refuse("needle", text, unit.ErrUnknown, needleWant)
	}
	a, b, both := strings.Cut(strings.TrimSpace(text), "/")
	first := needleWord(a)
	if !both {
		return first.one(text)
	}
	second := needleWord(b) // one of the same kind matches no line
	if !first.metric {
		first, second = second, first
	}
	for _, l := range needleLines {
		if int(l.metric)*10 == first.tenths && second.matches(l.number) {
			return l.metric, nil
		}
	}
	return unknown()
}

// needleTerm is one half of a needle text: a metric size or a number, in
// tenths.
type needleTerm struct {
	tenths int
	metric bool
	exact  bool // written with its tenth, as 22.5
}

// needleWord reads one half; what is none is the zero value, which matches nothing.
func needleWord(s string) needleTerm {
	s = strings.TrimSpace(s)
	wantMetric, wantNumber := false, false
	switch {
	case strings.HasPrefix(s, "Nm"), strings.HasPrefix(s, "NM"):
		s, wantMetric = strings.TrimSpace(s[2:]), true
	case strings.HasPrefix(s, "#"):
		s, wantNumber = strings.TrimSpace(s[1:]), true
	}
	whole, tenth, exact := strings.Cut(s, ".")
	n, err := strconv.ParseUint(whole, 10, 16)
	if err != nil || (exact && tenth != "5") {
		return needleTerm{}
	}
	w := needleTerm{tenths: int(n) * 10, exact: exact}
	if exact {
		w.tenths += 5
	}
	w.metric = n >= 60
	if (wantMetric && !w.metric) || (wantNumber && w.metric) {
		return needleTerm{}
	}
	return w
}

func (w needleTerm) matches(n NeedleNumber) bool {
	if w.exact {
		return int(n) == w.tenths
	}
	return int(n/10)*10 == w.tenths
}

func (w needleTerm) one(text string) (Needle, error) {
	var found Needle
	for _, l := range needleLines {
		if w.metric && int(l.metric)*10 == w.tenths {
			return l.metric, nil
		}
		if !w.metric && w.matches(l.number) {
			if found != 0 {
				return 0, check.Refuse("needle", text, ErrAmbiguous, found.String()+" or "+l.metric.String())
			}
			found = l.metric
		}
	}
	if found == 0 {
		return 0, check.Refuse("needle", text, unit.ErrUnknown, needleWant)
	}
	return found, nil
}
