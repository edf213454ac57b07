package main

import (
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
)

// patternsFile is the book of the patterns.
const patternsFile = "patterns.pdf"

// renderPatterns writes the folder of -format patterns.
func renderPatterns(o job.WorkOrder, set settings) error {
	files, err := patternFiles(o, set.metric, set.paper, set.all)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "patterns", files, set.force)
}

// patternFiles draws the patterns of a job: one PDF of full-size pages, and
// each piece as SVG and DXF. Of a pair there is a file for the other hand too,
// since a machine cannot turn the paper over.
func patternFiles(o job.WorkOrder, metric bool, on pattern.Sheet, all bool) ([]folder.File, error) {
	s := &sheet{metric: metric}
	cuts, err := drawnCuts(o)
	if err != nil {
		return nil, err
	}
	book, err := s.patternPDF(o, cuts, on, all)
	if err != nil {
		return nil, err
	}
	notice, err := fontNotice(patternsFile)
	if err != nil {
		return nil, err
	}
	files := []folder.File{{Name: patternsFile, Data: book}, notice}
	for _, p := range cuts {
		name := slug(p.number, p.name())
		hands := []pattern.Pattern{p.Pattern}
		if p.Pair {
			other, err := otherHand(o, p)
			if err != nil {
				return nil, err
			}
			hands = append(hands, other)
		}
		for _, h := range hands {
			if h.Mirrored {
				name += "-mirrored"
			}
			svg, err := h.SVG(s.units())
			if err != nil {
				return nil, err
			}
			dxf, err := h.DXF(s.units())
			if err != nil {
				return nil, err
			}
			files = append(files, folder.File{Name: "svg/" + name + ".svg", Data: []byte(svg)}, folder.File{Name: "dxf/" + name + ".dxf", Data: []byte(dxf)})
		}
	}
	return files, nil
}

// otherHand draws up the other hand of a pair. That of a cover has letters of its
// own.
func otherHand(o job.WorkOrder, p drawnCut) (pattern.Pattern, error) {
	out := p.Mirror()
	if p.cut.Assembly == 0 {
		return out, nil
	}
	pieces := o.Assembly[p.cut.Assembly-1].Work.Pieces
	for _, i := range p.cut.Pieces {
		if pieces[i].Hand == p.cut.Hand {
			continue
		}
		own, err := pattern.OfPiece(pieces[i])
		if err != nil {
			return out, err
		}
		own.Name, own.Notes, own.Goods, own.Count, own.Pair, own.Mirrored = out.Name, out.Notes, out.Goods, out.Count, out.Pair, out.Mirrored
		return own, nil
	}
	return out, nil
}

// papers are what -paper knows, by their names in small letters.
func papers() []pattern.Sheet { return []pattern.Sheet{pattern.A4(), pattern.Letter()} }

// paperNamed finds a paper.
func paperNamed(name string) (pattern.Sheet, error) {
	var names []string
	for _, p := range papers() {
		n := strings.ToLower(p.Name)
		if n == name {
			return p, nil
		}
		names = append(names, n)
	}
	return pattern.Sheet{}, fmt.Errorf("-paper %q: want %s", name, strings.Join(names, " or "))
}
