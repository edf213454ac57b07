package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// answer prints the choices, the best first, and the thread that the best takes.
func (q question) answer(w io.Writer) error {
	if (q.length != 0) != (q.thickness != 0) {
		return errors.New("-length and -thickness belong together")
	}
	advice, err := thread.Recommend(q.need)
	if err != nil {
		return err
	}
	if q.json {
		out := json.NewEncoder(w)
		out.SetIndent("", "  ")
		return out.Encode(advice)
	}
	for i, p := range advice.All() {
		fmt.Fprintf(w, "%d. %s, needle %s, stitch %s\n", i+1, p.Thread, p.Needle, p.StitchLength.Decimal(unit.Millimetre, 1, unit.Nearest))
		for _, line := range p.Explain() {
			fmt.Fprintf(w, "   %s\n", line)
		}
	}
	if q.length == 0 {
		return nil
	}
	return q.consumption(advice.Best(), w)
}

// consumption prints the thread of the seam, with usual tails and back-tacks, and a
// tenth for waste.
func (q question) consumption(p thread.Recommendation, w io.Writer) error {
	tack, _, err := thread.BackTackFor(q.need.Goods)
	if err != nil {
		return err
	}
	use, err := thread.Total(thread.Sewing{
		Seams: []thread.Seam{{
			Name: "seam", Length: q.length, Thickness: q.thickness, Stitch: thread.Lockstitch301,
			StitchLength: p.StitchLength, Thread: p.Thread.Size, BackTack: tack,
		}},
		Tail:  75 * unit.Millimetre,
		Waste: 10 * unit.Percent,
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%s of %s for %s of lockstitch, both threads, with tails, back-tacks and a tenth for waste: %s\n",
		use.Total.Decimal(unit.Yard, 1, unit.Up), p.Thread, q.length.Yardage(unit.Nearest), use.Seams[0].Kind)
	return nil
}
