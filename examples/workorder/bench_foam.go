package main

import (
	"html/template"
	"reflect"
	"slices"

	"github.com/coverwright/coverwright/cost/job"
)

// foamView is the foam of one grade: what to ask for, and the blocks to cut.
type foamView struct {
	Ask      string
	Blocked  int // blocks that are bought as such, not cut from sheets
	Blocks   []blockView
	Evidence []string
	Curve    template.HTML
}

// blockView is a block, or several that are alike.
type blockView struct {
	Cut, For string
	Notes    []string
	Plan     template.HTML
}

// viewFoam lists the blocks of foam, grade by grade.
func (s *sheet) viewFoam(v *benchCopy, o job.WorkOrder) error {
	v.Why, v.Stock = s.why, s.sheets(o)
	blocks, names, err := alikeBlocks(o.Foam)
	if err != nil {
		return err
	}
	for i, words := range s.foamWords(blocks) {
		f := blocks[i]
		b := blockView{Cut: words.Cut, For: names[i], Notes: words.Notes}
		plan, err := s.foamPlan(f)
		if err != nil {
			return err
		}
		if plan != "" {
			b.Plan = drawing(plan)
		}
		at := slices.IndexFunc(v.Foam, func(g foamView) bool { return g.Ask == words.Ask })
		if at < 0 {
			at = len(v.Foam)
			g := foamView{Ask: words.Ask}
			if s.why {
				curve, err := s.foamDrawing(f)
				if err != nil {
					return err
				}
				g.Curve = drawing(curve)
			}
			v.Foam = append(v.Foam, g)
		}
		g := &v.Foam[at]
		if f.PricedBy != job.BySheet {
			g.Blocked += f.Count
		}
		g.Blocks = append(g.Blocks, b)
		for _, e := range words.Evidence {
			if s.why && !slices.Contains(g.Evidence, e) {
				g.Evidence = append(g.Evidence, e)
			}
		}
	}
	return nil
}

// alikeBlocks puts blocks together that are alike in all but what they are for, and
// says what that is.
func alikeBlocks(list []job.FoamBlock) ([]job.FoamBlock, []string, error) {
	var out []job.FoamBlock
	var names [][]string
	var counts []map[string]int
	for _, f := range list {
		name := f.Piece + ": " + f.Name()
		k := slices.IndexFunc(out, func(g job.FoamBlock) bool { return reflect.DeepEqual(onlyBlock(g), onlyBlock(f)) })
		if k < 0 {
			k = len(out)
			out, names, counts = append(out, f), append(names, nil), append(counts, map[string]int{})
		} else if err := addBlocks(&out[k], f); err != nil {
			return nil, nil, err
		}
		if counts[k][name] == 0 {
			names[k] = append(names[k], name)
		}
		counts[k][name] += f.Count
	}
	texts := make([]string, len(out))
	for k := range out {
		texts[k] = each(names[k], counts[k])
	}
	return out, texts, nil
}

// onlyBlock leaves out of a block what it is for and how many there are.
func onlyBlock(f job.FoamBlock) job.FoamBlock {
	f.Piece, f.Part, f.Count, f.Shaped, f.Volume = "", "", 0, 0, 0
	if f.Wrap != nil {
		w := *f.Wrap
		w.Sheets, w.Sides, w.Area, w.Length = 0, min(w.Sides, 1), 0, 0
		f.Wrap = &w
	}
	return f
}

// addBlocks adds blocks that are alike.
func addBlocks(to *job.FoamBlock, f job.FoamBlock) error {
	var err error
	to.Count += f.Count
	if to.Shaped, err = to.Shaped.Plus(f.Shaped); err != nil {
		return err
	}
	if to.Volume, err = to.Volume.Plus(f.Volume); err != nil {
		return err
	}
	if to.Wrap == nil {
		return nil
	}
	w := *to.Wrap
	w.Sheets, w.Sides = w.Sheets+f.Wrap.Sheets, w.Sides+f.Wrap.Sides
	if w.Area, err = w.Area.Plus(f.Wrap.Area); err != nil {
		return err
	}
	w.Length, err = w.Length.Plus(f.Wrap.Length)
	to.Wrap = &w
	return err
}
