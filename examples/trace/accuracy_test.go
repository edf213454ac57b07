package main

import (
	"bytes"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The goal: the outline within 0.15 % of the panel's length.
const goal = 0.0015

// Eight photos, of all kinds; TestPhotosInFull takes two hundred, larger ones.
func TestPhotos(t *testing.T) {
	for _, r := range measureAll(t, 2*kinds, [kinds][2]float64{twoPages: {8, 8}, twoPagesDark: {8, 8}, fourPages: {4, 4}, threePanels: {6, 6}}) {
		assert.LessOrEqual(t, r.wrong, goal, "kind %d", r.kind)
	}
}

// A photo of twelve megapixels takes less than 600 MB, all that is ever allocated
// counted.
func TestMemory(t *testing.T) {
	file, err := demo()
	require.NoError(t, err)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	r, _, err := read(bytes.NewReader(file), settings{})
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	assert.Len(t, r.panels, 2)
	used := (after.TotalAlloc - before.TotalAlloc) >> 20
	assert.Less(t, used, uint64(600))
	t.Logf("%d MB", used)
}

func BenchmarkRead(b *testing.B) {
	file, err := demo()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := read(bytes.NewReader(file), settings{}); err != nil {
			b.Fatal(err)
		}
	}
}
