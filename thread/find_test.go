package thread_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// Each way of naming leads to its size, in every spelling.
func TestFindSpellings(t *testing.T) {
	for want, texts := range map[thread.Size][]string{
		thread.Size15:  {"15", "V-15", "00", "T-16", "180"},
		thread.Size33:  {"33", "#30", "AA", "T-35", "T30", "m80", "100/3"},
		thread.Size46:  {"46", "B", "tex 45", "60", "460 den", "420 denier"},
		thread.Size69:  {"69", "V69", "size 69", "E", "e", "T70", "tkt 40", "690d", "630 den", "210D/3", "210 den x 3"},
		thread.Size92:  {" 92 ", "No. 92", "trade 92", "F", "T-90", "90 tex", "TEX90", "M30", "ticket 30", "840 den", "280x3"},
		thread.Size138: {"138", "ff", "T-135", "M20", "420/3", "1260 den", "1380 den"},
		thread.Size207: {"207", "3 cord", "3-cord", "3cord", "T-210"},
		thread.Size277: {"277", "4 cord", "T270"},
		thread.Size346: {"346", "5 cords", "T350", "M8"},
		thread.Size415: {"415", "6 cord", "T400", "M7", "M6", "6"},
		thread.Size554: {"554", "T600", "M5", "1680/3"},
	} {
		for _, text := range texts {
			got, err := thread.ParseSize(text)
			require.NoError(t, err, text)
			assert.Equal(t, want, got, text)
		}
	}
}

// The cells of the table and the look-up agree, both ways.
func TestFindAgreesWithTable(t *testing.T) {
	for _, r := range thread.Table() {
		if label, ok := r.Label.Value(); ok {
			assertFinds(t, "tex "+label.Decimal(unit.Tex, 0, unit.Nearest)[:len(label.Decimal(unit.Tex, 0, unit.Nearest))-4], r.Thread.Size, thread.TexLabel)
		}
		if letter, ok := r.Letter.Value(); ok {
			assertFinds(t, letter, r.Thread.Size, thread.GovernmentLetter)
		}
		assertFinds(t, "v-"+r.Thread.Size.String(), r.Thread.Size, thread.TradeNumber)
	}
}

func assertFinds(t *testing.T, text string, s thread.Size, n thread.Naming) {
	t.Helper()
	m, err := thread.FindSizes(text)
	require.NoError(t, err, text)
	found := false
	for x := range m.All() {
		found = found || x == thread.SizeMatch{Size: s, Naming: n}
	}
	assert.True(t, found, "%s: %v", text, m.String())
}

func TestAround(t *testing.T) {
	for _, c := range []struct {
		count          unit.LinearDensity
		lighter, above thread.Size
	}{
		{unit.Tex, 0, thread.Size15},
		{920 * unit.Denier, thread.Size92, thread.Size92},
		{1000 * unit.Denier, thread.Size92, thread.Size138},
		{9000 * unit.Denier, thread.Size554, 0},
	} {
		lighter, heavier, err := thread.SizesAround(c.count)
		require.NoError(t, err)
		assert.Equal(t, c.lighter, lighter)
		assert.Equal(t, c.above, heavier)
	}
}

// FuzzParseSize: no text panics; what is read is a size of the table that the
// text names, and an ambiguous text has more than one.
func FuzzParseSize(f *testing.F) {
	for _, s := range []string{"92", "T-90", "tex 90", "FF", "M30", "3 cord", "920 den", "280/3", "30", "00", "210D x 3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, findErr := thread.FindSizes(text)
		s, err := thread.ParseSize(text)
		if (findErr != nil) != (m.Len() == 0) {
			t.Fatalf("%q: %v with %d meanings", text, findErr, m.Len())
		}
		if err == nil {
			if s.Number() == 0 {
				t.Fatalf("%q read as no size", text)
			}
			for x := range m.All() {
				if x.Size != s {
					t.Fatalf("%q: %v read as %v", text, m.String(), s)
				}
			}
			again, err := thread.ParseSize(" " + strings.ToUpper(text) + " ")
			if err != nil || again != s {
				t.Fatalf("%q in capitals: %v, %v", text, again, err)
			}
		}
	})
}

// FuzzParseNeedle: no text panics, and a needle that is read is one that is
// made and reads back.
func FuzzParseNeedle(f *testing.F) {
	for _, s := range []string{"110/18", "18/110", "Nm 110", "#18", "22", "22.5", "150/22"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := thread.ParseNeedle(text)
		if err != nil {
			return
		}
		if _, ok := n.Number(); !ok {
			t.Fatalf("%q read as %d", text, n)
		}
		again, err := thread.ParseNeedle(n.String())
		if err != nil || again != n {
			t.Fatalf("%q: %v, %v", text, again, err)
		}
	})
}

// Meanings are listed lightest first, in whatever order they were written.
func TestMeaningsAreListedLightestFirst(t *testing.T) {
	meaning := func(s thread.Size) thread.SizeMatch { return thread.SizeMatch{Size: s, Naming: thread.TexLabel} }
	want := []thread.SizeMatch{meaning(thread.Size33), meaning(thread.Size69), meaning(thread.Size92), meaning(thread.Size138)}
	for _, order := range [][]int{{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}} {
		var list []thread.SizeMatch
		for _, i := range order {
			list = append(list, want[i])
		}
		text, err := json.Marshal(list)
		require.NoError(t, err)
		var m thread.SizeMatches
		require.NoError(t, m.UnmarshalJSON(text))
		assert.Equal(t, want, slices.Collect(m.All()), order)
	}
}
