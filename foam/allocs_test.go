//go:build !race

package foam_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// The memory that small questions take is kept: a table of allocations.
func TestAllocations(t *testing.T) {
	stack := foam.Stack{{Thickness: unit.Inch, Curve: seat}, {Thickness: 3 * unit.Inch, Curve: seat}}
	sitter := foam.Sitter{Mass: 80 * unit.Kilogram}
	usual := foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Sitter: sitter.Mass}
	wanted := usual
	wanted.Wanted.IFD25 = lbfIFD(30)
	long := usual
	for range 10 {
		long.Stock = append(long.Stock, foam.ExampleGrades()...)
	}
	for name, c := range map[string]struct {
		most float64
		run  func() error
	}{
		"Select":           {11, func() error { _, err := foam.Select(usual); return err }},
		"Select wanted":    {11, func() error { _, err := foam.Select(wanted); return err }},
		"Select of 170":    {12, func() error { _, err := foam.Select(long); return err }},
		"Sit":              {2, func() error { _, err := foam.Sit(stack, sitter); return err }},
		"Curve.Strain":     {0, func() error { _, err := seat.Strain(100); return err }},
		"Curve.Energy":     {0, func() error { _, err := seat.Energy(0.5); return err }},
		"EquivalentIFD25":  {0, func() error { _, err := stack.EquivalentIFD25(); return err }},
		"IFDTolerance":     {0, func() error { _, err := foam.IFDTolerance(lbfIFD(40)); return err }},
		"SupportFactor":    {0, func() error { _, err := foam.SupportFactor(100, 220); return err }},
		"ServiceClassFor":  {0, func() error { _, err := foam.ServiceClassFor(foam.Seat, foam.HeavyDuty); return err }},
		"EstimateHardness": {0, func() error { _, err := foam.EstimateHardnessA(100); return err }},
	} {
		got := testing.AllocsPerRun(100, func() {
			if err := c.run(); err != nil {
				t.Fatal(err)
			}
		})
		assert.LessOrEqual(t, got, c.most, name)
	}
}
