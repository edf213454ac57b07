//go:build long

package rect

import (
	"testing"

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
