//go:build long

package main

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPageOfAnyNameInFull(t *testing.T) { rapid.Check(t, pageOfAnyName(t)) }

// A sofa in a patterned cloth, by measures alone: the pattern runs down the front of all
// three seats and round the skirt, and the order says how far its layout may be from the
// best.
func TestPatternedSofa(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(little), "-job", "sofa.json"), &out, &errs), errs.String())
	for _, line := range []string{"% longer than the best", "for the start of the bolt",
		"the pattern runs on from inside back side.bottom (5 in inside) to end cushion.top plate.back",
		"the pattern runs on from end cushion.top plate.front to end cushion.boxing front.top",
		"the pattern runs on from end cushion.top plate.front to front border side.top, 5 in of it between the two",
		"the pattern runs on from skirt.skirt panel 1 end 1.right to skirt.skirt panel 1.left",
		"outside arm: these goods are too narrow beside their motifs"} {
		assert.Contains(t, out.String(), line)
	}
}

// The lengths to buy before a cloth is chosen, a line for each width.
func TestYardageOfTheDemo(t *testing.T) {
	var out, errs bytes.Buffer
	require.Equal(t, exitOK, run(context.Background(), append(slices.Clip(little), "-format", "yardage"), &out, &errs), errs.String())
	for _, line := range []string{"goods width plain repeat 14 in repeat 20 in repeat 27 in", "damask 54 in 9", "damask 48 in", "lining 48 in 4 yd too narrow",
		"lining, 54 in wide: cushion, bottom plate, cut 67 in wide does not fit across."} {
		assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), line)
	}
	assert.NotContains(t, out.String(), "hide")
}

func TestCardOfEveryKindInFull(t *testing.T) { cardOfKinds(t, 1) }
