package foam_test

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

var update = flag.Bool("update", false, "write golden files anew")

func TestDrawCurvesGolden(t *testing.T) {
	got, err := foam.DrawCurves(
		foam.NamedCurve{"core", foam.Curve{foam.IFD25(36 * unit.PoundForce), foam.IFD65(80 * unit.PoundForce)}},
		foam.NamedCurve{"topper <soft> & light", foam.Curve{foam.IFD25(18 * unit.PoundForce), foam.IFD65(36 * unit.PoundForce)}},
	)
	require.NoError(t, err)
	path := filepath.Join("testdata", "curves.svg")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "run with -update after looking at the change")
}

// Any valid curves give a well-formed drawing, the same every time, that marks
// both test points of each.
func TestDrawCurvesLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "curves")
		curves := make([]foam.NamedCurve, n)
		for i := range curves {
			curves[i] = foam.NamedCurve{rapid.String().Draw(t, "name"), genCurve(t, "curve")}
		}
		got, err := foam.DrawCurves(curves...)
		require.NoError(t, err)
		again, err := foam.DrawCurves(curves...)
		require.NoError(t, err)
		assert.Equal(t, got, again)
		assert.Equal(t, 2*n, strings.Count(got, "<circle"))
		assertRoundAxis(t, got)
		dec := xml.NewDecoder(strings.NewReader(got))
		for {
			_, err := dec.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err)
		}
	})
}

// assertRoundAxis finds four to ten divisions of 1, 2 or 5 on the axis of force.
func assertRoundAxis(t *rapid.T, drawing string) {
	var labels []float64
	for _, text := range regexp.MustCompile(`text-anchor="end"[^>]*>([^<]*)<`).FindAllStringSubmatch(drawing, -1) {
		f, err := strconv.ParseFloat(text[1], 64)
		require.NoError(t, err)
		labels = append(labels, f)
	}
	require.True(t, len(labels) >= 5 && len(labels) <= 11, "%v", labels)
	digit := strings.Trim(strconv.FormatFloat(labels[1], 'f', -1, 64), "0.")
	assert.Contains(t, []string{"1", "2", "5"}, digit, "%v", labels)
}
