package thread_test

import (
	"testing"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// lookUps are the calls that a form makes on every key press: none allocates.
var lookUps = []struct {
	name string
	call func() error
}{
	{"ParseSize", func() error { _, err := thread.ParseSize("T-90"); return err }},
	{"FindSizes", func() error { _, err := thread.FindSizes("30"); return err }},
	{"Row", func() error { _, err := thread.Thread{Fibre: thread.Nylon, Size: thread.Size92}.Row(); return err }},
	{"NeedlesFor", func() error { _, err := thread.NeedlesFor(thread.Size92, thread.Leather); return err }},
	{"FinestNeedle", func() error { _, err := thread.FinestNeedle(thread.Size92); return err }},
	{"ParseNeedle", func() error { _, err := thread.ParseNeedle("110/18"); return err }},
	{"StitchDensityFor", func() error { _, err := thread.StitchDensityFor(thread.Canvas); return err }},
	{"BackTackFor", func() error { _, _, err := thread.BackTackFor(thread.Canvas); return err }},
	{"StitchType", func() error { _, err := thread.Lockstitch301.Type(); return err }},
	{"SpecFor", func() error { _, err := thread.SpecFor("AC-43.13-1B", "cotton, aircraft", "8/4"); return err }},
	{"CountSystem", func() error { _, err := thread.CountCotton.In(90 * unit.Tex); return err }},
	{"Properties", func() error { _, err := thread.Nylon.Properties(); return err }},
	{"Recommend", func() error { _, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 2}); return err }},
	{"RecommendAll", func() error {
		a, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 6, Needle: 110, Exposure: thread.Outdoors, Strength: 20000})
		for _, p := range a.All() {
			if p.Needle == 0 {
				return unit.ErrUnknown
			}
		}
		return err
	}},
	{"Consume", func() error {
		_, err := thread.Consume(thread.Seam{Length: unit.Metre, Thickness: 3 * unit.Millimetre, Stitch: 301, StitchLength: 4 * unit.Millimetre})
		return err
	}},
}

func BenchmarkLookUp(b *testing.B) {
	for _, l := range lookUps {
		b.Run(l.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := l.call(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkTotal(b *testing.B) {
	seams := make([]thread.Seam, 40)
	for i := range seams {
		seams[i] = thread.Seam{Length: unit.Metre, Thickness: 3 * unit.Millimetre, Stitch: 301, StitchLength: 4 * unit.Millimetre, Rows: 2}
	}
	w := thread.Sewing{Seams: seams, Bobbin: 40 * unit.Metre, Waste: 0.1, Tail: 75 * unit.Millimetre}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := thread.Total(w); err != nil {
			b.Fatal(err)
		}
	}
}
