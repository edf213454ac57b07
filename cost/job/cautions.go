package job

import (
	"slices"
	"strings"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// cautionsOf gives what must be minded with the job, and what the price of pieces
// from kinds does not hold.
func cautionsOf(s Spec, o WorkOrder, unpriced []string) (caution.List, error) {
	pieces := make([]caution.Piece, 0, len(s.Pieces))
	for _, p := range s.Pieces {
		pieces = append(pieces, p.minded(o))
	}
	list, err := caution.Of(s.Jurisdictions, pieces...)
	if err != nil {
		return caution.List{}, err
	}
	list.Cautions = append(list.Cautions, takeOffCautions(o.TakeOff)...)
	note := func(id, about, text string, r caution.Reader, b cite.Basis) {
		list.Cautions = append(list.Cautions, caution.Caution{ID: id, Rank: caution.ThisJob, About: about, Jurisdiction: caution.Everywhere, Text: text,
			Basis: []cite.Basis{b}, Audience: []caution.Reader{r}})
	}
	ofJob := cite.Basis{Status: cite.Derived, Note: "from this job"}
	for _, text := range hardlyMeant(s, o) {
		note("J1", "is this meant", text, caution.Office, ofJob)
	}
	if text := oldPrices(s, o); text != "" {
		note("J6", "old prices", text, caution.Office, cite.Practice(""))
	}
	for _, text := range unpriced {
		note("J2", "not priced", text, caution.Office, ofJob)
	}
	for _, text := range unpricedNote(o) {
		note("J7", "findings left out", text, caution.Office, ofJob)
	}
	for _, text := range unfilledNote(s, o) {
		note("J12", "filling", text, caution.Office, ofJob)
	}
	for _, text := range chargedTwice(s, o.Findings) {
		note("J8", "charged twice", text, caution.Office, ofJob)
	}
	for _, text := range findingCautions(s, o) {
		note("J9", "findings", text, caution.Bench, cite.Practice(""))
	}
	for _, text := range deliveredTwice(s) {
		note("J1", "is this meant", text, caution.Office, ofJob)
	}
	for _, text := range roughNotes(o) {
		note("J10", "not measured", text, caution.Office, cite.Practice(""))
	}
	for _, text := range unusual(o) {
		note("J5", "time", text, caution.Office, cite.Practice(""))
	}
	for _, p := range o.Purchases {
		if text := p.leatherCaution(); text != "" {
			note("J3", "leather", text, caution.Bench, cite.Practice(""))
		}
		if text := p.stockCaution(); text != "" {
			note("J11", "goods at hand", text, caution.Office, ofJob)
		}
		if text := idleRemnants(s, p); text != "" {
			note("J11", "goods at hand", text, caution.Office, ofJob)
		}
		if names := p.OffRepeat(); len(names) > 0 {
			note("J4", "pattern", "Nothing holds the pattern of "+p.Name+" on what may be joined from pieces: "+strings.Join(names, "; ")+
				". It lies off the repeat, and its joins do not match. Give it a motif where they must.", caution.Bench, ofJob)
		}
	}
	return list, nil
}

// largePanels is how many panels a piece has that is lifted by two: an armchair or a
// sofa, and no dining chair.
const largePanels = 6

func (p Furniture) large() bool { return len(p.Panels) >= largePanels }

// framed tells whether work is done on the frame of a piece: one that is sewn and put
// over it, as a slip cover is, has nothing to fit.
func (p Furniture) framed(o WorkOrder) bool {
	if p.Rough != nil || len(p.Tufted)+len(p.Channels)+len(p.Trims) > 0 {
		return true
	}
	for _, a := range o.Assembly {
		if a.Piece == p.Name && a.Part == "" && len(a.Work.Seams) > 0 {
			return len(a.Work.Fitting) > 0
		}
	}
	return len(p.Panels)+len(p.Fastenings) > 0
}

// minded gives what cautions ask of a piece of the order.
func (p Furniture) minded(o WorkOrder) caution.Piece {
	out := caution.Piece{Name: p.Name, For: p.For, Owner: p.Owner, MayBeOld: p.MayBeOld}
	switch p.Lives {
	case thread.Outdoors:
		out.Lives = caution.OutOfDoors
	case thread.OnBoat:
		out.Lives = caution.OnBoat
	case thread.InVehicle:
		out.Lives = caution.InVehicle
	case thread.Indoors, thread.BehindGlass, thread.Damp:
	}
	out.Frame = p.framed(o)
	out.Large = out.Frame && p.large() && !slices.Contains(p.For, caution.Motorcycle)
	out.Sewn = slices.ContainsFunc(o.Sewing.SetUps, func(u SetUp) bool {
		return slices.ContainsFunc(u.Rows, func(r SewnRow) bool { return r.Piece == p.Name })
	})
	for _, b := range o.Foam {
		if b.Piece != p.Name {
			continue
		}
		ask := b.Selection.Request
		out.NewFoam = true
		out.Springs = out.Springs || ask.Base == foam.Springs
		out.Board = out.Board || ask.Base == foam.Board
		out.Bed = out.Bed || ask.Use == foam.Bed || ask.Use == foam.Berth
	}
	return out
}

// OffRepeat names the panels that may be joined from pieces, without a motif, and so
// lie off the repeat of patterned goods.
func (p Purchase) OffRepeat() []string {
	if p.Plan == nil || p.Plan.Job.Roll == nil || !p.Plan.Job.Roll.Patterned() {
		return nil
	}
	var out []string
	for _, x := range p.Plan.Job.Pieces {
		if x.Join != nil && x.Phase.Axes == layout.Unbound && !slices.Contains(out, x.Name) {
			out = append(out, x.Name)
		}
	}
	return out
}
