package thread_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// even is a seam as thick as its stitch is long: each thread takes exactly two
// metres to the metre.
func even(name string, length unit.Length) thread.Seam {
	return thread.Seam{Name: name, Length: length, Thickness: 4 * unit.Millimetre, Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre}
}

const m = unit.Metre

func TestBobbinChanges(t *testing.T) {
	change := func(seam, row int, at unit.Length, bobbin int, name string) thread.BobbinChange {
		return thread.BobbinChange{Seam: seam, Name: name, Row: row, At: at, Bobbin: bobbin}
	}
	rows := even("rows", 2*m)
	rows.Rows = 3
	chain := even("chain", 10*m)
	chain.Stitch = thread.Chainstitch401
	tacked := even("tacked", 2*m)
	tacked.BackTack = 100 * unit.Millimetre
	closed := tacked
	closed.Closed = true

	for name, c := range map[string]struct {
		sewing  thread.Sewing
		changes []thread.BobbinChange
		needle  unit.Length
		under   unit.Length
		left    unit.Length
	}{
		"10 m take 20 m: four bobbins of 5 m to the end": {
			thread.Sewing{Seams: []thread.Seam{even("long", 10*m)}, Bobbin: 5 * m},
			[]thread.BobbinChange{change(0, 1, 2500*unit.Millimetre, 2, "long"), change(0, 1, 5*m, 3, "long"), change(0, 1, 7500*unit.Millimetre, 4, "long")},
			20 * m, 20 * m, 0,
		},
		"two seams of 4 m thread: the second runs out half a metre on": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2*m), even("b", 2*m)}, Bobbin: 5 * m},
			[]thread.BobbinChange{change(1, 1, 500*unit.Millimetre, 2, "b")},
			8 * m, 8 * m, 2 * m,
		},
		"the same, rows kept whole: changed before the second": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2*m), even("b", 2*m)}, Bobbin: 5 * m, KeepWhole: true},
			[]thread.BobbinChange{change(1, 1, 0, 2, "b")},
			8 * m, 8 * m, 2 * m,
		},
		"a row that takes a whole bobbin is kept whole": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2*m), even("b", 2500*unit.Millimetre)}, Bobbin: 5 * m, KeepWhole: true},
			[]thread.BobbinChange{change(1, 1, 0, 2, "b")},
			9 * m, 9 * m, m,
		},
		"a bobbin that is just empty is changed before the next seam": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2*m), even("b", 2*m)}, Bobbin: 4 * m},
			[]thread.BobbinChange{change(1, 1, 0, 2, "b")},
			8 * m, 8 * m, 0,
		},
		"0.4 m are left, what the tack before the seam takes: changed before it": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2300*unit.Millimetre), tacked}, Bobbin: 5 * m, Restart: 100 * unit.Millimetre},
			[]thread.BobbinChange{change(1, 1, 0, 2, "tacked")},
			9400 * unit.Millimetre, 9400 * unit.Millimetre, 600 * unit.Millimetre, // 0.4 m of the one, 0.2 m of the other
		},
		"a join restarts 100 mm back: 0.2 m more of each thread": {
			thread.Sewing{Seams: []thread.Seam{even("a", 4*m)}, Bobbin: 5 * m, Restart: 100 * unit.Millimetre},
			[]thread.BobbinChange{change(0, 1, 2500*unit.Millimetre, 2, "a")},
			8200 * unit.Millimetre, 8200 * unit.Millimetre, 1800 * unit.Millimetre,
		},
		"a second join, since the first took 0.2 m of the second bobbin": {
			thread.Sewing{Seams: []thread.Seam{even("a", 5*m)}, Bobbin: 5 * m, Restart: 100 * unit.Millimetre},
			[]thread.BobbinChange{change(0, 1, 2500*unit.Millimetre, 2, "a"), change(0, 1, 4900*unit.Millimetre, 3, "a")},
			10400 * unit.Millimetre, 10400 * unit.Millimetre, 4600 * unit.Millimetre,
		},
		"tails of 50 mm at both ends of the row and of the join": {
			thread.Sewing{Seams: []thread.Seam{even("a", 4*m)}, Bobbin: 5 * m, Tail: 50 * unit.Millimetre},
			[]thread.BobbinChange{change(0, 1, 2475*unit.Millimetre, 2, "a")},
			8200 * unit.Millimetre, 8200 * unit.Millimetre, 1800 * unit.Millimetre,
		},
		"three rows, the third starts the second bobbin": {
			thread.Sewing{Seams: []thread.Seam{rows}, Bobbin: 8 * m},
			[]thread.BobbinChange{change(0, 3, 0, 2, "rows")},
			12 * m, 12 * m, 4 * m,
		},
		"loopers take no bobbin": {
			thread.Sewing{Seams: []thread.Seam{chain}, Bobbin: 5 * m},
			nil, 30 * m, 30 * m, 0,
		},
		"back-tacks of 100 mm are sewn twice more at both ends": {
			thread.Sewing{Seams: []thread.Seam{tacked}, Bobbin: 20 * m},
			nil, 4800 * unit.Millimetre, 4800 * unit.Millimetre, 15200 * unit.Millimetre,
		},
		"a closed seam runs on 100 mm": {
			thread.Sewing{Seams: []thread.Seam{closed}, Bobbin: 20 * m},
			nil, 4200 * unit.Millimetre, 4200 * unit.Millimetre, 15800 * unit.Millimetre,
		},
		"waste of a quarter": {
			thread.Sewing{Seams: []thread.Seam{even("a", 2*m)}, Bobbin: 20 * m, Waste: 0.25},
			nil, 5 * m, 5 * m, 15 * m,
		},
	} {
		t.Run(name, func(t *testing.T) {
			c2, err := thread.Total(c.sewing)
			require.NoError(t, err)
			assert.Equal(t, c.changes, c2.Changes)
			assert.Equal(t, c.needle, c2.Needle)
			assert.Equal(t, c.under, c2.Under)
			assert.Equal(t, c.left, c2.Left)
			assert.Equal(t, c.needle+c.under, c2.Total)
		})
	}
}

func TestStitchesAndCones(t *testing.T) {
	s := even("a", 2*m)
	s.Rows, s.BackTack = 2, 20*unit.Millimetre
	c, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s}, Cone: 8 * m})
	require.NoError(t, err)
	assert.Equal(t, 2*520, c.Seams[0].Stitches, "2 m and 80 mm of back-tack in stitches of 4 mm, two rows")
	assert.Equal(t, 2*2080*unit.Millimetre*2, c.Needle)
	assert.Equal(t, [3]int{3, 2, 2}, [3]int{c.Cones, c.NeedleCones, c.UnderCones}, "16.64 m together, 8.32 m each")
}

// The lock can lie off the middle; what one thread saves the other takes.
func TestBalance(t *testing.T) {
	s := even("a", m)
	s.Balance = 0.75
	u, err := thread.Consume(s)
	require.NoError(t, err)
	assert.Equal(t, 2500*unit.Millimetre, u.Needle)
	assert.Equal(t, 1500*unit.Millimetre, u.Under)
	s.Balance = 1
	u, err = thread.Consume(s)
	require.NoError(t, err)
	assert.Equal(t, 3*m, u.Needle)
	assert.Equal(t, m, u.Under)
}

// Compression by half is thickness by half; the thread adds its diameter once
// to each crossing.
func TestCompressionAndDiameter(t *testing.T) {
	s := even("a", m)
	s.Compression = 0.5
	u, err := thread.Consume(s)
	require.NoError(t, err)
	assert.Equal(t, 1500*unit.Millimetre, u.Needle)
	s.Thread = thread.Size92 // 0.34 mm on 250 stitches
	u, err = thread.Consume(s)
	require.NoError(t, err)
	assert.Equal(t, 1585*unit.Millimetre, u.Needle)
	assert.Equal(t, 1585*unit.Millimetre, u.Under)
}

// Rows that are kept whole take a bobbin each here; more of them than are
// counted are refused, as is a row that alone takes as many.
func TestMoreBobbinsThanAreCounted(t *testing.T) {
	hundred := even("rows", 2*m)
	hundred.Rows = 100
	w := thread.Sewing{Bobbin: 5 * m, KeepWhole: true}
	for range 100 {
		w.Seams = append(w.Seams, hundred)
	}
	c, err := thread.Total(w)
	require.NoError(t, err)
	assert.Equal(t, 10_000, c.Bobbins)
	assert.Len(t, c.Changes, 9_999)
	assert.Equal(t, 10_000*m, c.Left, "a metre in each")
	w.Seams = append(w.Seams, even("one more", 2*m))
	_, err = thread.Total(w)
	assertField(t, err, "seams[100].bobbin", unit.ErrRange)
	assert.ErrorContains(t, err, "a bobbin that lasts")
}

// The most seams that are taken, in goods that take five lengths of each thread:
// both threads can be counted, their sum cannot.
func TestThreadBeyondCounting(t *testing.T) {
	s := thread.Seam{Length: 1000 * m, Thickness: 16 * unit.Millimetre, Stitch: thread.Lockstitch301, StitchLength: 4 * unit.Millimetre, Rows: 100}
	w := thread.Sewing{Seams: slices.Repeat([]thread.Seam{s}, 10_000)}
	_, err := thread.Total(w)
	assertField(t, err, "seams", unit.ErrOverflow)
	for i := range w.Seams {
		w.Seams[i].Rows = 90
	}
	c, err := thread.Total(w)
	require.NoError(t, err)
	assert.Equal(t, 4_500_000_000*m, c.Needle)
	w.Seams[0].Thickness = 0
	_, err = thread.Total(w)
	assertField(t, err, "seams[0].thickness", unit.ErrRange)
	// Where the lock lies off the middle of 40 mm, one thread takes 16 lengths, the
	// other 6: that one alone cannot be counted.
	s.Thickness = 40 * unit.Millimetre
	for _, balance := range []unit.Ratio{0.25, 0.75} {
		s.Balance = balance
		_, err = thread.Total(thread.Sewing{Seams: slices.Repeat([]thread.Seam{s}, 10_000)})
		assertField(t, err, "seams", unit.ErrOverflow)
	}
}

// A join that takes more than a bobbin holds is refused as such.
func TestJoinsLargerThanABobbin(t *testing.T) {
	w := thread.Sewing{Seams: []thread.Seam{even("a", 5*m)}, Bobbin: m, Tail: 500 * unit.Millimetre, Restart: 20 * unit.Millimetre}
	_, err := thread.Total(w)
	assertField(t, err, "seams[0].bobbin", unit.ErrRange)
	assert.ErrorContains(t, err, "more than tails and restart take, 1040 mm")
	w.Tail, w.Restart = 500*unit.Millimetre, 0
	_, err = thread.Total(w)
	assert.ErrorContains(t, err, "more than tails and restart take, 1000 mm")
}

// What has no under thread takes none, not for its tails either.
func TestNoUnderThread(t *testing.T) {
	s := even("hand", 2*m)
	s.Stitch = thread.Saddle209
	c, err := thread.Total(thread.Sewing{Seams: []thread.Seam{s}, Tail: 50 * unit.Millimetre})
	require.NoError(t, err)
	assert.Zero(t, c.Under)
	assert.Equal(t, c.Needle, c.Total)
	_, err = thread.LineForce(math.NaN()).MarshalText()
	require.ErrorIs(t, err, unit.ErrNotFinite)
	r := thread.NeedleRange{From: 90, To: 110}
	for n, in := range map[thread.Needle]bool{80: false, 90: true, 100: true, 110: true, 120: false} {
		assert.Equal(t, in, r.Contains(n), n)
	}
}
