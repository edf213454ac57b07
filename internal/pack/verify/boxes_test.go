package verify

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// good is a faultless layout that uses every feature.
func good() *Strip {
	return &Strip{
		Width: 20, Length: 40, Claimed: 22, Gap: 1,
		Repeat:  Repeat{PeriodX: 5, PeriodY: 6, OriginX: 1, OriginY: 2, DropNum: 1, DropDen: 2},
		Flaws:   []Rect{{X: 0, Y: 30, W: 20, H: 2}, {X: 17, Y: 0, W: 3, H: 4}},
		Windows: []int64{13},
		Demands: []Demand{
			{W: 4, H: 5, Count: 2, Turns: []int{0, 180}, MatchX: true, MatchY: true, MotifX: 1, MotifY: 2, Group: 1},
			{W: 30, H: 3, Count: 1, Turns: []int{0}, Join: &Join{AlongX: true, Allowance: 1, Least: 4, Most: 3}},
			{W: 2, H: 9, Count: 1, Turns: []int{0, 90}},
		},
		Laid: []Laid{
			{Demand: 0, Copy: 0, Segments: 1, Rect: Rect{0, 0, 4, 5}},             // motif at (1, 2)
			{Demand: 0, Copy: 1, Segments: 1, Rect: Rect{13, 8, 4, 5}, Turn: 180}, // motif at (16, 11): column 3, raised by 3
			{Demand: 1, Segment: 0, Segments: 2, Rect: Rect{0, 15, 16, 3}},
			{Demand: 1, Segment: 1, Segments: 2, Rect: Rect{0, 19, 16, 3}},
			{Demand: 2, Segments: 1, Rect: Rect{0, 10, 9, 2}, Turn: 90},
		},
		Seams: []Seam{{Demand: 1, At: 15}},
	}
}

func TestGood(t *testing.T) {
	require.NoError(t, Boxes(good()))
}

// Every kind of fault is put into a good layout and must be found.
func TestInjectedBoxFaults(t *testing.T) {
	for name, c := range map[string]struct {
		kind   string
		damage func(*Strip)
	}{
		"lost copy":           {KindMissing, func(s *Strip) { s.Laid = s.Laid[1:] }},
		"lost segment":        {KindMissing, func(s *Strip) { s.Laid = append(s.Laid[:3:3], s.Laid[4]) }},
		"laid twice":          {KindMissing, func(s *Strip) { s.Laid = append(s.Laid, s.Laid[4]) }},
		"unknown demand":      {KindMissing, func(s *Strip) { s.Laid[0].Demand = 9 }},
		"unknown copy":        {KindMissing, func(s *Strip) { s.Laid[0].Copy = 2 }},
		"bad segment":         {KindMissing, func(s *Strip) { s.Laid[2].Segment = 7 }},
		"two divisions":       {KindMissing, func(s *Strip) { s.Laid[2].Segments = 3 }},
		"smaller":             {KindSize, func(s *Strip) { s.Laid[0].W-- }},
		"turned size":         {KindSize, func(s *Strip) { s.Laid[4].Turn = 0 }},
		"forbidden turn":      {KindTurn, func(s *Strip) { s.Laid[2].Turn = 180 }},
		"left of the strip":   {KindOutside, func(s *Strip) { s.Laid[4].X = -1 }},
		"right of the strip":  {KindOutside, func(s *Strip) { s.Laid[4].X = 12 }},
		"below the strip":     {KindOutside, func(s *Strip) { s.Laid[0].Y = -1 }},
		"above the strip":     {KindOutside, func(s *Strip) { s.Laid[3].Y = 38 }},
		"overlap":             {KindOverlap, func(s *Strip) { s.Laid[3].Y = 17 }},
		"same place":          {KindOverlap, func(s *Strip) { s.Laid[3].Y = s.Laid[2].Y }},
		"closer than the gap": {KindOverlap, func(s *Strip) { s.Laid[3].Y = 18 }},
		"on a band":           {KindFlaw, func(s *Strip) { s.Laid[3].Y = 29 }},
		"on a corner flaw":    {KindFlaw, func(s *Strip) { s.Flaws[1] = Rect{16, 12, 1, 1} }},
		"off across":          {KindRepeat, func(s *Strip) { s.Laid[1].X-- }},
		"off along":           {KindRepeat, func(s *Strip) { s.Laid[1].Y++ }},
		"without its drop":    {KindRepeat, func(s *Strip) { s.Repeat.DropNum = 0 }},
		"other origin":        {KindRepeat, func(s *Strip) { s.Repeat.OriginY = 3 }},
		"spread":              {KindGroup, func(s *Strip) { s.Windows[0] = 12 }},
		"unknown group":       {KindGroup, func(s *Strip) { s.Demands[0].Group = 2 }},
		"seam moved":          {KindSize, func(s *Strip) { s.Seams[0].At = 14 }},
		"seam lost":           {KindSeam, func(s *Strip) { s.Seams = nil }},
		"seam too many":       {KindSeam, func(s *Strip) { s.Seams = append(s.Seams, Seam{1, 0, 20}) }},
		"seam of a whole":     {KindSeam, func(s *Strip) { s.Seams = append(s.Seams, Seam{2, 0, 2}) }},
		"seam of nothing":     {KindSeam, func(s *Strip) { s.Seams = append(s.Seams, Seam{7, 0, 2}) }},
		"segment too short":   {KindSeam, func(s *Strip) { s.Demands[1].Join.Least = 16 }},
		"must not be joined":  {KindSeam, func(s *Strip) { s.Demands[1].Join = nil }},
		"claims too little":   {KindLength, func(s *Strip) { s.Claimed = 21 }},
		"claims too much":     {KindLength, func(s *Strip) { s.Claimed = 23 }},
	} {
		t.Run(name, func(t *testing.T) {
			s := good()
			c.damage(s)
			var f *BoxFault
			err := Boxes(s)
			require.True(t, errors.As(err, &f), "not found")
			assert.Equal(t, c.kind, f.Kind, f.Error())
		})
	}
}

func TestEmpty(t *testing.T) {
	assert.NoError(t, Boxes(&Strip{}))
	assert.Error(t, Boxes(&Strip{Claimed: 1}))
}
