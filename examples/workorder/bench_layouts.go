package main

import (
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// layoutView is a layout, on paper a page of its own.
type layoutView struct {
	ID, Title, Sum, Intro string
	Drawings              []drawingView
	Rows                  []placeRow
	Named, Folded         bool     // the rows have room for names, or are too many for a screen
	Missing               []string // panels that found no room
	Long, Many            bool     // paper lies on its side for it, or holds three drawings
	Open                  bool
}

type drawingView struct {
	Picture template.HTML
	Caption string
	Hide    []hideRow // the pieces on a hide
}

type placeRow struct{ Number, Part, FromEnd, FromLeft, Size, Turned string }

func (s *sheet) viewLayouts(v *benchCopy, o job.WorkOrder, cuts []drawnCut) error {
	for i, p := range o.Purchases {
		of := slices.DeleteFunc(slices.Clone(cuts), func(q drawnCut) bool { return q.cut.Goods != p.Goods })
		for k, laid := range p.Layouts() {
			l := layoutView{ID: fmt.Sprintf("layout-%d", i+1), Title: laidOn(p, laid)}
			if k > 0 {
				l.ID += fmt.Sprintf("-%d", k+1)
			}
			labels := labelsOf(laid, of)
			pictures, err := laid.Plan.Draw(layout.Picture{Title: laidOn(p, laid), Labels: labels, Units: s.units(), Width: pageWide})
			if err != nil {
				return err
			}
			if laid.Plan.Job.Hides == nil {
				buy := p.Length
				if laid.On != "" {
					buy = 0
				}
				s.addRoll(&l, laid.Plan, buy, pictures, labels)
			} else if err := s.addHides(&l, p, pictures, labels); err != nil {
				return err
			}
			l.Sum = plural(len(laid.Plan.Places), "piece") + " on " + plural(len(pictures), "drawing")
			l.Open = len(pictures) <= manyThings
			v.Layouts = append(v.Layouts, l)
		}
	}
	return nil
}

// labelsOf numbers and names the pieces of a layout as the cut list does.
func labelsOf(laid stock.Laid, cuts []drawnCut) []layout.Label {
	out := make([]layout.Label, len(laid.Cuts))
	for i, k := range laid.Cuts {
		out[i] = layout.Label{Name: laid.Plan.Job.Pieces[i].Name}
		if k < len(cuts) {
			out[i] = layout.Label{Number: strconv.Itoa(cuts[k].number), Name: cuts[k].cut.Part}
		}
	}
	return out
}

const stoppedEarly = " The search was stopped early; more effort may save goods."

// addRoll adds the drawings of a roll and the list of places.
func (s *sheet) addRoll(l *layoutView, plan layout.Plan, buy unit.Length, pictures []layout.Drawing, labels []layout.Label) {
	l.Intro = s.rollIntro(plan, buy)
	for _, d := range pictures {
		l.Drawings = append(l.Drawings, drawingView{Picture: drawing(d.SVG)})
	}
	roll := plan.Job.Roll
	l.Many = len(pictures) > 1
	l.Long = len(pictures) == 1 && plan.Order > roll.Usable()*4/3
	l.Named, l.Folded = len(plan.Places) <= longList, len(plan.Places) > shortList
	for _, p := range plan.InOrder() {
		low, high := p.Bounds()
		name := labels[p.Piece]
		size := job.Size{Width: high.X - low.X, Length: high.Y - low.Y}
		if p.Turned == 90 || p.Turned == 270 { // as the cut list has it
			size.Width, size.Length = size.Length, size.Width
		}
		l.Rows = append(l.Rows, placeRow{name.Number, name.Name + segmentOf(p), s.nb(low.Y), s.nb(low.X), s.nbSize(s.cutSize(size)), laidShort(p)})
	}
}

// laidShort says in a word how a piece lies, where it is not as drawn.
func laidShort(p layout.Place) string {
	var out []string
	if p.Turned != 0 {
		out = append(out, fmt.Sprintf("%.0f°", float64(p.Turned)))
	}
	if p.Mirrored {
		out = append(out, "mir.")
	}
	return strings.Join(out, noBreak)
}

// rollIntro says how to read a layout of goods of which a length is bought, or none.
func (s *sheet) rollIntro(plan layout.Plan, buy unit.Length) string {
	roll := *plan.Job.Roll
	text := fmt.Sprintf("Usable width %s, length needed %s", s.nb(roll.Usable()), s.nb(plan.Need))
	if buy > 0 {
		text += ", buy " + s.buyLen(buy)
	}
	text += ". The roll runs to the right, its left edge is above; arrows point to the top of each piece." + handKey(plan)
	if roll.Patterned() {
		text += " The pattern " + strings.Join(plan.PatternNotes(s.units()), "; ") + ". Crosses and marked lines are where the motifs lie, a ring is the point of a piece that is put on one."
		if a, b := roll.Repeat, roll.Columns(); a > 0 && a < unit.Inch || b > 0 && b < unit.Inch {
			text += " A repeat too small to draw has no lines."
		}
	}
	if roll.Nap && !roll.Patterned() {
		text += " Goods with one direction: turn no piece round."
	}
	if plan.Stopped {
		text += stoppedEarly
	}
	return text
}
