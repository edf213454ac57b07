package material_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/spoil"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func TestEverySpoiltNumberIsNamed(t *testing.T) {
	type hides struct {
		Net   unit.Area  `json:"net"`
		Waste unit.Ratio `json:"waste"`
	}
	spoil.Named(t, "hides", hides{10 * unit.SquareFoot, 0.3}, func(x hides) error {
		_, err := material.HidesToBuy(x.Net, material.Hide{Area: 50 * unit.SquareFoot}, material.WasteFactor{Waste: x.Waste})
		return err
	})
	spoil.Named(t, "gross", hides{10 * unit.SquareFoot, 0.3}, func(x hides) error { _, err := material.GrossArea(x.Net, x.Waste); return err })
	type cloth struct {
		Length unit.Length `json:"length"`
		Width  unit.Length `json:"width"`
		Yield  unit.Ratio  `json:"yield"`
	}
	spoil.Named(t, "leather for cloth", cloth{unit.Yard, 54 * in, 0.75}, func(x cloth) error { _, err := material.LeatherForCloth(x.Length, x.Width, x.Yield); return err })
	type repeats struct {
		Length unit.Length `json:"length"`
		Repeat unit.Length `json:"repeat"`
	}
	spoil.Named(t, "repeats", repeats{unit.Yard, 9 * in}, func(x repeats) error { _, err := material.RepeatLength(x.Length, x.Repeat); return err })
	type patterned struct {
		Length     unit.Length `json:"length"`
		Width      unit.Length `json:"width"`
		Vertical   unit.Length `json:"vertical"`
		Horizontal unit.Length `json:"horizontal"`
	}
	spoil.Named(t, "patterned", patterned{unit.Yard, 54 * in, 9 * in, 9 * in}, func(x patterned) error {
		_, err := material.PatternedLength(x.Length, x.Width, x.Vertical, x.Horizontal)
		return err
	})
	type converted struct {
		Length unit.Length `json:"length"`
		From   unit.Length `json:"from"`
		To     unit.Length `json:"to"`
	}
	spoil.Named(t, "converted", converted{unit.Yard, 54 * in, 36 * in}, func(x converted) error { _, err := material.ConvertByArea(x.Length, x.From, x.To); return err })
	type roll struct {
		Width       unit.Length `json:"roll.width"`
		Selvage     unit.Length `json:"roll.selvage"`
		Repeat      unit.Length `json:"roll.repeat"`
		Across      unit.Length `json:"roll.across"`
		AcrossLevel unit.Length `json:"roll.across_level"`
		Shrinkage   unit.Ratio  `json:"roll.shrinkage"`
		Increment   unit.Length `json:"roll.increment"`
	}
	spoil.Named(t, "roll", roll{54 * in, in, 9 * in, 9 * in, 0, 0.03, 9 * in}, func(x roll) error {
		return material.Roll{Width: x.Width, Selvage: x.Selvage, Repeat: x.Repeat, Across: x.Across, AcrossLevel: x.AcrossLevel,
			Shrinkage: x.Shrinkage, Increment: x.Increment}.Check()
	})
	type part struct {
		X      unit.Length `json:"x"`
		Y      unit.Length `json:"y"`
		Width  unit.Length `json:"width"`
		Length unit.Length `json:"length"`
	}
	stock := material.Stock{Roll: material.Roll{Width: 54 * in}, Length: 120 * in}
	spoil.Named(t, "part", part{in, in, 34 * in, 24 * in}, func(x part) error { _, err := stock.Part(x.X, x.Y, x.Width, x.Length); return err })
	spoil.Named(t, "margin", material.WorkingMargin{Squaring: in, Test: in, FlawEvery: 2 * unit.Metre, FlawLength: in, Treatment: 0.05, LeastTreatment: in}, func(m material.WorkingMargin) error {
		_, err := material.Roll{Width: 54 * in}.OrderWith(unit.Yard, in, m)
		return err
	})
	_, err := material.Stock{}.Part(0, 0, in, in)
	require.Error(t, err)
}

// What is beyond the most that is taken is refused at its field.
func TestBeyondTheMost(t *testing.T) {
	roll := func(spoil func(r *material.Roll)) error {
		r := material.Roll{Width: 54 * in, Repeat: 9 * in, AcrossLevel: 27 * in, Drop: material.Drop{Num: 1, Den: 2}}
		spoil(&r)
		return r.Check()
	}
	require.NoError(t, roll(func(r *material.Roll) { r.AcrossLevel = 6 * unit.Metre }))
	for field, err := range map[string]error{
		"roll.across_level": roll(func(r *material.Roll) { r.AcrossLevel = 6*unit.Metre + 2 }),
		"roll.flaws":        roll(func(r *material.Roll) { r.Flaws = make([]material.Flaw, 10_001) }),
		"net": func() error {
			_, err := material.HidesToBuy(10_000*unit.SquareMetre+1, material.Hide{Area: 50 * unit.SquareFoot}, material.WasteFactor{})
			return err
		}(),
		"waste": func() error {
			_, err := material.HidesToBuy(unit.SquareFoot, material.Hide{Area: 50 * unit.SquareFoot}, material.WasteFactor{Waste: 0.95})
			return err
		}(),
	} {
		var e *unit.InputError
		if assert.ErrorAs(t, err, &e, field) {
			assert.Equal(t, field, string(e.Field))
		}
	}
	var bad *unit.InputError
	require.ErrorAs(t, roll(func(r *material.Roll) { r.Flaws = []material.Flaw{{X: in, Y: -in, Length: in}} }), &bad)
	assert.Equal(t, "roll.flaws[0].y", string(bad.Field))
	require.NoError(t, roll(func(r *material.Roll) { r.Flaws = []material.Flaw{{X: in, Y: in, Length: in}} }))
	_, err := material.NaturalShape(0, 50*unit.SquareFoot)
	require.ErrorIs(t, err, unit.ErrUnknown)
	fine := material.Motifs{Across: in, Along: 64 * in, Drop: material.Drop{Num: 1, Den: 64}}
	assert.Equal(t, 63*in, fine.Rise(1))
	_, err = material.PartShare{Share: 1.5}.Of(unit.SquareFoot)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = material.GrossArea(1<<62, 0.9)
	require.ErrorIs(t, err, unit.ErrOverflow)
	assert.Equal(t, "none", material.ChartWidth(0).String())
	assert.Equal(t, "52-54 in", material.Chart54.String())
}
