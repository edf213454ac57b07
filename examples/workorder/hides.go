package main

import (
	"slices"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/material/layout"
)

// hideFiles draws the layouts on hides full size. A hide that was not traced has none: its
// shape is a guess.
func (s *sheet) hideFiles(o job.WorkOrder, patterns []drawnCut) ([]folder.File, error) {
	var files []folder.File
	for _, p := range o.Purchases {
		cuts := slices.DeleteFunc(slices.Clone(patterns), func(q drawnCut) bool { return q.cut.Goods != p.Goods })
		for _, laid := range p.Layouts() {
			plan := laid.Plan
			for _, k := range plan.Used {
				if plan.Hides[k].Outline.IsZero() {
					continue
				}
				svg, err := plan.HideSVG(k, layout.Picture{Title: p.Name, Labels: labelsOf(laid, cuts), Units: s.units()})
				if err != nil {
					return nil, err
				}
				name := slug(len(files)+1, p.Name+" "+plan.Hides[k].ID)
				files = append(files, folder.File{Name: "hides/" + name + ".svg", Data: []byte(svg)})
			}
		}
	}
	return files, nil
}
