package thread_test

import (
	"errors"
	"fmt"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// must keeps the examples short; programs handle the error.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// The six drop-in seats of the Larkfield Reading Room are in leather, two
// layers at the seam.
func ExampleRecommend() {
	advice, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range advice.All() {
		fmt.Printf("%d. %s, needle %s, stitch %s: %s\n", i+1, p.Thread, p.Needle, p.StitchLength, p.Reason)
	}
	// Output:
	// 1. nylon 92, needle 120/19, stitch 4.5 mm: usual size for upholstery leather
	// 2. nylon 69, needle 110/18, stitch 4.5 mm: thin leather
	// 3. nylon 138, needle 140/22, stitch 4.5 mm: thick leather and heavy wear
}

// A needle that stands in the machine may not suit.
func ExampleRecommend_badMatch() {
	advice, err := thread.Recommend(thread.Need{
		Goods: thread.Leather, Layers: 2, Size: thread.Size138, Needle: 90,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(advice.Best().Flags)
	// Output:
	// needle too fine for the thread: it does not lie in the groove
}

// A seam that must carry 120 lbf on each inch: lighter thread is flagged and
// ranks last.
func ExampleRecommend_strength() {
	advice, err := thread.Recommend(thread.Need{
		Goods: thread.Canvas, Layers: 2, Exposure: thread.Outdoors, Strength: 120 * thread.PoundForcePerInch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range advice.All() {
		fmt.Printf("%s: %.0f lbf/in, %s\n", p.Thread, p.SeamStrength.PoundsForcePerInch(), p.Flags)
	}
	// Output:
	// polyester 92: 77 lbf/in, seam weaker than asked for
	// polyester 138: 116 lbf/in, seam weaker than asked for
	// polyester 69: 58 lbf/in, seam weaker than asked for
}

// Ten feet of boxing seam on the window-seat cushion, 3 mm thick under the
// foot, six stitches to the inch.
func ExampleConsume() {
	stitch, err := thread.StitchesPerInch(6).StitchLength()
	if err != nil {
		fmt.Println(err)
		return
	}
	use, err := thread.Consume(thread.Seam{
		Name:         "boxing",
		Length:       10 * unit.Foot,
		Thickness:    3 * unit.Millimetre,
		Stitch:       thread.Lockstitch301,
		StitchLength: stitch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("needle", use.Needle.Decimal(unit.Metre, 2, unit.Up))
	fmt.Println("bobbin", use.Under.Decimal(unit.Metre, 2, unit.Up))
	// Output:
	// needle 5.21 m
	// bobbin 5.21 m
}

// The same seam by three models.
func ExampleConsume_models() {
	seam := thread.Seam{
		Length: 10 * unit.Foot, Thickness: 3 * unit.Millimetre,
		Stitch: thread.Lockstitch301, StitchLength: must(thread.StitchesPerInch(6).StitchLength()),
	}
	for _, seam.Model = range []thread.Model{thread.SquarePath, thread.EllipticPath, thread.Measured} {
		use, err := thread.Consume(seam)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %s, %v\n", seam.Model, use.Total.Decimal(unit.Metre, 2, unit.Up), use.Kind)
	}
	// Output:
	// square path: 10.42 m, estimate
	// elliptic path: 8.25 m, estimate
	// measured: 7.62 m, rule of thumb
}

// The two wing chairs: seams in sewing order, with tails, back-tacks and
// waste, a bobbin of 40 m and a cone of 250 g.
func ExampleTotal() {
	stitch := must(thread.StitchesPerInch(7).StitchLength())
	seam := func(name string, length unit.Length, rows int) thread.Seam {
		return thread.Seam{
			Name: name, Length: length, Thickness: 3 * unit.Millimetre, Rows: rows,
			Stitch: thread.Lockstitch301, StitchLength: stitch, Thread: thread.Size69, BackTack: unit.Inch / 2,
		}
	}
	total, err := thread.Total(thread.Sewing{
		Seams: []thread.Seam{
			seam("welt covers", 22*unit.Yard, 1),
			seam("inside backs to wings", 5*unit.Yard, 1),
			seam("outside backs, top-stitched", 4*unit.Yard, 2),
		},
		Tail:      75 * unit.Millimetre,
		Waste:     10 * unit.Percent,
		Restart:   unit.Inch / 2,
		Bobbin:    40 * unit.Metre,
		KeepWhole: true,
		Cone:      must(thread.ConeLength(thread.Size69, 250*unit.Gram)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("thread", total.Total.Decimal(unit.Metre, 1, unit.Up), "cones", total.Cones, "bobbins", total.Bobbins)
	for _, c := range total.Changes {
		fmt.Printf("bobbin %d: %s, row %d, at %s\n", c.Bobbin, c.Name, c.Row, c.At.Decimal(unit.Metre, 2, unit.Down))
	}
	// Output:
	// thread 136.9 m cones 1 bobbins 2
	// bobbin 2: welt covers, row 1, at 19.00 m
}

func ExampleParseSize() {
	for _, text := range []string{"92", "T-90", "FF", "3 cord", "280/3", "M30", "30"} {
		s, err := thread.ParseSize(text)
		switch {
		case errors.Is(err, thread.ErrAmbiguous):
			fmt.Println(err)
		case err != nil:
			fmt.Println("unknown:", err)
		default:
			fmt.Println(text, "is size", s)
		}
	}
	// Output:
	// 92 is size 92
	// T-90 is size 92
	// FF is size 138
	// 3 cord is size 207
	// 280/3 is size 92
	// M30 is size 92
	// size: “30”: means more than one size; want one of 33 by trade number, 33 by tex label, 92 by metric ticket
}

func ExampleFindSizes() {
	m, err := thread.FindSizes("20")
	if err != nil {
		fmt.Println(err)
		return
	}
	for x := range m.All() {
		fmt.Println(x.Size, "by", x.Naming)
	}
	// Output:
	// 138 by metric ticket
}

func ExampleSizesAround() {
	lighter, heavier, err := thread.SizesAround(120 * unit.Tex)
	fmt.Println(lighter, heavier, err)
	// Output:
	// 92 138 <nil>
}

// Every cell of the size table has a basis, or is a gap that says why.
func ExampleThread_Row() {
	row, err := thread.Thread{Fibre: thread.Nylon, Size: thread.Size69}.Row()
	if err != nil {
		fmt.Println(err)
		return
	}
	strength, ok := row.MinStrength.Value()
	fmt.Println(strength.Decimal(unit.PoundForce, 1, unit.Nearest), ok)
	fmt.Println(row.MinStrength.Basis().Status)
	_, ok = row.MinYield.Value()
	fmt.Println(ok, row.MinYield.Basis().Note)
	// Output:
	// 8.5 lbf true
	// common practice
	// false no specification of bonded thread read that gives it
}

func ExampleTable() {
	for _, r := range thread.Table()[3:6] {
		label, _ := r.Label.Value()
		greige, _ := r.Greige.Value()
		fmt.Printf("%v: T-%v, %.1f tex finished, %.0f den unfinished\n", r.Thread, label.Tex(), r.Thread.Size.Finished().Tex(), greige.Denier())
	}
	// Output:
	// nylon 69: T-70, 76.7 tex finished, 630 den unfinished
	// nylon 92: T-90, 102.2 tex finished, 840 den unfinished
	// nylon 138: T-135, 153.3 tex finished, 1260 den unfinished
}

func ExampleSpecFor() {
	s, err := thread.SpecFor("FAA-PRH", "nylon", "letter FF")
	if err != nil {
		fmt.Println(err)
		return
	}
	f, _ := s.MinStrength.Value()
	fmt.Println(f.Decimal(unit.PoundForce, 0, unit.Nearest), "-", s.MinStrength.Basis())
	// Output:
	// 16 lbf - published (Parachute Rigger Handbook); figure 3-40
}

func ExampleCountSystem() {
	d, err := thread.CountCotton.Of(5) // five hanks of 840 yd to the pound
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range thread.CountSystems() {
		x, err := c.In(d)
		fmt.Printf("%.2f %v %v\n", x, c, err)
	}
	// Output:
	// 118.11 tex <nil>
	// 1181.08 dtex <nil>
	// 1062.97 den <nil>
	// 8.47 Nm <nil>
	// 5.00 Ne <nil>
	// 4200.00 yd/lb <nil>
	// 25.40 metric ticket <nil>
	// 15.00 cotton ticket <nil>
	// 106.30 trade number <nil>
}

func ExamplePly() {
	d, err := thread.Ply(280*unit.Denier, 3)
	fmt.Printf("%.1f tex %v\n", d.Tex(), err)
	// Output:
	// 93.3 tex <nil>
}

func ExampleNeedlesFor() {
	r, err := thread.NeedlesFor(thread.Size92, thread.Leather)
	fmt.Println(r.From, "to", r.To, "-", r.Basis, err)
	// Output:
	// 120/19 to 125/20 - common practice; number 19 or 20; saddlery goes one or two sizes finer <nil>
}

func ExampleFinestNeedle() {
	n, err := thread.FinestNeedle(thread.Size138)
	fmt.Println(n, err)
	// Output:
	// 105/17 <nil>
}

func ExampleEyeFor() {
	w, err := thread.EyeFor(thread.Size92)
	fmt.Println(w, err)
	// Output:
	// 0.476 mm <nil>
}

func ExampleParseNeedle() {
	n, err := thread.ParseNeedle("18")
	fmt.Println(n, n.Blade(), err)
	_, err = thread.ParseNeedle("22")
	fmt.Println(err)
	// Output:
	// 110/18 1.1 mm <nil>
	// needle: “22”: means more than one size; want 140/22 or 150/22.5
}

func ExampleNeedlesByNumber() {
	n, err := thread.NeedlesByNumber(23)
	fmt.Println(n, err)
	// Output:
	// [160/23 170/23.5] <nil>
}

func ExamplePublishedNeedles() {
	for _, a := range thread.PublishedNeedles() {
		fmt.Println(a.Number, "-", a.Goods)
	}
	// Output:
	// 18 - thin material, 2 to 4 plies
	// 20 - thin material, 5 plies or more
	// 14 - faux leather, strongest joint of a test
	// 21 - medium cloth, 12-oz duck, light leather, 2 to 4 plies
}

func ExampleNeedlePointFor() {
	p, basis, err := thread.NeedlePointFor(thread.Leather)
	fmt.Println(p, "-", basis, err)
	// Output:
	// cutting, slanted - common practice <nil>
}

func ExampleStitch_Type() {
	t, err := thread.Overedge504.Type()
	fmt.Println(t.Stitch, "- needle threads", t.Needles, "loopers", t.Under, err)
	// Output:
	// 504 overedge, three threads - needle threads 1 loopers 2 <nil>
}

func ExampleStitchesPerInch_StitchLength() {
	l, err := thread.StitchesPerInch(6).StitchLength()
	fmt.Println(l.Decimal(unit.Millimetre, 2, unit.Nearest), err)
	// Output:
	// 4.23 mm <nil>
}

func ExampleStitchesPerInchOf() {
	s, err := thread.StitchesPerInchOf(4 * unit.Millimetre)
	fmt.Println(s, err)
	// Output:
	// 6.35 per inch <nil>
}

func ExampleStitchDensityFor() {
	r, err := thread.StitchDensityFor(thread.Canvas)
	fmt.Println(r.From, "to", r.To, "-", r.Basis.Status, err)
	// Output:
	// 5 per inch to 7 per inch - published <nil>
}

func ExampleBackTackFor() {
	l, basis, err := thread.BackTackFor(thread.Woven)
	fmt.Println(l, "-", basis.Status, err)
	// Output:
	// 1/2 in - published <nil>
}

func ExampleRowSpacings() {
	for _, s := range thread.RowSpacings()[3:5] {
		from, _ := s.From.Value()
		to, _ := s.To.Value()
		fmt.Println(s.Goods, "-", s.Place, from, "to", to)
	}
	// Output:
	// heavy duck or leather - folded edge 1/4 in to 1/4 in
	// heavy duck or leather - raw edge 1/2 in to 3/4 in
}

// The label would promise a tenth more.
func ExampleConeLength() {
	l, err := thread.ConeLength(thread.Size69, 250*unit.Gram)
	fmt.Println(l.Decimal(unit.Metre, 0, unit.Down), err)
	// Output:
	// 3260 m <nil>
}

func ExampleBobbin_Holds() {
	b := thread.Bobbin{
		Outer: 24 * unit.Millimetre, Core: 8 * unit.Millimetre, Width: 11 * unit.Millimetre,
		Wound: 700 * unit.KilogramPerCubicMetre,
	}
	l, err := b.Holds(thread.Size69)
	fmt.Println(l.Decimal(unit.Metre, 0, unit.Down), err)
	// Output:
	// 40 m <nil>
}

func ExampleStrength() {
	s, err := thread.Strength(thread.LoadedSeam{
		Stitch:       thread.Lockstitch301,
		StitchLength: must(thread.StitchesPerInch(6).StitchLength()),
		Needle:       15 * unit.PoundForce,
		Goods:        100 * thread.PoundForcePerInch,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	share, _ := s.Efficiency.Value()
	fmt.Printf("stitching %.0f lbf/in, seam %.0f lbf/in, %s first\n", s.Thread.PoundsForcePerInch(), s.Seam.PoundsForcePerInch(), s.Governs)
	fmt.Println("efficiency", share.PercentText(0, unit.Nearest))
	fmt.Println(s.Cautions[0])
	// Output:
	// stitching 135 lbf/in, seam 100 lbf/in, goods first
	// efficiency 135 %
	// An estimate. Load-bearing and safety seams need a specification by licensed practice and a test.
}

func ExampleSeamEfficiency() {
	r, err := thread.SeamEfficiency(60*thread.PoundForcePerInch, 80*thread.PoundForcePerInch)
	fmt.Println(r.PercentText(0, unit.Nearest), err)
	// Output:
	// 75 % <nil>
}

func ExampleLineForceOf() {
	f, err := thread.LineForceOf(200*unit.Newton, 50*unit.Millimetre)
	fmt.Println(f, err)
	// Output:
	// 4000 N/m <nil>
}

func ExampleFibre_Properties() {
	p, err := thread.Nylon.Properties()
	if err != nil {
		fmt.Println(err)
		return
	}
	t, _ := p.SpecifiedMelt.Value()
	fmt.Println(t, "-", p.SpecifiedMelt.Basis().Status)
	fmt.Println(p.Sticks.Basis().Status)
	// Output:
	// 244.4 °C - standard
	// common practice
}

func ExampleWeatherLosses() {
	for _, e := range thread.WeatherLosses()[:3] {
		lost, _ := e.LostTo.Value()
		fmt.Printf("%s %s, %d days: %s lost\n", e.Material, e.Place, e.Days, lost)
	}
	// Output:
	// nylon cloth outdoors, 7 days: 52 % lost
	// nylon cloth outdoors, 14 days: 71 % lost
	// nylon cloth outdoors, 21 days: 94 % lost
}

func ExampleFahrenheitOf() {
	t, err := thread.FahrenheitOf(180)
	fmt.Println(t, err)
	// Output:
	// 82.2 °C <nil>
}

func ExampleRecommendation_Explain() {
	advice, err := thread.Recommend(thread.Need{Goods: thread.Canvas, Layers: 2, Fibre: thread.Nylon, Exposure: thread.Outdoors})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range advice.Best().Explain() {
		fmt.Println(line)
	}
	// Output:
	// thread nylon 92: usual size for duck (common practice)
	// fibre nylon: fibre as given
	// needle 110/18 of 110/18 to 120/19, point round: usual for size 92 in these goods (common practice)
	// stitch 4 mm: 5 per inch to 7 per inch are usual in these goods (published)
	// caution: nylon loses its strength in sunlight
}

func ExampleInfluences() {
	for _, i := range thread.Influences() {
		fmt.Println(i.Share, i.Factor)
	}
	// Output:
	// 92 % stitch length
	// 2.18 % thread tension
	// 1.53 % compressibility of the goods
}

func ExampleNeedleViews() {
	for _, v := range thread.NeedleViews() {
		if v.Size == thread.Size92 {
			fmt.Println(v.Work, v.Needles.From, "to", v.Needles.To)
		}
	}
	// Output:
	// saddlery 100/16 to 110/18
}

// A welted seam of leather to a lining: one thread for all of it.
func ExampleRecommendSeam() {
	p, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{
		{Goods: thread.Leather, Layers: 1},
		{Goods: thread.Leather, Layers: 2}, // the welt
		{Goods: thread.LightWoven, Layers: 1},
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v, needle %v, point %v, stitch %v, %d layers\n", p.Thread, p.Needle, p.Point, p.StitchLength, p.Layers)
	fmt.Println(p.Reason)
	// Output:
	// nylon 92, needle 120/19, point cutting, slanted, stitch 4.5 mm, 4 layers
	// the leather decides: usual size for upholstery leather
}

// A seam, its top-stitching and a seam across its ends: sew, top-stitch, sew
// again.
func ExampleCountSetUps() {
	vinyl := []thread.Member{{Goods: thread.Vinyl, Layers: 2}}
	seam, err := thread.RecommendSeam(thread.SeamNeed{Members: vinyl})
	if err != nil {
		fmt.Println(err)
		return
	}
	top, err := thread.RecommendSeam(thread.SeamNeed{Members: vinyl, Purpose: thread.TopStitch})
	if err != nil {
		fmt.Println(err)
		return
	}
	n := thread.CountSetUps([]thread.SetUp{seam.SetUp(), top.SetUp(), seam.SetUp()})
	fmt.Printf("%d set-ups, %d changes, at least %d; second machine: %v\n", n.SetUps, n.Changes, n.Least, n.SecondMachine())
	// Output:
	// 2 set-ups, 2 changes, at least 1; second machine: false
}

func ExampleExposure_Fibre() {
	fibre, reason, basis, err := thread.InVehicle.Fibre()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: %s (%v)\n", fibre, reason, basis.Status)
	// Output:
	// polyester: for the sun through the glass and the heat; nylon only in seams that are covered (common practice)
}

// Two rows of cloth, one through many layers: one set-up will do for both.
func ExampleRecommendation_On() {
	woven := func(layers int) thread.Recommendation {
		p, err := thread.RecommendSeam(thread.SeamNeed{Members: []thread.Member{{Goods: thread.Woven, Layers: layers}}})
		if err != nil {
			fmt.Println(err)
		}
		return p
	}
	two, six := woven(2), woven(6)
	_, ok := six.On(two.SetUp())
	fmt.Println(two.Needle, six.Needle, ok)
	// Output:
	// 100/16 110/18 true
}
