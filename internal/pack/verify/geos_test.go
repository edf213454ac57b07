//go:build geos

package verify_test

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// TestAgainstGEOS compares the referee with GEOS on 10,000 random
// placements. It needs python3 with shapely; PYTHON names another
// interpreter.
func TestAgainstGEOS(t *testing.T) {
	const script = `
import json, sys
from shapely.geometry import Polygon
out = []
for a, b in json.load(sys.stdin):
    p, q = Polygon(a), Polygon(b)
    assert p.is_valid and q.is_valid
    out.append([p.intersection(q).area > 1e-6, p.difference(q).area < 1e-6])
json.dump(out, sys.stdout)
`
	r := rand.New(rand.NewPCG(5, 6))
	type pair [2][][2]int64
	var in []pair
	var rings [][2]geom.Ring
	for n := 0; n < 10000; n++ {
		size := int64(8)
		if n%2 == 0 {
			size = 1000
		}
		a := randomRing(r, 0, 0, size)
		b := randomRing(r, r.Int64N(4*size)-2*size, r.Int64N(4*size)-2*size, size)
		if n%7 == 0 { // the same shape moved along an axis: no proper crossing
			b = nil
			d := r.Int64N(size)
			for _, p := range a {
				b = append(b, geom.Pt(p.X+d, p.Y))
			}
		}
		var q pair
		for _, p := range a {
			q[0] = append(q[0], [2]int64{p.X, p.Y})
		}
		for _, p := range b {
			q[1] = append(q[1], [2]int64{p.X, p.Y})
		}
		in = append(in, q)
		rings = append(rings, [2]geom.Ring{a, b})
	}
	data, err := json.Marshal(in)
	require.NoError(t, err)
	python := interpreter()
	require.NotEmpty(t, python, "python3 with shapely is needed for this test")
	cmd := exec.Command(python, "-c", script)
	cmd.Stdin = bytes.NewReader(data)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err, "python3 with shapely is needed for this test")
	var got [][2]bool
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, len(rings))
	for i, g := range got {
		a, b := rings[i][0], rings[i][1]
		require.Equal(t, g[0], verify.Overlap(a, b), "overlap of %v and %v", a, b)
		require.Equal(t, g[1], verify.Inside(a, b), "%v in %v", a, b)
	}
}

// interpreter finds a python that has shapely; the system's own may not be the
// first on the path.
func interpreter() string {
	for _, name := range []string{os.Getenv("PYTHON"), "python3", "/usr/bin/python3"} {
		if name != "" && exec.Command(name, "-c", "import shapely").Run() == nil { //nolint:gosec // a test's own choice
			return name
		}
	}
	return ""
}
