package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The goal: the outline within 0.15 % of the panel's length.
const goal = 0.0015

// A photo of each kind but the first, which other tests read; TestPhotosInFull takes two
// hundred, larger ones.
func TestPhotos(t *testing.T) {
	for _, r := range measureAll(t, 1, kinds, [kinds][2]float64{twoPagesDark: {4, 4}, fourPages: {2, 2}, threePanels: {6, 6}}) {
		assert.LessOrEqual(t, r.wrong, goal, "kind %d", r.kind)
	}
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
