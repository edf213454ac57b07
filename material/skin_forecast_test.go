package material_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var flatYield = material.YieldRange{From: 0.5, To: 0.7}

// The stated chance is that of drawing skins by lot. 40 000 trials with a fixed
// seed; the share of successes lies within four standard errors, which a right
// chance misses once in 16 000 cases.
func TestForecastAgainstSimulation(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const trials = 40_000
	for _, c := range []struct {
		name string
		s    material.SkinSupply
		draw func() float64 // square feet
	}{
		{"normal", material.SkinSupply{Mean: 48 * unit.SquareFoot, Spread: 6 * unit.SquareFoot}, func() float64 { return 48 + 6*r.NormFloat64() }},
		{"sample", material.SkinSupply{Sample: []unit.Area{41 * unit.SquareFoot, 4833 * unit.SquareFoot / 100, 50 * unit.SquareFoot, 5577 * unit.SquareFoot / 100}},
			func() float64 { return []float64{41, 48.33, 50, 55.77}[r.IntN(4)] }},
	} {
		for _, net := range []float64{20, 70, 118, 240} {
			f, err := material.ForecastSkins(unit.Area(net*float64(unit.SquareFoot)), c.s, flatYield, 0.9)
			require.NoError(t, err)
			count := func(n int) float64 {
				ok := 0
				for range trials {
					sum := 0.0
					for range n {
						sum += c.draw()
					}
					if sum*0.5 >= net {
						ok++
					}
				}
				return float64(ok) / trials
			}
			got := count(f.Skins)
			slack := 4 * math.Sqrt(max(got*(1-got), 1.0/trials)/trials)
			assert.GreaterOrEqual(t, got, float64(f.Chance)-slack, "%s %v", c.name, net)
			assert.LessOrEqual(t, got, float64(f.Chance+f.ChanceError)+slack, "%s %v", c.name, net)
			// One skin fewer is not enough.
			assert.Less(t, count(f.Skins-1), 0.9+slack, "%s %v", c.name, net)
			assert.LessOrEqual(t, f.SkinsAtBest, f.Skins)
			assert.Equal(t, cite.Estimate, f.Kind)
		}
	}
}

// More confidence, more area and more spread never take fewer skins; a better
// yield never more.
func TestForecastIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := material.SkinSupply{Mean: unit.Area(rapid.IntRange(5, 60).Draw(t, "mean")) * unit.SquareFoot}
		s.Spread = s.Mean * unit.Area(rapid.IntRange(0, 24).Draw(t, "spread")) / 100
		if rapid.Bool().Draw(t, "sampled") {
			s = material.SkinSupply{Sample: []unit.Area{s.Mean, s.Mean + s.Spread, s.Mean + unit.SquareFoot/3}}
		}
		net := unit.Area(rapid.IntRange(1, 60).Draw(t, "net")) * unit.SquareFoot
		y := material.YieldRange{From: unit.Ratio(rapid.IntRange(20, 90).Draw(t, "yield")) / 100}
		y.To = y.From
		c := unit.Ratio(rapid.IntRange(50, 99).Draw(t, "confidence")) / 100
		n := func(net unit.Area, s material.SkinSupply, y material.YieldRange, c unit.Ratio) int {
			f, err := material.ForecastSkins(net, s, y, c)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, f.Chance, c)
			assert.LessOrEqual(t, f.Chance+f.ChanceError, unit.Ratio(1))
			return f.Skins
		}
		base := n(net, s, y, c)
		assert.LessOrEqual(t, base, n(net, s, y, min(c+0.009, 0.999)))
		assert.LessOrEqual(t, base, n(net+10*unit.SquareFoot, s, y, c))
		better := y
		better.To += 0.1
		better.From += 0.1
		assert.GreaterOrEqual(t, base, n(net, s, better, c))
		if len(s.Sample) == 0 {
			alike := s
			alike.Spread = 0
			assert.GreaterOrEqual(t, base, n(net, alike, y, c))
		}
	})
}

// Skins all alike are the plain division.
func TestForecastWithoutSpread(t *testing.T) {
	f, err := material.ForecastSkins(100*unit.SquareFoot, material.SkinSupply{Mean: 50 * unit.SquareFoot}, material.YieldRange{From: 0.5, To: 1}, 0.99)
	require.NoError(t, err)
	assert.Equal(t, 4, f.Skins)
	assert.Equal(t, 2, f.SkinsAtBest)
	assert.Equal(t, unit.Ratio(1), f.Chance)
	assert.Equal(t, 200*unit.SquareFoot, f.Area)
}

// The chance of a sample lies between Chance and its error more, whatever the grid does
// with the areas: all draws of it tried.
func TestForecastAgainstAllDraws(t *testing.T) {
	tenth := unit.SquareFoot / 10
	sample := []unit.Area{200*tenth + tenth/2, 234*tenth + tenth/3, 300*tenth + tenth/2}
	for net := 350 * tenth; net < 800*tenth; net += 7*tenth + tenth/4 {
		f, err := material.ForecastSkins(net, material.SkinSupply{Sample: sample}, material.YieldRange{From: 1, To: 1}, 0.5)
		require.NoError(t, err)
		enough, draws := 0, 0
		var draw func(skins int, sum unit.Area)
		draw = func(skins int, sum unit.Area) {
			if skins == 0 {
				draws++
				if sum >= net {
					enough++
				}
				return
			}
			for _, a := range sample {
				draw(skins-1, sum+a)
			}
		}
		draw(f.Skins, 0)
		chance := unit.Ratio(enough) / unit.Ratio(draws)
		assert.LessOrEqual(t, f.Chance, chance+1e-9, net)
		assert.LessOrEqual(t, chance, f.Chance+f.ChanceError+1e-9, net)
	}
}

// No more skins are forecast than 500, and no more than 100 from a sample.
func TestMostSkinsOfAForecast(t *testing.T) {
	skin := 20 * unit.SquareFoot
	sure := material.YieldRange{From: 0.5, To: 0.5}
	for most, s := range map[int]material.SkinSupply{500: {Mean: skin}, 100: {Sample: []unit.Area{skin, skin}}} {
		f, err := material.ForecastSkins(unit.Area(most)*skin/2, s, sure, 0.9)
		require.NoError(t, err)
		assert.Equal(t, most, f.Skins)
		_, err = material.ForecastSkins(unit.Area(most)*skin/2+unit.SquareFoot, s, sure, 0.9)
		require.ErrorContains(t, err, fmt.Sprintf("at most %d skins", most))
	}
}

func TestForecastRefuses(t *testing.T) {
	ok := material.SkinSupply{Mean: 50 * unit.SquareFoot}
	for name, c := range map[string]struct {
		net   unit.Area
		s     material.SkinSupply
		y     material.YieldRange
		c     unit.Ratio
		field string
		err   error
	}{
		"nothing":    {0, ok, flatYield, 0.9, "net", unit.ErrRange},
		"no yield":   {unit.SquareFoot, ok, material.YieldRange{}, 0.9, "yield.from", unit.ErrRange},
		"back":       {unit.SquareFoot, ok, material.YieldRange{From: 0.5, To: 0.4}, 0.9, "yield.to", unit.ErrRange},
		"sure":       {unit.SquareFoot, ok, flatYield, 1, "confidence", unit.ErrRange},
		"no number":  {unit.SquareFoot, ok, flatYield, unit.Ratio(math.NaN()), "confidence", unit.ErrNotFinite},
		"no mean":    {unit.SquareFoot, material.SkinSupply{}, flatYield, 0.9, "supply.mean", unit.ErrRange},
		"wide":       {unit.SquareFoot, material.SkinSupply{Mean: 50 * unit.SquareFoot, Spread: 20 * unit.SquareFoot}, flatYield, 0.9, "supply.spread", unit.ErrRange},
		"one":        {unit.SquareFoot, material.SkinSupply{Sample: make([]unit.Area, 1)}, flatYield, 0.9, "supply.sample", unit.ErrRange},
		"empty skin": {unit.SquareFoot, material.SkinSupply{Sample: make([]unit.Area, 2)}, flatYield, 0.9, "supply.sample[0]", unit.ErrRange},
		"both":       {unit.SquareFoot, material.SkinSupply{Mean: unit.SquareFoot, Sample: make([]unit.Area, 2)}, flatYield, 0.9, "supply.sample", unit.ErrRange},
		"factory":    {1000 * unit.SquareMetre, material.SkinSupply{Mean: unit.SquareFoot}, flatYield, 0.9, "net", unit.ErrRange},
		// As many skins as are counted would do at best, not at the least yield.
		"at best": {10_500 * unit.SquareFoot, ok, material.YieldRange{From: 0.4, To: 0.6}, 0.9, "net", unit.ErrRange},
	} {
		_, err := material.ForecastSkins(c.net, c.s, c.y, c.c)
		require.ErrorIs(t, err, c.err, name)
		var input *unit.InputError
		require.ErrorAs(t, err, &input, name)
		assert.Equal(t, c.field, string(input.Field), name)
	}
}
