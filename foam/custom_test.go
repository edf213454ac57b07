package foam_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// The figures of the trade as they were collected, in lbf and lb/ft³. No text
// stands behind them that a check row could cite: this only keeps them from
// changing unseen.
func TestCustomaryFigures(t *testing.T) {
	type figures map[string][2]float64
	for _, r := range []struct {
		use                 foam.Use
		duty                foam.Duty
		base                foam.Base
		inches              unit.Length
		firmnesses, weights figures
		span                [2]float64 // of density, by duty
	}{
		{foam.Seat, foam.NormalDuty, foam.Webbing, 4,
			figures{"sofa seat, plush": {25, 30}, "sofa seat, typical": {30, 30}, "sofa seat": {30, 40}, "sofa seat, another guide": {25, 35}, "seat 4 in thick": {34, 34}},
			figures{"seat, at least": {1.8, 1.8}, "seat": {1.8, 3.2}, "seat, daily use": {1.9, 2.2}, "seat, never below": {1.75, 1.75}, "seat, another guide": {2.4, 2.8}},
			[2]float64{1.8, 2.0}},
		{foam.Seat, foam.NormalDuty, foam.Webbing, 2, figures{"thin seat, 1 to 2 in": {45, 65}, "seat 2 in thick": {65, 65}}, nil, [2]float64{1.8, 2.0}},
		{foam.Seat, foam.NormalDuty, foam.Webbing, 5, figures{"seat 5 in thick": {30, 34}}, nil, [2]float64{1.8, 2.0}},
		{foam.Seat, foam.NormalDuty, foam.Webbing, 6, figures{"seat 6 in thick": {26, 30}}, nil, [2]float64{1.8, 2.0}},
		{foam.Seat, foam.HeavyDuty, foam.Board, 4, figures{"office seat": {45, 45}}, nil, [2]float64{2.2, 2.5}},
		{foam.Seat, foam.SevereDuty, foam.Board, 4, figures{"bar or diner stool": {60, 60}}, figures{"bar and diner seating": {1.6, 2.8}}, [2]float64{2.6, 3.2}},
		{foam.Back, foam.LightDuty, foam.Webbing, 4, figures{"back cushion, 20 lbf or less": {10, 20}, "back cushion, another guide": {15, 22}},
			figures{"back cushion": {1.2, 1.5}, "back and arm": {1.25, 1.56}}, [2]float64{1.2, 1.5}},
		{foam.Arm, foam.LightDuty, foam.Board, 1, figures{"inside arm and wraps": {20, 40}}, figures{"inside arm and wraps": {1.2, 1.5}}, [2]float64{1.2, 1.5}},
		{foam.Bed, foam.NormalDuty, foam.Board, 5, figures{"mattress core": {25, 40}, "day bed": {20, 28}}, figures{"relief mattress, at least": {22 * 0.062427960576144616, 22 * 0.062427960576144616}}, [2]float64{1.8, 2.0}},
		{foam.Berth, foam.NormalDuty, foam.Board, 4, figures{"boat berth": {30, 40}}, figures{"boat seating, never below": {1.8, 1.8}, "boat seating, preferred": {2.6, 2.88}}, [2]float64{1.8, 2.0}},
		{foam.Booth, foam.SevereDuty, foam.Board, 4, figures{"booth on board": {50, 70}, "diner seating": {60, 60}}, nil, [2]float64{2.6, 3.2}},
	} {
		s, err := foam.Select(foam.Request{Use: r.use, Duty: r.duty, Base: r.base, Thickness: r.inches * unit.Inch})
		require.NoError(t, err)
		got := figures{}
		for _, f := range s.IFDFigures {
			got[f.About] = [2]float64{f.Range.Low.PoundsForce(), f.Range.High.PoundsForce()}
		}
		assertFigures(t, r.firmnesses, got)
		got = figures{}
		for _, f := range s.DensityFigures {
			got[f.About] = [2]float64{f.Range.Low.PoundsPerCubicFoot(), f.Range.High.PoundsPerCubicFoot()}
		}
		assertFigures(t, r.weights, got)
		assertFigures(t, figures{"span": r.span}, figures{"span": {s.Density.Low.PoundsPerCubicFoot(), s.Density.High.PoundsPerCubicFoot()}})
	}
}

func assertFigures(t *testing.T, want, got map[string][2]float64) {
	t.Helper()
	for about, w := range want {
		g, ok := got[about]
		require.True(t, ok, about)
		assert.InDeltaSlice(t, w[:], g[:], 1e-9, about)
	}
}
