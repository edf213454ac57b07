package pages

import (
	"fmt"
	"regexp"
	"strings"
)

// fenced is a block of text in a page.
var fenced = regexp.MustCompile("(?ms)^```text\n(.*?)^```$")

// Check lists what is wrong with the sums of a page: that do not come out, that no
// example follows, or whose last result the example does not print. It also counts
// those that are right.
func Check(page string) (right int, faults []string) {
	var waiting []Result
	blocks := []string{}
	at := 0
	settle := func(output string) {
		for i, r := range waiting {
			if r.Is(output) {
				right++
			} else {
				faults = append(faults, fmt.Sprintf("%q is not what the code prints: %q", blocks[i], output))
			}
		}
		waiting, blocks = nil, nil
	}
	for _, m := range mark.FindAllStringIndex(page, -1) {
		for _, b := range fenced.FindAllStringSubmatch(page[at:m[0]], -1) {
			r, err := Work(b[1])
			if err != nil {
				faults = append(faults, err.Error())
				continue
			}
			waiting, blocks = append(waiting, r), append(blocks, b[1])
		}
		if part := page[m[0]:m[1]]; strings.HasPrefix(part, "<!-- example") {
			printed := fenced.FindAllStringSubmatch(part, -1)
			settle(printed[len(printed)-1][1])
		}
		at = m[1]
	}
	for range waiting {
		faults = append(faults, "no example follows the last sums")
	}
	for range fenced.FindAllString(page[at:], -1) {
		faults = append(faults, "sums stand behind the last example")
	}
	return right, faults
}

// Unworked lists those of some formulas that no sum follows on a page before the
// next example.
func Unworked(page string, formulas []string) []string {
	var out []string
	for _, name := range formulas {
		_, rest, found := strings.Cut(page, "<!-- doc "+name+" -->\n")
		_, rest, _ = strings.Cut(rest, "<!-- end -->")
		rest, _, _ = strings.Cut(rest, "<!-- example ")
		if !found || !fenced.MatchString(ByHand(rest)) {
			out = append(out, name)
		}
	}
	return out
}

// ByHand gives what of a page is not written from the code.
func ByHand(page string) string { return mark.ReplaceAllString(page, "") }
