package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// covered is what a part of the job file is covered with: a panel, or a made-up
// part.
type covered struct {
	at    unit.Path // of the file
	part  string    // the made-up part; empty for a panel on its own
	cover allowance.Cover
	old   *allowance.Recovered // of a panel that was traced off an old one
	wish  wish                 // of every panel that is no free strip
	bench atBench
}

// whole is a cover that is worked out as one: all of a piece of furniture whose
// edges are joined, or a part that stands alone.
type whole struct {
	at      unit.Path // of the file
	piece   string    // of furniture
	lives   thread.Exposure
	count   int // for all pieces of furniture
	cover   allowance.Cover
	of      []covered // of each panel, the part it belongs to
	motifs  []wished
	origins []origin
	strips  []stripped
}

// wish is what panels ask of the layout.
type wish struct {
	railroad  bool
	unmatched bool
	shade     int // group, from 1
	join      *layout.Piecing
	joinable  bool // it may be joined where the job asks for it
	leather   leather
}

// leather is what panels ask of hides.
type leather struct {
	grain   Grain
	grade   material.Grade
	marks   material.Severity
	stretch *layout.StretchWish
}

// atBench is what the bench must know of a made-up part beside its sizes.
type atBench struct {
	finished Size // of the one panel, where it is not that of the outline
	bias     *BiasStrip
	tufting  *made.TuftPlan
	channels *made.ChannelsCut
	boxing   *made.BoxingCut
	taped    *shape.Tolerance // of the outline of the panel or of both plates
}

// coversOf gives every cover of the job, in the order of the file.
func coversOf(s Spec, c catalog) ([]whole, faults) {
	var f faults
	var out []whole
	if len(s.Pieces) > maxCount {
		f.add("pieces", check.Count("", len(s.Pieces), 1, maxCount))
		return nil, f
	}
	for i, p := range s.Pieces {
		at := unit.Path("pieces").At(i)
		f.add(at.Dot("name"), checkName(p.Name))
		f.add(at.Dot("count"), checkCount(p.Count))
		_, err := p.Lives.MarshalText()
		f.addAs(at.Dot("lives"), err)
		if p.TakeOff != nil {
			f = append(f, p.TakeOff.check(at.Dot("take_off"))...)
		}
		f.add(at, caution.Piece{For: p.For, Owner: p.Owner}.Check())
		if p.empty() && p.Rough == nil {
			f.add(at, check.Refuse("", "", ErrEmpty, "at least one of panels, cushions, boxings, welts, skirts, tufted, channels, foam, labour"))
		}
		own, alone, faulty := p.covers(at, c)
		if f = append(f, faulty...); len(own.cover.Panels) > 0 {
			out = append(out, own)
		}
		out = append(out, alone...)
	}
	return out, f
}

// covers gives the cover of the piece of furniture as one, where its edges are
// joined, and the parts that stand alone.
func (p Furniture) covers(at unit.Path, c catalog) (own whole, alone []whole, f faults) {
	n := copies(p.Count)
	missing := false // some part, whose fault is told: of its goods, or its own
	own = whole{at: at, piece: p.Name, lives: p.Lives, count: n}
	for _, part := range p.parts() {
		here := at.Dot(part.list).At(part.i)
		x, faulty := part.cover(here, c)
		f = append(f, faulty...)
		if len(faulty) > 0 || len(x.cover.Panels) == 0 {
			missing = true
			continue
		}
		x.at = here
		switch {
		case !p.related() || x.part != "" && !p.names(x.part):
			w := whole{at: here, piece: p.Name, lives: p.Lives, count: n * copies(part.count)}
			w.add(x, x.cover)
			alone = append(alone, w)
		case x.part == "":
			x.cover.Panels[0].Count = part.count
			own.add(x, x.cover)
		default:
			for _, name := range instances(x.part, copies(part.count)) {
				own.add(x, x.cover.Nested(name))
			}
		}
	}
	if missing {
		return own, alone, f // what is missing would only lead to more faults
	}
	if p.related() {
		f = append(f, p.relate(at, &own, c)...)
		if len(own.cover.Panels) == 0 {
			f.add(at.Dot("panels"), check.Required("", "the panels that the seams join"))
		}
	}
	if len(f) == 0 {
		all := []*whole{&own}
		for i := range alone {
			all = append(all, &alone[i])
		}
		f = takes(all, p.motifsOf(at))
	}
	return own, alone, f
}

// add puts the cover of a part with the rest.
func (w *whole) add(x covered, c allowance.Cover) {
	for i := range c.Panels {
		w.origin(unit.Path("panels").At(len(w.cover.Panels)+i), x.at, x.part != "")
		w.of = append(w.of, x)
	}
	for i := range c.Seams {
		w.origin(unit.Path("seams").At(len(w.cover.Seams)+i), x.at, true)
	}
	for i := range c.Fastenings {
		w.origin(unit.Path("fastenings").At(len(w.cover.Fastenings)+i), x.at, true)
	}
	w.cover = w.cover.Joined(c)
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
