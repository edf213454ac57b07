package thread_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// Each bad match raises its own flag and no other.
func TestFlags(t *testing.T) {
	for name, c := range map[string]struct {
		request thread.Need
		want    thread.Flags
	}{
		"92 with 19 in leather":           {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size92, Needle: 120}, 0},
		"92 with 20 in leather":           {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size92, Needle: 125}, 0},
		"92 with 16 in leather":           {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size92, Needle: 100}, thread.NeedleFine},
		"92 with 10 does not fit":         {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size92, Needle: 70}, thread.NeedleTooFine},
		"69 with 24 tears leather":        {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size69, Needle: 180}, thread.NeedleTooCoarse},
		"46 is light for saddlery":        {thread.Need{Goods: thread.HeavyLeather, Layers: 2, Size: thread.Size46}, thread.ThreadTooLight},
		"346 is heavy for lining":         {thread.Need{Goods: thread.LightWoven, Layers: 2, Size: thread.Size346}, thread.ThreadTooHeavy},
		"nylon in the sun":                {thread.Need{Goods: thread.Canvas, Layers: 2, Size: thread.Size92, Fibre: thread.Nylon, Exposure: thread.Outdoors}, thread.NylonInSun},
		"69 where 200 lbf/in are needed":  {thread.Need{Goods: thread.Woven, Layers: 2, Size: thread.Size69, Strength: 200 * thread.PoundForcePerInch}, thread.ThreadTooWeak},
		"138 where 100 lbf/in are needed": {thread.Need{Goods: thread.Leather, Layers: 2, Size: thread.Size138, Strength: 100 * thread.PoundForcePerInch}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := thread.Recommend(c.request)
			require.NoError(t, err)
			require.Equal(t, 1, a.Len())
			assert.Equal(t, c.want, a.Best().Flags, "%v", a.Best().Flags)
		})
	}
}

// What the request fixes decides which choice comes first.
func TestRankFollowsNeedle(t *testing.T) {
	a, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 2, Needle: 110})
	require.NoError(t, err)
	assert.Equal(t, thread.Size69, a.Best().Thread.Size, "18 suits 69, not the usual 92")
	assert.Zero(t, a.Best().Flags)

	a, err = thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 2, Strength: 110 * thread.PoundForcePerInch})
	require.NoError(t, err)
	assert.Equal(t, thread.Size138, a.Best().Thread.Size, "the only one strong enough")
}

// Many layers take the coarse needle and the long stitch.
func TestManyLayers(t *testing.T) {
	few, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 4})
	require.NoError(t, err)
	many, err := thread.Recommend(thread.Need{Goods: thread.Leather, Layers: 5})
	require.NoError(t, err)
	assert.Equal(t, thread.Needle(120), few.Best().Needle)
	assert.Equal(t, thread.Needle(125), many.Best().Needle)
	assert.Greater(t, many.Best().StitchLength, few.Best().StitchLength)
}

func TestAdviceStopsEarly(t *testing.T) {
	a, err := thread.Recommend(thread.Need{Goods: thread.Woven, Layers: 2})
	require.NoError(t, err)
	n := 0
	for range a.All() {
		n++
		break
	}
	assert.Equal(t, 1, n)
	var none thread.Advice
	assert.Zero(t, none.Best())
	require.ErrorIs(t, json.Unmarshal([]byte(`[{},{},{},{}]`), &none), unit.ErrRange)
	require.Error(t, json.Unmarshal([]byte(`{}`), &none))
}

// Texts of the small types go both ways, and what is not theirs is refused.
func TestSmallTypes(t *testing.T) {
	var f thread.LineForce
	for text, want := range map[string]thread.LineForce{"4000 N/m": 4000, "4 N/mm": 4000, "2 lbf/in": 2 * thread.PoundForcePerInch} {
		require.NoError(t, f.UnmarshalText([]byte(text)))
		assert.Equal(t, want, f)
	}
	for _, text := range []string{"4000", "N/m", "x N/m", "NaN N/m", "1e400 N/m", "1e308 N/mm"} {
		assert.Error(t, f.UnmarshalText([]byte(text)), text)
	}
	assert.InDelta(t, 4000, thread.LineForce(4000).NewtonsPerMetre(), 0)
	assert.InDelta(t, 200, thread.LineForce(4000).Over(50*unit.Millimetre).Newtons(), 1e-9)

	var spi thread.StitchesPerInch
	require.NoError(t, spi.UnmarshalText([]byte("6.35 per inch")))
	assert.InDelta(t, 6.35, float64(spi), 0)
	assert.ErrorIs(t, spi.UnmarshalText([]byte("6")), unit.ErrMissingUnit)

	var temp thread.Temperature
	require.NoError(t, temp.UnmarshalText([]byte("82.5 °C")))
	assert.InDelta(t, 82.5, temp.Celsius(), 0)
	assert.InDelta(t, 180.5, temp.Fahrenheit(), 1e-9)
	assert.ErrorIs(t, temp.UnmarshalText([]byte("82.5 K")), unit.ErrMissingUnit)

	var flags thread.Flags
	data, err := json.Marshal(thread.NylonInSun | thread.ThreadTooWeak)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &flags))
	assert.Equal(t, thread.NylonInSun|thread.ThreadTooWeak, flags)
	assert.ErrorIs(t, json.Unmarshal([]byte(`["fine"]`), &flags), unit.ErrUnknown)
	assert.Equal(t, "good match", thread.Flags(0).String())

	for _, p := range thread.NeedlePoints() {
		assert.Equal(t, p >= thread.CutSlanted, p.Cutting(), p)
	}
	assert.Len(t, thread.Threads(), 2*len(thread.Sizes()))
	d, err := thread.StitchDensityFor(thread.Canvas)
	require.NoError(t, err)
	short, long, err := d.Lengths()
	require.NoError(t, err)
	assert.Less(t, short, long)
	l, _, err := thread.BackTackFor(thread.Leather)
	require.NoError(t, err)
	assert.Equal(t, 13500*unit.Micrometre, l, "three stitches of 4.5 mm")
}

// A thread that carries just what is asked is strong enough, and a hair more is
// too much for it. What is no list of texts is none of flags.
func TestJustStrongEnough(t *testing.T) {
	n := thread.Need{Goods: thread.Woven, Layers: 2, Size: thread.Size69}
	best := func() thread.Recommendation {
		a, err := thread.Recommend(n)
		require.NoError(t, err)
		return a.Best()
	}
	n.Strength = best().SeamStrength
	assert.False(t, best().Flags.Has(thread.ThreadTooWeak))
	n.Strength *= 1.0001
	assert.True(t, best().Flags.Has(thread.ThreadTooWeak))
	f := thread.ThreadTooWeak
	require.Error(t, f.UnmarshalJSON([]byte("5")))
	require.Error(t, f.UnmarshalJSON([]byte(`["no such flag"]`)))
	assert.Equal(t, thread.ThreadTooWeak, f)
}
