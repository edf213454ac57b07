package thread

import (
	"fmt"
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Sewing is a list of seams in the order they are sewn, with the habits of
// the shop.
type Sewing struct {
	Seams []Seam `json:"seams"`
	// Tail is the thread left at each end of every row, in each thread, 0 to
	// 500 mm.
	Tail unit.Length `json:"tail,omitempty"`
	// Waste is added for thread breaks, tests and repairs, 0 to 100 %. In
	// common use are 10 to 15 %, some say 15 to 20 %.
	Waste unit.Ratio `json:"waste,omitempty"`
	// Restart is stitched over again where a row is taken up after the
	// bobbin ran out, 0 to 200 mm; published are 1/2 in to 1 in.
	Restart unit.Length `json:"restart,omitempty"`
	// Bobbin is the thread on a full bobbin, see Bobbin.Holds; zero counts no
	// bobbins. At least 1 m.
	Bobbin unit.Length `json:"bobbin,omitempty"`
	// KeepWhole changes the bobbin before a row that it cannot finish when a
	// full one can, so that no row is joined without need.
	KeepWhole bool `json:"keep_whole,omitempty"`
	// Cone is the thread on a full cone, see ConeLength; zero counts no
	// cones. At least 1 m.
	Cone unit.Length `json:"cone,omitempty"`
}

// Consumption is the thread a list of seams takes. Its seams say by their Kind what
// the figures are worth.
type Consumption struct {
	// Seams in the order given, tails, back-tacks, restarts and waste
	// included.
	Seams  []SeamUsage `json:"seams"`
	Needle unit.Length `json:"needle"`
	Under  unit.Length `json:"under"`
	Total  unit.Length `json:"total"`
	// Bobbins to wind and where they are changed. Only lockstitches take
	// bobbins.
	Bobbins int            `json:"bobbins,omitempty"`
	Changes []BobbinChange `json:"changes,omitempty"`
	// Left is the thread left on bobbins that were changed before they were
	// empty, and on the last one. It is not part of Total.
	Left unit.Length `json:"left,omitempty"`
	// Cones to buy when needle and under thread are the same.
	Cones int `json:"cones,omitempty"`
	// NeedleCones and UnderCones are the cones to buy when they differ.
	NeedleCones int `json:"needle_cones,omitempty"`
	UnderCones  int `json:"under_cones,omitempty"`
}

// SeamUsage is the thread of one seam of a list.
type SeamUsage struct {
	Name string `json:"name,omitempty"`
	// Stitches in all rows, back-tacks included.
	Stitches int `json:"stitches"`
	Usage
}

// BobbinChange says where a bobbin is changed.
type BobbinChange struct {
	// Seam is the index in the list, Name its name, Row counts from one.
	Seam int    `json:"seam"`
	Name string `json:"name,omitempty"`
	Row  int    `json:"row"`
	// At is the distance from the start of the seam line; zero is before the
	// row.
	At unit.Length `json:"at"`
	// Bobbin is the number of the new bobbin; the first is in the machine.
	Bobbin int `json:"bobbin"`
}

const (
	longTail    = 500 * unit.Millimetre
	smallest    = unit.Metre // bobbin and cone
	mostSeams   = 10_000
	mostBobbins = 10_000
	mostCones   = 1_000_000_000
)

// Total adds up the thread of a list of seams: every row with its tails,
// back-tacks and restarts, and waste on top. It winds bobbins in the order of
// the seams and says where they run out. Errors are *unit.InputError values that
// name the field, such as seams[2].thickness, and wrap unit.ErrRange,
// unit.ErrRequired, unit.ErrUnknown, unit.ErrForgottenUnit or
// unit.ErrOverflow.
func Total(w Sewing) (Consumption, error) {
	if err := w.check(); err != nil {
		return Consumption{}, err
	}
	m := machine{sewing: w, left: w.Bobbin}
	c := Consumption{Seams: make([]SeamUsage, 0, len(w.Seams))}
	for i, s := range w.Seams {
		u, err := m.sew(i, s)
		if err != nil {
			return Consumption{}, unit.InField("seams["+strconv.Itoa(i)+"]", err)
		}
		c.Seams = append(c.Seams, u)
		if c.Needle, err = c.Needle.Plus(u.Needle); err != nil {
			return Consumption{}, unit.InField("seams", err)
		}
		if c.Under, err = c.Under.Plus(u.Under); err != nil {
			return Consumption{}, unit.InField("seams", err)
		}
	}
	var err error
	if c.Total, err = c.Needle.Plus(c.Under); err != nil {
		return Consumption{}, unit.InField("seams", err)
	}
	if m.wound {
		c.Bobbins = len(m.changes) + 1
		c.Changes = m.changes
		c.Left = m.spare + m.left
	}
	if w.Cone > 0 {
		if c.Total/w.Cone >= mostCones {
			return Consumption{}, check.Refuse("cone", w.Cone.String(), unit.ErrRange, fmt.Sprintf("a cone that lasts: no more than %d are counted", mostCones))
		}
		c.Cones, c.NeedleCones, c.UnderCones = full(c.Total, w.Cone), full(c.Needle, w.Cone), full(c.Under, w.Cone)
	}
	return c, nil
}

// full gives how many full packages hold a length.
func full(l, pack unit.Length) int {
	n := l / pack
	if l%pack != 0 {
		n++
	}
	return int(n)
}

// machine is the sewing machine with the bobbin in it.
type machine struct {
	sewing  Sewing
	left    unit.Length // on the bobbin
	spare   unit.Length // on bobbins taken out early
	wound   bool        // a bobbin was used
	changes []BobbinChange
}

// sew sews all rows of one seam.
func (m *machine) sew(i int, s Seam) (SeamUsage, error) {
	r, err := s.rate()
	if err != nil {
		return SeamUsage{}, err
	}
	tacks := 2 * s.BackTack // sewn beyond the seam line at the start
	ends := tacks           // and at its end
	if s.Closed {
		tacks, ends = 0, s.BackTack
	}
	stitched := s.Length + tacks + ends
	restart := m.sewing.Restart
	var needle, under, again unit.Length
	for row := 1; row <= max(s.Rows, 1); row++ {
		joins := 0
		need := m.waste(2*m.sewing.Tail + perStitch(uint64(stitched), r.under, r.stitch))
		if s.bobbin() && m.sewing.Bobbin > 0 {
			w := rowWork{
				seam: i, name: s.Name, row: row, length: s.Length,
				need:    need,
				head:    m.waste(m.sewing.Tail + perStitch(uint64(tacks), r.under, r.stitch)),
				rejoin:  m.waste(2*m.sewing.Tail + perStitch(uint64(restart), r.under, r.stitch)),
				seamUse: m.waste(perStitch(uint64(s.Length), r.under, r.stitch)),
			}
			if joins, err = m.wind(w); err != nil {
				return SeamUsage{}, err
			}
		}
		joined := unit.Length(joins)
		needle += m.waste(2*m.sewing.Tail+perStitch(uint64(stitched), r.needle, r.stitch)) +
			joined*m.waste(2*m.sewing.Tail+perStitch(uint64(restart), r.needle, r.stitch))
		if r.under > 0 {
			under += need + joined*m.waste(2*m.sewing.Tail+perStitch(uint64(restart), r.under, r.stitch))
		}
		again += joined * restart
	}
	rows := unit.Length(max(s.Rows, 1))
	u := SeamUsage{Name: s.Name, Usage: r.usage(needle, under)}
	u.Stitches = int(rows)*full(stitched, s.StitchLength) + full(again, s.StitchLength)
	return u, nil
}

// bobbin tells whether the under thread comes from a bobbin.
func (s Seam) bobbin() bool { return s.Stitch == Lockstitch301 || s.Stitch == Zigzag304 }

// waste gives l with the share for waste, rounded up.
func (m *machine) waste(l unit.Length) unit.Length {
	if m.sewing.Waste == 0 {
		return l
	}
	return l + unit.Length(math.Ceil(float64(l)*float64(m.sewing.Waste)))
}

// rowWork is the bobbin thread of one row.
type rowWork struct {
	seam   int
	name   string
	row    int
	length unit.Length // of the seam line
	// need is what the whole row takes, head the part before the seam line
	// begins, seamUse the part along it, rejoin what each change in the row
	// adds.
	need, head, seamUse, rejoin unit.Length
}

// wind takes the thread of one row off the bobbin, changing it as needed, and
// gives how often the row is joined.
func (m *machine) wind(w rowWork) (joins int, err error) {
	m.wound = true
	if w.need > m.left && (m.left <= w.head || m.sewing.KeepWhole && w.need <= m.sewing.Bobbin) {
		if err := m.change(w, 0); err != nil {
			return 0, err
		}
	}
	done, cost := unit.Length(0), unit.Length(0)
	for w.need-done > m.left-cost {
		if w.rejoin >= m.sewing.Bobbin {
			return joins, check.Refuse("bobbin", m.sewing.Bobbin.String(), unit.ErrRange, "more than tails and restart take, "+w.rejoin.String())
		}
		done += m.left - cost
		cost = w.rejoin
		m.left = 0
		joins++
		if err := m.change(w, w.place(done)); err != nil {
			return joins, err
		}
	}
	m.left -= cost + w.need - done
	return joins, nil
}

// place gives the distance along the seam line at which the row has taken
// done of its bobbin thread.
func (w rowWork) place(done unit.Length) unit.Length {
	along := min(max(done-w.head, 0), w.seamUse)
	if w.seamUse == 0 {
		return 0
	}
	return perStitch(uint64(w.length), uint64(along), uint64(w.seamUse))
}

func (m *machine) change(w rowWork, at unit.Length) error {
	if len(m.changes)+2 > mostBobbins {
		return check.Refuse("bobbin", m.sewing.Bobbin.String(), unit.ErrRange, fmt.Sprintf("a bobbin that lasts: no more than %d are counted", mostBobbins))
	}
	m.spare += m.left
	m.left = m.sewing.Bobbin
	m.changes = append(m.changes, BobbinChange{Seam: w.seam, Name: w.name, Row: w.row, At: at, Bobbin: len(m.changes) + 2})
	return nil
}

func (w Sewing) check() error {
	if err := check.Count("number of seams", len(w.Seams), 1, mostSeams); err != nil {
		return err
	}
	if err := check.Length("tail", w.Tail, 0, longTail); err != nil {
		return err
	}
	if err := check.Ratio("waste", w.Waste, 0, 1); err != nil {
		return err
	}
	if err := check.Length("restart", w.Restart, 0, longTack); err != nil {
		return err
	}
	if w.Bobbin != 0 {
		if err := check.Length("bobbin", w.Bobbin, smallest, 100*check.Longest); err != nil {
			return err
		}
	}
	if w.Cone != 0 {
		return check.Length("cone", w.Cone, smallest, 100*check.Longest)
	}
	return nil
}
