package main

import (
	"fmt"
	"go/token"
	"go/types"
	"strings"
)

// figureEdits turns the places of figures into choices between values: which
// edits each file takes, for the changes that are asked for.
func figureEdits(f *finder, w *switches, ids map[*figure]map[string]int) map[int][]edit {
	edits := map[int][]edit{}
	for _, p := range f.places {
		var before []string
		for _, fig := range p.figures {
			for _, how := range []string{byFive, byDigit} {
				id, ok := ids[fig][how]
				if !ok {
					continue
				}
				if text := f.src.other(p, fig, how); text != "" {
					before = append(before, fmt.Sprintf("heldFigure[%s](%d, %s, ", w.name(p.of), id, text))
				}
			}
		}
		if len(before) == 0 {
			continue
		}
		edits[p.file] = append(edits[p.file], edit{p.expr.Pos(), p.expr.End(), func(old func(a, b token.Pos) string) string {
			return strings.Join(before, "") + old(p.expr.Pos(), p.expr.End()) + strings.Repeat(")", len(before))
		}})
	}
	return edits
}

// rebuilt is the text of a literal in a package that is built anew.
func rebuilt(fig *figure, how string) string {
	now := changed(fig.lit.Value, "")
	t := types.Typ[types.Float64]
	if fig.lit.Kind == token.INT {
		t = types.Typ[types.Int64]
	}
	return written(changed(fig.lit.Value, how), t, now)
}

// other is the value of a place when one of its figures is changed, empty where
// that makes no difference or cannot be.
func (s *source) other(p place, fig *figure, how string) string {
	v, err := s.value(p.expr, changes{fig.lit: changed(fig.lit.Value, how)})
	if err != nil {
		return ""
	}
	return written(v, p.of, s.info.Types[p.expr].Value)
}
