package foam_test

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

var (
	inchPoundUnit = regexp.MustCompile(`[0-9] (in|lb|lbf|lb/ft3)\b`)
	metricUnit    = regexp.MustCompile(`[0-9] (mm|kg|N|kg/m3)\b`)
)

// Every kind has words of its own in both systems, with every value filled in
// and no unit of the other system.
func TestEveryReasonHasWords(t *testing.T) {
	const pcf = unit.PoundPerCubicFoot
	values := foam.Reason{
		Use: foam.Seat, Duty: foam.HeavyDuty, Base: foam.Springs, About: "grade", Count: 3, Firmness: foam.Range[foam.IFD25]{Low: lbfIFD(30), High: lbfIFD(40)}, Wanted: only(lbfIFD(33)),
		Density: foam.Range[unit.Density]{Low: 9 * pcf / 5, High: 2 * pcf}, Limits: foam.Range[unit.Density]{Low: 2 * pcf, High: 12 * pcf / 5}, Thickness: foam.Range[unit.Length]{2 * unit.Inch, 4 * unit.Inch},
		Sink: unit.Inch, Remaining: 3 * unit.Inch, Sitter: 90 * unit.Kilogram, Ratio: 1.25,
	}
	seen := map[string]foam.ReasonKind{}
	for k := foam.UsualFirmness; k <= foam.GradeHoldsWater; k++ {
		r := values
		r.Kind = k
		for _, text := range []string{r.String(), r.Metric(), k.String()} {
			assert.NotEmpty(t, text, k)
			assert.NotContains(t, text, "{", k)
			assert.NotContains(t, text, "%!", k)
		}
		assert.NotRegexp(t, metricUnit, r.String(), k)
		assert.NotRegexp(t, inchPoundUnit, r.Metric(), k)
		_, twice := seen[r.String()]
		assert.False(t, twice, "%v reads as another", k)
		seen[r.String()] = k
	}
	assert.Empty(t, foam.Reason{}.String())
	for k := 255; k > int(foam.GradeHoldsWater); k-- {
		assert.Contains(t, foam.Reason{Kind: foam.ReasonKind(k)}.String(), strconv.Itoa(k))
	}
	_, err := (foam.GradeHoldsWater + 1).MarshalText()
	assert.ErrorIs(t, err, unit.ErrUnknown, "no kind after the last")
	roundTrip(t, 0, 99, foam.UsualFirmness, foam.NothingShared, foam.GradeHoldsWater)
}

// The kinds of the sentences that Select and Sit can give are all reached, or
// belong to old foam.
func TestEveryReasonIsGiven(t *testing.T) {
	given := map[foam.ReasonKind]bool{}
	note := func(list []foam.Reason) {
		for _, r := range list {
			given[r.Kind] = true
		}
	}
	stock := append(foam.ExampleGrades(), foam.Grade{Name: "odd", Density: 30, IFD25: 130, IFD65: 200}, foam.Grade{Name: "light", Density: 20, IFD25: 140, IFD65: 300})
	for _, use := range foam.Uses() {
		for _, duty := range foam.Duties() {
			for _, base := range foam.Bases() {
				for _, half := range []unit.Length{1, 2, 3, 5, 8, 10, 12, 24} {
					for _, w := range []foam.Wanted{{}, {IFD25: lbfIFD(30)}, {IFD25: lbfIFD(88)}} {
						for _, s := range [][]foam.Grade{nil, stock, stock[:1]} {
							got, err := foam.Select(foam.Request{Use: use, Duty: duty, Base: base, Thickness: half * unit.Inch / 2, Sitter: 200 * unit.Kilogram, Wanted: w, Stock: s})
							require.NoError(t, err)
							note(got.Reasons)
							note(got.Disagreements)
							for _, g := range got.Grades {
								note(g.Reasons)
								if g.Sitting != nil {
									note(g.Sitting.Notes)
								}
							}
						}
					}
				}
			}
		}
	}
	wet, err := foam.Select(foam.Request{Use: foam.Berth, Duty: foam.HeavyDuty, Base: foam.Board, Thickness: 4 * unit.Inch, Wet: true,
		Stock: []foam.Grade{{Name: "drain", Density: 40, IFD25: 140, Drains: true}, {Name: "ordinary", Density: 40, IFD25: 140}}})
	require.NoError(t, err)
	note(wet.Reasons)
	note(wet.Grades[0].Reasons)
	note(wet.Grades[1].Reasons)
	shallow, err := foam.Sit(foam.Stack{{Thickness: 6 * unit.Inch, Curve: foam.Curve{600, 1500}}}, foam.Sitter{Mass: 20 * unit.Kilogram})
	require.NoError(t, err)
	note(shallow.Notes)
	for _, now := range []unit.Length{40, 36, 20} {
		for _, d := range []unit.Density{10, 40} {
			j, err := foam.Judge(foam.OldFoam{New: 4 * unit.Inch, Now: now * unit.Inch / 10, Crumbles: true, Density: d, Use: foam.Seat, Duty: foam.NormalDuty})
			require.NoError(t, err)
			note(j.Reasons)
		}
	}
	j, err := foam.Judge(foam.OldFoam{New: 100 * unit.Millimetre, Now: 88 * unit.Millimetre})
	require.NoError(t, err)
	note(j.Reasons)
	for k := foam.UsualFirmness; k <= foam.GradeHoldsWater; k++ {
		assert.True(t, given[k], "nothing gives %v", k)
	}
}

// A round figure of either system stays round, and keeps its test.
func TestForcesReadRound(t *testing.T) {
	for want, got := range map[string]string{
		"33 lbf IFD25":   lbfIFD(33).String(),
		"30 lbf IFD25":   foam.IFD25(30 * unit.PoundForce).String(),
		"150 N IFD25":    foam.IFD25(150).String(),
		"0.1 N IFD25":    foam.IFD25(0.1).String(),
		"66.5 lbf IFD65": foam.IFD65(66.5 * unit.PoundForce).String(),
		"180 N ISO-A40":  foam.HardnessA(180).String(),
		"0 N IFD25":      foam.IFD25(0).String(),
	} {
		assert.Equal(t, want, got)
	}
}
