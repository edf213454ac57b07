package main

import (
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// lockstitch shows the path of both threads through the layers.
func lockstitch() (*sheet, error) {
	const thickness, stitches = 3 * unit.Millimetre, 4
	stitch, err := thread.StitchesPerInch(6).StitchLength()
	if err != nil {
		return nil, err
	}
	use, err := thread.Consume(thread.Seam{Length: stitches * stitch, Thickness: thickness, Stitch: thread.Lockstitch301, StitchLength: stitch})
	if err != nil {
		return nil, err
	}
	mm := func(l unit.Length) string { return l.Decimal(unit.Millimetre, 2, unit.Nearest) }
	s := newSheet(330, "A lockstitch in section")
	y := s.given("Stitch type 301, six to the inch: L = "+mm(stitch)+",", "through T = "+inchless(thickness)+", locked in the middle (b = 1/2).")
	s.legend(y+4, key{cutLine, "needle thread"}, key{seamLine, "under thread"})
	v := view{x: 52, scale: 430}
	top, bottom := y+66, y+66+v.length(thickness)
	lock := (top + bottom) / 2
	long := v.length(stitch)
	end := v.x + float64(stitches*long)
	s.Rect(place(v.x-24, top), end-v.x+48, bottom-top, filled(thin, cloth)...)
	s.Line(place(v.x-24, lock), place(end+24, lock), hair...)
	path := func(face, turn float64, line []svg.Attr) {
		var p []svg.Point
		for i := range stitches {
			x := v.x + float64(float64(i)*long)
			p = append(p, place(x+2, turn), place(x+2, face), place(x+long-2, face), place(x+long-2, turn))
		}
		s.Polyline(p, filled(line, "none")...)
	}
	path(top-3, lock+3, cutLine)
	path(bottom+3, lock-3, seamLine)
	s.across(v.x, v.x+long, top-14, "L")
	s.upright(end+34, top, bottom, "T")
	s.upright(v.x+1.5*long, top, lock, "b T")
	s.lines(margin, bottom+40,
		"Needle thread of a stitch: L + 2 b T + d = "+mm(use.Needle/stitches),
		"under thread: L + 2 (1 - b) T + d = "+mm(use.Under/stitches),
		"(a thin thread: d is left out here)")
	return s, nil
}

// inchless writes whole millimetres.
func inchless(l unit.Length) string { return l.Decimal(unit.Millimetre, 0, unit.Nearest) }
