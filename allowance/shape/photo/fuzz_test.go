package photo_test

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/allowance/shape/photo"
)

// Whatever is said to be seen, a view is refused, or leads from place to pixel and
// back to the same place, with an error that is a length.
func FuzzSee(f *testing.F) {
	rng := rand.New(rand.NewPCG(1, 1))
	camera := shoot(rng, 4000, 3000, 45, .03, ring8())
	var good []byte
	for _, m := range taken(camera, rng, .1, ring8()) {
		for _, x := range []int{int(m.Seen.X * 8), int(m.Seen.Y * 8), int(m.At.X / mm), int(m.At.Y / mm)} {
			good = binary.LittleEndian.AppendUint16(good, uint16(x))
		}
	}
	f.Add(good, uint8(8), .1)
	f.Add(good, uint8(4), 0.)
	f.Add(good[:40], uint8(5), 1.)
	f.Fuzz(func(t *testing.T, marks []byte, firstPage uint8, spread float64) {
		pages := make([]photo.Page, 2)
		for i := 0; i+8 <= len(marks) && i < 8*24; i += 8 {
			at := func(k int) float64 { return float64(binary.LittleEndian.Uint16(marks[i+2*k:])) }
			signed := func(k int) float64 { return float64(int16(binary.LittleEndian.Uint16(marks[i+2*k:]))) }
			j := 0
			if i/8 >= int(firstPage) {
				j = 1
			}
			pages[j] = append(pages[j], photo.Mark{Seen: photo.Pixel{X: shape.Pixels(at(0) / 8), Y: shape.Pixels(at(1) / 8)}, At: place(signed(2), signed(3))})
		}
		if len(pages[1]) == 0 {
			pages = pages[:1]
		}
		view, err := photo.See(4000, 3000, pages, photo.Options{MarkSpread: shape.Pixels(spread)})
		if err != nil {
			return
		}
		for _, m := range pages[0] {
			p, err := view.Point(m.Seen)
			if err != nil {
				continue
			}
			back, err := view.Pixel(p)
			if err != nil {
				continue // so far out that the lens cannot be followed
			}
			if d := math.Hypot(float64(back.X-m.Seen.X), float64(back.Y-m.Seen.Y)); !(d < .1) {
				t.Fatalf("%v leads to %v and back to %v", m.Seen, p, back)
			}
			if s, known := view.Spread(p); known && s < 0 {
				t.Fatalf("spread %v at %v", s, p)
			}
		}
	})
}

// Any ring of points is refused, or becomes an outline that keeps to its tolerance
// and has the area of the ring, but for what the tolerance and the corners take.
func FuzzFit(f *testing.F) {
	f.Add([]byte{0, 0, 20, 0, 20, 10, 10, 12, 0, 10}, 1.)
	f.Add([]byte{0, 0, 40, 3, 45, 30, 33, 50, 7, 44}, .3)
	f.Add([]byte{0, 0, 90, 0, 90, 90, 80, 90, 80, 10, 10, 10, 10, 90, 0, 90}, .5)
	f.Fuzz(func(t *testing.T, corners []byte, step float64) {
		if len(corners) > 60 || !(step > .2 && step < 5) {
			return
		}
		var ps []shape.Point
		for i := 0; i+1 < len(corners); i += 2 {
			ps = append(ps, place(3*float64(corners[i]), 3*float64(corners[i+1])))
		}
		o, err := shape.Polygon(ps...)
		if err != nil {
			return
		}
		border := spaced(t, o, step, 0)
		fit, report, err := photo.Fit(border, photo.FitOptions{})
		if err != nil {
			return
		}
		if report.Worst > report.Tolerance || report.Tolerance <= 0 {
			t.Fatalf("worst %v, tolerance %v", report.Worst, report.Tolerance)
		}
		w, h := o.Size()
		wf, hf := fit.Size()
		if arm := 12 * mm; wf > w+2*arm || hf > h+2*arm || wf < w-2*arm || hf < h-2*arm {
			t.Fatalf("%v x %v became %v x %v", w, h, wf, hf)
		}
	})
}
