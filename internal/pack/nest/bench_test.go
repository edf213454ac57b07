package nest

import (
	"context"
	"math/rand/v2"
	"testing"
)

// benchStrip measures a strip of smooth outlines.
func benchStrip(b *testing.B, n int, turn Turn, o Options) {
	pieces := garment(rand.New(rand.NewPCG(3, 2)), n)
	for i := range pieces {
		pieces[i].Turn, pieces[i].Count = turn, 2
	}
	for b.Loop() {
		if _, err := Strip(context.Background(), StripJob{Width: 4000, Pieces: pieces, Options: o}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStrip(b *testing.B) { benchStrip(b, 20, TurnSet(0, 180*Degree), Options{Effort: 20}) }

// Little effort: most of it goes into pair tables.
func BenchmarkPairTables(b *testing.B) {
	benchStrip(b, 10, TurnSet(0, 37*Degree, 100*Degree), Options{Effort: 1})
}

func BenchmarkStripTurning(b *testing.B) { benchStrip(b, 8, TurnAny(), Options{Effort: 20}) }

func BenchmarkHides(b *testing.B) {
	job := HideJob{Hides: []Hide{roundHide("A", 10000, 300), roundHide("B", 11000, 300)},
		Pieces:  []Piece{{Ring: rect(6000, 5500), Count: 2, Turn: TurnAny()}, {Ring: rect(9000, 900), Count: 4, Turn: TurnAround(10*Degree, 0)}},
		Options: Options{Effort: 20}}
	for b.Loop() {
		if _, err := Hides(context.Background(), job); err != nil {
			b.Fatal(err)
		}
	}
}
