package verify_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/pack/verify"
)

// good is a faultless layout that uses every feature.
func good() *verify.Strip {
	return &verify.Strip{
		Width: 20, Length: 40, Claimed: 22, Gap: 1,
		Repeat:  verify.Repeat{PeriodX: 5, PeriodY: 6, OriginX: 1, OriginY: 2, DropNum: 1, DropDen: 2},
		Flaws:   []verify.Rect{{X: 0, Y: 30, W: 20, H: 2}, {X: 17, Y: 0, W: 3, H: 4}},
		Windows: []int64{13},
		Demands: []verify.Demand{
			{W: 4, H: 5, Count: 2, Turns: []int{0, 180}, MatchX: true, MatchY: true, Spots: []verify.Spot{{X: 9, Y: 9, Turns: []int{90}}, {X: 1, Y: 2}}, Group: 1},
			{W: 30, H: 3, Count: 1, Turns: []int{0}, Join: &verify.Join{AlongX: true, Allowance: 1, Least: 4, Most: 3}},
			{W: 2, H: 9, Count: 1, Turns: []int{0, 90}},
		},
		Laid: []verify.Laid{
			{Demand: 0, Copy: 0, Segments: 1, Rect: verify.Rect{0, 0, 4, 5}},             // motif at (1, 2)
			{Demand: 0, Copy: 1, Segments: 1, Rect: verify.Rect{13, 8, 4, 5}, Turn: 180}, // motif at (16, 11): column 3, raised by 3
			{Demand: 1, Segment: 0, Segments: 2, Rect: verify.Rect{0, 15, 16, 3}},
			{Demand: 1, Segment: 1, Segments: 2, Rect: verify.Rect{0, 19, 16, 3}},
			{Demand: 2, Segments: 1, Rect: verify.Rect{0, 10, 9, 2}, Turn: 90},
		},
		Seams: []verify.Seam{{Demand: 1, At: 15}},
	}
}

func TestGood(t *testing.T) {
	require.NoError(t, verify.Boxes(good()))
}

// Every kind of fault is put into a good layout and must be found.
func TestInjectedBoxFaults(t *testing.T) {
	for name, c := range map[string]struct {
		kind   string
		damage func(*verify.Strip)
	}{
		"lost copy":           {verify.KindMissing, func(s *verify.Strip) { s.Laid = s.Laid[1:] }},
		"lost segment":        {verify.KindMissing, func(s *verify.Strip) { s.Laid = append(s.Laid[:3:3], s.Laid[4]) }},
		"laid twice":          {verify.KindMissing, func(s *verify.Strip) { s.Laid = append(s.Laid, s.Laid[4]) }},
		"unknown demand":      {verify.KindMissing, func(s *verify.Strip) { s.Laid[0].Demand = 9 }},
		"unknown copy":        {verify.KindMissing, func(s *verify.Strip) { s.Laid[0].Copy = 2 }},
		"bad segment":         {verify.KindMissing, func(s *verify.Strip) { s.Laid[2].Segment = 7 }},
		"two divisions":       {verify.KindMissing, func(s *verify.Strip) { s.Laid[2].Segments = 3 }},
		"smaller":             {verify.KindSize, func(s *verify.Strip) { s.Laid[0].W-- }},
		"turned size":         {verify.KindSize, func(s *verify.Strip) { s.Laid[4].Turn = 0 }},
		"forbidden turn":      {verify.KindTurn, func(s *verify.Strip) { s.Laid[2].Turn = 180 }},
		"left of the strip":   {verify.KindOutside, func(s *verify.Strip) { s.Laid[4].X = -1 }},
		"right of the strip":  {verify.KindOutside, func(s *verify.Strip) { s.Laid[4].X = 12 }},
		"below the strip":     {verify.KindOutside, func(s *verify.Strip) { s.Laid[0].Y = -1 }},
		"above the strip":     {verify.KindOutside, func(s *verify.Strip) { s.Laid[3].Y = 38 }},
		"overlap":             {verify.KindOverlap, func(s *verify.Strip) { s.Laid[3].Y = 17 }},
		"same place":          {verify.KindOverlap, func(s *verify.Strip) { s.Laid[3].Y = s.Laid[2].Y }},
		"closer than the gap": {verify.KindOverlap, func(s *verify.Strip) { s.Laid[3].Y = 18 }},
		"on a band":           {verify.KindFlaw, func(s *verify.Strip) { s.Laid[3].Y = 29 }},
		"on a corner flaw":    {verify.KindFlaw, func(s *verify.Strip) { s.Flaws[1] = verify.Rect{16, 12, 1, 1} }},
		"off across":          {verify.KindRepeat, func(s *verify.Strip) { s.Laid[1].X-- }},
		"off along":           {verify.KindRepeat, func(s *verify.Strip) { s.Laid[1].Y++ }},
		"without its drop":    {verify.KindRepeat, func(s *verify.Strip) { s.Repeat.DropNum = 0 }},
		"other origin":        {verify.KindRepeat, func(s *verify.Strip) { s.Repeat.OriginY = 3 }},
		"spread":              {verify.KindGroup, func(s *verify.Strip) { s.Windows[0] = 12 }},
		"unknown group":       {verify.KindGroup, func(s *verify.Strip) { s.Demands[0].Group = 2 }},
		"seam moved":          {verify.KindSize, func(s *verify.Strip) { s.Seams[0].At = 14 }},
		"seam lost":           {verify.KindSeam, func(s *verify.Strip) { s.Seams = nil }},
		"seam too many":       {verify.KindSeam, func(s *verify.Strip) { s.Seams = append(s.Seams, verify.Seam{1, 0, 20}) }},
		"seam of a whole":     {verify.KindSeam, func(s *verify.Strip) { s.Seams = append(s.Seams, verify.Seam{2, 0, 2}) }},
		"seam of nothing":     {verify.KindSeam, func(s *verify.Strip) { s.Seams = append(s.Seams, verify.Seam{7, 0, 2}) }},
		"segment too short":   {verify.KindSeam, func(s *verify.Strip) { s.Demands[1].Join.Least = 16 }},
		"must not be joined":  {verify.KindSeam, func(s *verify.Strip) { s.Demands[1].Join = nil }},
		"claims too little":   {verify.KindLength, func(s *verify.Strip) { s.Claimed = 21 }},
		"claims too much":     {verify.KindLength, func(s *verify.Strip) { s.Claimed = 23 }},
	} {
		t.Run(name, func(t *testing.T) {
			s := good()
			c.damage(s)
			var f *verify.BoxFault
			err := verify.Boxes(s)
			require.True(t, errors.As(err, &f), "not found")
			assert.Equal(t, c.kind, f.Kind, f.Error())
		})
	}
}

func TestEmpty(t *testing.T) {
	assert.NoError(t, verify.Boxes(&verify.Strip{}))
	assert.Error(t, verify.Boxes(&verify.Strip{Claimed: 1}))
}
