//go:build ezdxf

package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
)

// An independent reader finds no fault in any DXF file, its unit, the millimetre, and
// the cut outline at the size of the piece.
func TestDXFInAnotherReader(t *testing.T) {
	const millimetres, metric = 4, 1 // of $INSUNITS and $MEASUREMENT
	for name, o := range orders(t) {
		dir := t.TempDir()
		files, err := patternFiles(o, false, patternSet{paper: pattern.A4()})
		require.NoError(t, err)
		for _, f := range files {
			if strings.HasPrefix(f.Name, "dxf/") {
				require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(f.Name)), f.Data, 0o600))
			}
		}
		out, err := exec.Command("/usr/bin/python3", "testdata/read_dxf.py", dir).Output() //nolint:gosec // our own script
		require.NoError(t, err, "this check needs the Debian package python3-ezdxf")
		var found map[string]struct {
			Units, Metric, Faults int
			Low, High             [2]float64
		}
		require.NoError(t, json.Unmarshal(out, &found))
		cuts := cutsOf(t, o)
		seen := 0
		for _, p := range cuts {
			for _, hand := range []string{"", "-mirrored"} {
				d, ok := found[slug(p.number, p.name())+hand+".dxf"]
				if !ok {
					require.NotEmpty(t, hand, "%s: %s", name, p.name())
					continue
				}
				seen++
				b := p.Bounds()
				assert.Equal(t, [3]int{millimetres, metric, 0}, [3]int{d.Units, d.Metric, d.Faults}, p.name())
				assert.InDelta(t, (b.High.X - b.Low.X).Millimetres(), d.High[0]-d.Low[0], 0.001, p.name())
				assert.InDelta(t, (b.High.Y - b.Low.Y).Millimetres(), d.High[1]-d.Low[1], 0.001, p.name())
			}
		}
		assert.Len(t, found, seen, name)
		assert.GreaterOrEqual(t, seen, len(cuts), name)
	}
}
