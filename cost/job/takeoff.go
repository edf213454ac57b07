package job

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// TakenOff is what was noted of an old cover, or of a panel of it, before and while it came off.
type TakenOff struct {
	Photos []string `json:"photos,omitempty"` // names of their files
	Notes  []string `json:"notes,omitempty"`  // where it was eased, what pull strips it had, where the staples sat
}

// TakeOffSpec is how the old cover of a piece of furniture came off.
type TakeOffSpec struct {
	TakenOff
	// Order is what came off, the first first: panels by their names, and whatever else there
	// was. The new cover goes on the other way round.
	Order []string `json:"order,omitempty"`
}

// TakeOff is the record of how an old cover came off a piece of furniture, for
// the bench.
type TakeOff struct {
	Piece string `json:"piece"` // of furniture
	TakenOff
	Order  []string      `json:"order,omitempty"`
	Panels []PanelRecord `json:"panels,omitempty"`
}

// PanelRecord is what is known of one old panel.
type PanelRecord struct {
	Panel string `json:"panel"`
	TakenOff
	// Old is what was traced and how the finished panel came of it; nil for a panel
	// that was measured. Old.Words says it in words.
	Old *allowance.Recovered `json:"old,omitempty"`
}

const (
	mostNotes    = 200
	longestNote  = 500
	longestPhoto = 200
)

// empty tells whether nothing was noted.
func (t TakenOff) empty() bool { return len(t.Photos)+len(t.Notes) == 0 }

func (t TakenOff) check(at unit.Path) faults {
	var f faults
	f = append(f, texts(at.Dot("photos"), t.Photos, longestPhoto)...)
	for i, p := range t.Photos {
		if strings.ContainsAny(p, `/\`) {
			f.add(at.Dot("photos").At(i), check.Refuse("", p, unit.ErrRange, "the name of a file, without its folder"))
		}
	}
	return append(f, texts(at.Dot("notes"), t.Notes, longestNote)...)
}

// texts gives what is wrong with a list of words for people.
func texts(at unit.Path, list []string, most int) faults {
	var f faults
	if len(list) > mostNotes {
		f.add(at, check.Count("", len(list), 0, mostNotes))
		return f
	}
	for i, s := range list {
		switch {
		case strings.TrimSpace(s) == "":
			f.add(at.At(i), check.Required("", "some words"))
		case utf8.RuneCountInString(s) > most:
			f.add(at.At(i), check.Refuse("", s, unit.ErrRange, "at most "+strconv.Itoa(most)+" characters"))
		case strings.ContainsFunc(s, unicode.IsControl):
			f.add(at.At(i), check.Refuse("", s, unit.ErrRange, "words on one line"))
		}
	}
	return f
}

func (t TakeOffSpec) check(at unit.Path) faults {
	f := append(t.TakenOff.check(at), texts(at.Dot("order"), t.Order, longestPhoto)...)
	for i, s := range t.Order {
		if slices.Contains(t.Order[:i], s) {
			f.add(at.Dot("order").At(i), check.Refuse("", s, ErrTwice, "what came off once"))
		}
	}
	return f
}

// recovered gives the finished panel of an old one that was traced, in the words of
// the file.
func (q PanelSpec) recovered(at unit.Path, p allowance.Panel) (allowance.Panel, *allowance.Recovered, faults) {
	var f faults
	old, err := q.Ripped.Finished(p.Outline)
	if err == nil {
		p, err = old.Marked(p)
	}
	if err != nil {
		f.add(at, moved(err, func(p unit.Path) unit.Path {
			switch {
			case p.Under("outline") && q.Outline != nil, p.Under("across"), p.Under("along"):
				return p
			case p.Under("outline"):
				return "ripped"
			}
			return unit.Path("ripped").Dot(p)
		}))
		return p, nil, f
	}
	return p, &old, nil
}

// takeOffsOf gives the records of all pieces that have any.
func takeOffsOf(s Spec, cuts []piece) []TakeOff {
	var out []TakeOff
	for i, p := range s.Pieces {
		t := TakeOff{Piece: p.Name}
		if p.TakeOff != nil {
			t.TakenOff, t.Order = p.TakeOff.TakenOff, p.TakeOff.Order
		}
		for k, q := range p.Panels {
			r := PanelRecord{Panel: q.Name}
			if q.TakeOff != nil {
				r.TakenOff = *q.TakeOff
			}
			at := unit.Path("pieces").At(i).Dot("panels").At(k)
			if j := slices.IndexFunc(cuts, func(c piece) bool { return c.at == at && c.old != nil }); j >= 0 {
				r.Old = cuts[j].old
			}
			if !r.empty() || r.Old != nil {
				t.Panels = append(t.Panels, r)
			}
		}
		if !t.empty() || len(t.Order)+len(t.Panels) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// takeOffCautions say how not to be hurt, and what goes wrong most often.
func takeOffCautions(records []TakeOff) []caution.Caution {
	if len(records) == 0 {
		return nil
	}
	var out []caution.Caution
	add := func(id, text string) {
		out = append(out, caution.Caution{ID: id, Rank: caution.Protects, About: "taking off", Jurisdiction: caution.Everywhere, Text: text,
			Basis: []cite.Basis{cite.Practice("")}, Audience: []caution.Reader{caution.Bench}})
	}
	add("K1", "Wear glasses and gloves against staples and tacks, and a mask: old stuffing is dusty and may be mouldy. Unplug recliners first. "+
		"Rip stitches, not cloth, and keep one of each pair whole until the new one fits. Look for a second, older cover below.")
	photos, traced := false, false
	for _, t := range records {
		photos = photos || len(t.Photos) > 0
		for _, p := range t.Panels {
			photos, traced = photos || len(p.Photos) > 0, traced || p.Old != nil
			if p.Old != nil && p.Old.Caution() {
				add("K4", t.Piece+", "+p.Panel+": what was traced leaves a choice; see its take-off record before cutting.")
			}
		}
	}
	if photos {
		add("K2", "Photographs from a ladder: the top step is not a step. Somebody holds the ladder, the camera is on a strap, hot lamps stay off cloth and wadding, and cables out of the way.")
	}
	if traced {
		add("K3", "Old panels: press flat before tracing, mark face side, up and hand on the wrong side. Allowances come off once: say for every edge whether cut line, stitches, fold or staples were traced. "+
			"A top-stitched seam has a wide allowance; measure it.")
	}
	return out
}
