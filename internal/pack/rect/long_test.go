//go:build long

package rect

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pgregory.net/rapid"
)

func TestAnyJobInFull(t *testing.T) { rapid.Check(t, anyJob) }

func TestStackLawsInFull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { stackLaws(t, drawStack(t, 4)) })
}

func TestDissectionGapInFull(t *testing.T) { dissectionGap(t, 0.1) }

func TestLostIsNeverMoreThanEmptyInFull(t *testing.T) { rapid.Check(t, lostLaw) }

func TestMoreEffortIsNeverWorseInFull(t *testing.T) { rapid.Check(t, moreEffort) }

func TestLawsInFull(t *testing.T) {
	laws(t, func(t *testing.T, law func(*rapid.T)) { rapid.Check(t, law) })
}

func TestSearchLooksOftenInFull(t *testing.T) {
	for _, turns := range []Turns{Upright, AnyTurn} {
		_, most := looked(t, many(MaxPieces, turns), 1e9)
		assert.LessOrEqual(t, most, tenth)
	}
}

func TestFirstLayoutEndsSoonInFull(t *testing.T) {
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	for name, change := range map[string]func(*Job){
		"plain":   func(*Job) {},
		"turning": func(j *Job) { *j = *many(MaxPieces, AnyTurn) },
		"pattern": func(j *Job) {
			j.Repeat = Repeat{PeriodX: 500, PeriodY: 700}
			for i := range j.Pieces {
				j.Pieces[i].Match = Y
			}
		},
		"flaw":  func(j *Job) { j.Flaws = []Flaw{{0, 1000, 100, 100}} },
		"shade": func(j *Job) { j.Groups, j.Pieces[0].Group, j.Pieces[1].Group = []Group{{maxCoord - 1}}, 1, 1 },
	} {
		j := many(MaxPieces, Upright)
		change(j)
		p, err := Solve(ended, j, Options{Effort: 10})
		require.NoError(t, err, name) // and verified
		assert.True(t, p.Stopped, name)
		assert.LessOrEqual(t, p.Work, tenth, name)
	}
}
