package nest

import (
	"errors"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// refereed hands a finished layout to package verify, which shares no code
// with the search.
func refereed(pieces []Piece, hides []Hide, gap int64, all bool, pl []Placement) error {
	vp := make([]verify.Piece, len(pieces))
	for i, p := range pieces {
		v := verify.Piece{Ring: p.Ring, Count: p.Count, AnyAngle: p.Turn.any, Tolerance: int64(p.Turn.tol),
			MayMirror: p.Mirror == MayMirror, MustMirror: p.Mirror == AlwaysMirrored,
			Takes: p.Takes.list(), Anchor: p.Anchor,
			PhaseX: verify.Phase(p.PhaseX), PhaseY: verify.Phase(p.PhaseY), Falls: p.Falls}
		for _, a := range p.Turn.angles {
			v.Angles = append(v.Angles, int64(a))
		}
		vp[i] = v
	}
	vc := make([]verify.Container, len(hides))
	for i, h := range hides {
		c := verify.Container{Outer: h.Outer, Holes: h.Holes}
		for _, z := range h.Zones {
			c.Zones = append(c.Zones, verify.Zone{Kind: z.Kind, Ring: z.Ring})
		}
		vc[i] = c
	}
	vl := make([]verify.Placement, len(pl))
	for i, p := range pl {
		vl[i] = verify.Placement{Piece: p.Piece, Copy: p.Copy, Container: p.Hide, Angle: int64(p.Angle),
			Mirrored: p.Mirrored, At: p.At, Ring: p.Ring}
	}
	var errs []error
	for _, f := range verify.Outlines(vp, vc, gap, all, vl) {
		errs = append(errs, f)
		if len(errs) == 10 {
			break
		}
	}
	return errors.Join(errs...)
}

func checkStrip(width, length int64, pieces []Piece, flaws []geom.Box, pl []Placement, gap int64) error {
	roll := Hide{Outer: geom.Box{Max: geom.Pt(length, width)}.Ring()}
	for _, f := range flaws {
		roll.Holes = append(roll.Holes, f.Ring())
	}
	return refereed(pieces, []Hide{roll}, gap, true, pl)
}
