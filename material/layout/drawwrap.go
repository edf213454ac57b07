package layout

import (
	"strings"

	"github.com/coverwright/coverwright/internal/svg"
)

// wrapWords breaks text into rows no wider than wide; false when a word is wider.
func wrapWords(text string, wide, pt float64) ([]string, bool) {
	var rows []string
	row := ""
	for _, w := range strings.Split(text, " ") {
		switch {
		case svg.TextWidth(w, pt) > wide:
			return nil, false
		case row == "":
			row = w
		case svg.TextWidth(row+" "+w, pt) <= wide:
			row += " " + w
		default:
			rows = append(rows, row)
			row = w
		}
	}
	if row != "" {
		rows = append(rows, row)
	}
	return rows, true
}
