package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// covered is a cover, or a part of one, as the job file has it.
type covered struct {
	at    unit.Path // of the file
	piece string    // of furniture
	part  string    // the made-up part; empty for a panel on its own
	count int       // for all pieces of furniture
	cover allowance.Cover
	wish  wish // of every panel that is no free strip
	bench bench
}

// wish is what panels ask of the layout.
type wish struct {
	railroad  bool
	unmatched bool
	motif     *shape.Point
	shade     int // group, from 1
	join      *layout.Piecing
	leather   leather
}

// leather is what panels ask of hides.
type leather struct {
	grain   Grain
	grade   material.Grade
	marks   material.Severity
	stretch *layout.StretchWish
}

// bench is what the bench must know of a made-up part beside its sizes.
type bench struct {
	finished Size // of the one panel, where it is not that of the outline
	bias     *BiasStrip
	tufting  *made.TuftPlan
	channels *made.ChannelsCut
}

// coversOf gives every cover of the job, in the order of the file.
func coversOf(s Spec, c catalog) ([]covered, faults) {
	var f faults
	var out []covered
	if len(s.Pieces) > maxCount {
		f.add("pieces", check.Count("", len(s.Pieces), 1, maxCount))
		return nil, f
	}
	for i, p := range s.Pieces {
		at := unit.Path("pieces").At(i)
		f.add(at.Dot("name"), checkName(p.Name))
		f.add(at.Dot("count"), checkCount(p.Count))
		if p.empty() {
			f.add(at, check.Refuse("", "", ErrEmpty, "at least one of panels, cushions, boxings, welts, skirts, tufted, channels, foam, labour"))
		}
		n := copies(p.Count)
		for _, part := range p.parts() {
			at := at.Dot(part.list).At(part.i)
			x, own := part.cover(at, c)
			f = append(f, own...)
			if len(own) > 0 || len(x.cover.Panels) == 0 {
				continue
			}
			x.at, x.piece, x.count = at, p.Name, n*copies(part.count)
			out = append(out, x)
		}
	}
	return out, f
}

func (p Furniture) empty() bool { return len(p.parts())+len(p.Foam)+len(p.Labour) == 0 }

// part is one entry of the lists of a piece of furniture.
type part struct {
	list  unit.Path
	i     int
	count int
	// cover gives the cover of one, and what is wrong; no panels where goods
	// with faults of their own stand in the way.
	cover func(unit.Path, catalog) (covered, faults)
}

// parts lists what a piece of furniture is covered with, in the order of the cut
// list.
func (p Furniture) parts() []part {
	return slices.Concat(
		partsOf("panels", p.Panels, func(x PanelSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("cushions", p.Cushions, func(x CushionSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("boxings", p.Boxings, func(x BoxingSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("welts", p.Welts, func(x WeltSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("skirts", p.Skirts, func(x SkirtSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("tufted", p.Tufted, func(x TuftedSpec) (int, coverFunc) { return x.Count, x.cover }),
		partsOf("channels", p.Channels, func(x ChannelsSpec) (int, coverFunc) { return x.Count, x.cover }),
	)
}

type coverFunc = func(unit.Path, catalog) (covered, faults)

func partsOf[T any](list unit.Path, of []T, get func(T) (int, coverFunc)) []part {
	out := make([]part, len(of))
	for i, x := range of {
		count, cover := get(x)
		out[i] = part{list, i, count, cover}
	}
	return out
}

// madeUp puts a made-up part under its name.
func madeUp(name string, cover allowance.Cover) covered { return covered{part: name, cover: cover} }

// checked gives the faults that every made-up part can have: in its name, its
// count and the id of its goods.
func checked(at unit.Path, name string, count int, id string, c catalog) (GoodsSpec, bool, faults) {
	var f faults
	f.add(at.Dot("name"), checkName(name))
	f.add(at.Dot("count"), checkCount(count))
	g, ok, err := c.find(id)
	f.add(at.Dot("goods"), err)
	return g, ok, f
}
