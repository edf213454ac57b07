package job

import (
	"slices"

	"github.com/coverwright/coverwright/unit/cite"
)

// sourcesOf gives the documents behind the figures of the order, in the order of
// the module's list.
func sourcesOf(o WorkOrder) []cite.Source {
	used := map[string]bool{}
	note := func(bs ...cite.Basis) {
		for _, x := range bs {
			used[x.Source] = true
		}
	}
	for _, c := range o.Cuts {
		note(c.Basis...)
	}
	for _, p := range o.Purchases {
		for _, a := range p.Answers {
			note(a.Basis)
		}
	}
	note(o.Sewing.Basis...)
	for _, c := range o.Sewing.Fibres {
		note(c.Basis)
	}
	for _, s := range o.Sewing.SetUps {
		note(s.Basis...)
		for _, w := range s.Why {
			note(w.Basis)
		}
	}
	for _, f := range o.Foam {
		note(f.Selection.DensityBasis, f.Selection.Delivered.Basis)
		for _, x := range f.Selection.IFDFigures {
			note(x.Basis)
		}
		for _, x := range f.Selection.DensityFigures {
			note(x.Basis)
		}
	}
	for _, c := range o.Cautions {
		note(c.Basis...)
	}
	return slices.DeleteFunc(cite.Sources(), func(s cite.Source) bool { return !used[s.Key] })
}
