package check_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

func TestAt(t *testing.T) {
	assert.Equal(t, "runs[3]", check.At("runs", 3))
	assert.Equal(t, unit.Path("pieces[2].runs[0]"), check.At(unit.Path("pieces[2].runs"), 0))
}

func TestRenamed(t *testing.T) {
	names := map[string]string{"height": "length", "edges": "by_edge", "roll": ""}
	for from, to := range map[unit.Path]unit.Path{
		"height":        "length",
		"height.low":    "length.low",
		"heights":       "heights",
		"a.height":      "a.height",
		"edges[2].seam": "by_edge[2].seam",
		"edges.left":    "by_edge.left",
		"roll.width":    "width",
		"roll[1].width": "[1].width",
		"roll":          "",
		"":              "",
		"[3].height":    "[3].height",
	} {
		given := &unit.InputError{Field: from, Value: "v", Err: unit.ErrRange, Want: "w"}
		err := check.Renamed(given, names)
		assert.Equal(t, &unit.InputError{Field: to, Value: "v", Err: unit.ErrRange, Want: "w"}, err, from)
		assert.Equal(t, from, given.Field, "the given error must not change")
	}
	require.NoError(t, check.Renamed(nil, names))
	plain := errors.New("plain")
	assert.Equal(t, plain, check.Renamed(plain, names))
	both := check.Renamed(errors.Join(check.Required("height", "one"), plain, fmt.Errorf("in all: %w", check.Required("roll.width", "one"))), names)
	require.EqualError(t, both, "length: required; want one\nplain\nwidth: required; want one")
	require.ErrorIs(t, both, plain)
}

func TestPositives(t *testing.T) {
	require.NoError(t, check.Positives[string](nil))
	require.NoError(t, check.Positives([]string{"width", "height"}, unit.Inch, unit.Foot))
	require.EqualError(t, check.Positives([]string{"width", "height"}, unit.Inch, 0), "height: “0 in”: out of range; want a length above zero")
	require.ErrorIs(t, check.Positives([]string{"width", "height"}, 22, 0), unit.ErrForgottenUnit)
}
