package main

import (
	"flag"
	"fmt"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/unit"
)

// patternsFile is the book of the patterns.
const patternsFile = "patterns.pdf"

// patternFlags are what the command line says about patterns.
type patternFlags struct {
	all, whole bool
	roll       string
}

func (f *patternFlags) flags(fs *flag.FlagSet) {
	fs.BoolVar(&f.all, "all", false, "patterns: print straight pieces too, not only those a rule will not do for")
	fs.BoolVar(&f.whole, "whole", false, "patterns: no halves on the fold, and no sheet left out that holds straight lines or nothing")
	fs.StringVar(&f.roll, "roll", "", "patterns: `WIDTH` of paper from a roll for a plotter, such as 36 in, in place of the sheets of -paper")
}

// Rolls narrower hold no test square with its edges; a page of a PDF is not wider.
const leastRoll, mostRoll = 150 * unit.Millimetre, 5 * unit.Metre

// set works the flags out for a paper.
func (f patternFlags) set(paper pattern.Sheet) (patternSet, error) {
	set := patternSet{paper: paper, all: f.all, whole: f.whole}
	if f.roll == "" {
		return set, nil
	}
	wide, err := unit.ParseLength(f.roll)
	if err != nil || wide < leastRoll || wide > mostRoll {
		return set, fmt.Errorf("-roll %q: want the width of the paper, such as 36 in, from 150 mm to 5 m", f.roll)
	}
	set.roll = pattern.RollOf(wide)
	return set, nil
}

// renderPatterns writes the folder of -format patterns.
func renderPatterns(o job.WorkOrder, set settings) error {
	files, err := patternFiles(o, set.metric, set.patterns)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "patterns", files, set.force)
}

// patternFiles draws the patterns of a job: one PDF of full-size pages, and
// each piece whole as SVG and DXF. Of a pair there is a file for the other hand too,
// since a machine cannot turn the paper over.
func patternFiles(o job.WorkOrder, metric bool, set patternSet) ([]folder.File, error) {
	s := &sheet{metric: metric}
	cuts, err := drawnCuts(o)
	if err != nil {
		return nil, err
	}
	book, err := s.patternPDF(o, cuts, set)
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
	hides, err := s.hideFiles(o, cuts)
	return append(files, hides...), err
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
