package main

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// hideRow is a piece on a hide with the places of its two points, black and ringed in
// the drawing.
type hideRow struct{ Number, Part, Size, Black, Ringed, Top string }

// addHides adds the drawing of each hide in use, and where a tape finds each piece.
func (s *sheet) addHides(l *layoutView, p job.Purchase, pictures []layout.Drawing, labels []layout.Label) error {
	plan := *p.Plan
	used, err := plan.Density()
	if err != nil {
		return err
	}
	l.Intro = fmt.Sprintf("%s, %s of the ground that can be used is used.", hides(len(plan.Used)), used.PercentText(0, unit.Nearest)) + handKey(plan)
	if plan.Stopped {
		l.Intro += stoppedEarly
	}
	for _, q := range plan.Unplaced {
		l.Missing = append(l.Missing, plan.Job.Pieces[q.Piece].Name)
	}
	for _, d := range pictures {
		k := plan.Hides[d.Hide]
		what := k.ID
		if what == "" {
			what = strconv.Itoa(d.Hide + 1)
		}
		caption := fmt.Sprintf("Hide %s, %s, sold as %s", what, k.Kind, s.area(k.SoldArea(), unit.Nearest))
		if !slices.Contains(plan.Bought, d.Hide) {
			caption = fmt.Sprintf("Hide %s, %s of %s, at hand", what, k.Kind, s.area(k.SoldArea(), unit.Nearest))
		}
		rows, err := s.hideRows(plan, d.Hide, labels)
		if err != nil {
			return err
		}
		l.Drawings = append(l.Drawings, drawingView{drawing(d.SVG), caption + "; " + p.HideNote(d.Hide), rows})
	}
	return nil
}

func (s *sheet) hideRows(plan layout.Plan, hide int, labels []layout.Label) ([]hideRow, error) {
	places, err := plan.HidePlaces(hide)
	if err != nil {
		return nil, err
	}
	datum, err := plan.HideDatum(hide)
	if err != nil {
		return nil, err
	}
	spot := func(p layout.HidePoint) string {
		side := ""
		if datum.Backbone {
			side = map[bool]string{true: " left", false: " right"}[p.Left]
		}
		return s.nb(p.Across) + side + ", " + s.nb(p.FromTail)
	}
	out := make([]hideRow, len(places))
	for i, p := range places {
		name := labels[p.Piece]
		if p.Mirrored {
			name.Name += ", mirrored"
		}
		out[i] = hideRow{name.Number, name.Name, s.nbSize(s.cutSize(job.Size{Width: p.Width, Length: p.Length})), spot(p.Points[0]), spot(p.Points[1]), topWay(false, p.Top)}
	}
	return out, nil
}
