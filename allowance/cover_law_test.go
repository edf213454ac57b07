package allowance_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// staves draws a back of upright staves with a border along their foot, now and
// then a little longer, and now and then a cap along their top.
func staves(t *rapid.T) allowance.Cover {
	kinds := []allowance.SeamKind{allowance.PlainJoin, allowance.WeltedJoin, allowance.TopStitchedJoin, allowance.DoubleTopStitchedJoin, allowance.FelledJoin}
	kind := func(label string) allowance.SeamKind { return rapid.SampledFrom(kinds).Draw(t, label) }
	var b builder
	n := rapid.IntRange(1, 6).Draw(t, "staves")
	sum := 0.0
	var foot, head []string
	for i := range n {
		w := float64(rapid.IntRange(16, 96).Draw(t, "width")) / 8
		sum += w
		name := "stave " + string(rune('a'+i))
		b.panel(name, w, 20)
		foot = append(foot, name+".bottom")
		head = append([]string{name + ".top"}, head...)
		if i > 0 {
			b.sew(kind("stave"), "stave "+string(rune('a'+i-1))+".right", name+".left")
		}
	}
	ease := 1 + float64(rapid.IntRange(-8, 8).Draw(t, "ease"))/400
	b.panel("border", sum*ease, 6)
	b.sew(kind("border"), strings.Join(foot, " + "), "border.top")
	if rapid.Bool().Draw(t, "cap") {
		b.panel("cap", sum, 4)
		b.sew(allowance.GatheredJoin, strings.Join(head, " + "), "cap.bottom")
		b.c.Panels[len(b.c.Panels)-1].Outline = mustOutline(b.c.Panels[len(b.c.Panels)-1].Outline.Scaled(tapeInches(sum/1.5), 4*unit.Inch))
		for _, e := range []string{"left", "top", "right"} {
			b.fasten(allowance.PulledOver, "cap."+e)
		}
	} else {
		b.fasten(allowance.PulledOver, strings.Join(head, " + "))
	}
	b.fasten(allowance.StapledFlat, "stave a.left", "border")
	b.fasten(allowance.StapledFlat, "stave "+string(rune('a'+n-1))+".right", "border")
	b.fasten(allowance.Hemmed, "border.left")
	b.fasten(allowance.Hemmed, "border.right")
	b.fasten(allowance.TurnedBelow, "border.bottom")
	return b.c
}

// anyCover draws a cover that works.
func anyCover(t *rapid.T) allowance.Cover {
	if i := rapid.IntRange(-6, len(anatomies)-1).Draw(t, "anatomy"); i >= 0 {
		return anatomies[i].cover()
	}
	return staves(t)
}

func worked(t require.TestingT, c allowance.Cover) allowance.CoverWork {
	w, err := c.Work(sewnGoods())
	require.NoError(t, err)
	return w
}

// Both sides agree in length after ease: notches rise along the first side and
// fall along the others, and what one interval has more than that of the
// shortest side adds up to the whole difference.
func TestSidesAgreeAfterEase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, s := range worked(t, anyCover(t)).Seams {
			if len(s.Sides) < 2 || s.Ring {
				continue
			}
			first, last := s.Notches[0], s.Notches[len(s.Notches)-1]
			var runs []unit.Length
			for k := range s.Sides {
				runs = append(runs, max(last.At[k]-first.At[k], first.At[k]-last.At[k]))
				for i := 1; i < len(s.Notches); i++ {
					if step := s.Notches[i].At[k] - s.Notches[i-1].At[k]; (step > 0) != (k == 0) {
						t.Fatalf("%s: side %d steps by %s", s.Letter, k, step)
					}
				}
			}
			if d := slices.Max(runs) - slices.Min(runs); d != s.Match.Difference {
				t.Fatalf("%s: notches differ by %s, seam lines by %s", s.Letter, d, s.Match.Difference)
			}
			short := slices.Index(runs, slices.Min(runs))
			for i := 1; i < len(s.Notches); i++ {
				a := s.Notches[i].At[short] - s.Notches[i-1].At[short]
				for k := range runs {
					b := s.Notches[i].At[k] - s.Notches[i-1].At[k]
					// corners of both sides lie within 1/8 in of each other
					if max(b, -b)+unit.Inch/8 < max(a, -a) {
						t.Fatalf("%s: interval %d of side %d is shorter than that it is eased to", s.Letter, i, k)
					}
				}
			}
		}
	})
}

// Every seam is counted once, and the stitching is the sum over the seams.
func TestEverySeamIsCountedOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCover(t)
		w := worked(t, c)
		seen := map[string]bool{}
		sum := unit.Length(0)
		welts := map[string]unit.Length{}
		for _, r := range w.Welts {
			welts[r.Of] = r.Strip
		}
		for _, s := range w.Seams {
			if s.Letter == "" || seen[s.Letter] {
				t.Fatalf("letter %q twice", s.Letter)
			}
			seen[s.Letter] = true
			rows := map[allowance.SeamKind]unit.Length{allowance.PlainJoin: 1, allowance.WeltedJoin: 2, allowance.TopStitchedJoin: 2, allowance.DoubleTopStitchedJoin: 3,
				allowance.FelledJoin: 2, allowance.ZipJoin: unit.Length(len(s.Sides)), allowance.GatheredJoin: 1, allowance.HandJoin: 1}
			kind := c.Seams[s.Seam].Kind
			sum += rows[kind]*s.Sewn + welts[s.Letter]
			if kind == allowance.GatheredJoin {
				sum += 2 * max(s.Match.First, s.Match.Second)
			}
		}
		for _, r := range w.Rows {
			if r.Kind == allowance.HemRow {
				sum += r.Length
				steps := 0
				for _, s := range w.Sewing {
					if s.Do == allowance.HemEdge && slices.Contains(strings.Split(s.Seam, " + "), r.Of) {
						steps++
					}
				}
				if steps != 1 {
					t.Fatalf("%s is hemmed in %d steps", r.Of, steps)
				}
			}
		}
		for _, trim := range c.Trims {
			sum += trim.Length
		}
		if sum != w.Stitched() {
			t.Fatalf("seams give %s, rows %s", sum, w.Stitched())
		}
		closed := map[string]int{}
		for _, s := range w.Sewing {
			if s.Do == allowance.SewSeam || s.Do == allowance.SetZip || s.Do == allowance.CloseByHand {
				closed[s.Seam]++
			}
		}
		for letter := range seen {
			if closed[letter] != 1 {
				t.Fatalf("%s is closed %d times", letter, closed[letter])
			}
		}
	})
}

// The mirror image of a cover has the mirror images of its cuts.
func TestMirroredCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := staves(t)
		m := c
		m.Panels, m.Seams, m.Fastenings = slices.Clone(c.Panels), slices.Clone(c.Seams), slices.Clone(c.Fastenings)
		for i := range m.Panels {
			m.Panels[i].Outline = m.Panels[i].Outline.Mirrored()
		}
		back := func(s allowance.Side) allowance.Side {
			s = slices.Clone(s)
			slices.Reverse(s)
			return s
		}
		for i := range m.Seams {
			m.Seams[i].Sides = slices.Clone(m.Seams[i].Sides)
			for k, s := range m.Seams[i].Sides {
				m.Seams[i].Sides[k] = back(s)
			}
		}
		for i := range m.Fastenings {
			m.Fastenings[i].Side = back(m.Fastenings[i].Side)
		}
		a, b := worked(t, c), worked(t, m)
		if a.Stitched() != b.Stitched() {
			t.Fatalf("stitched %s and %s", a.Stitched(), b.Stitched())
		}
		for i := range a.Pieces {
			p, err := a.Pieces[i].Panel.Cut()
			require.NoError(t, err)
			q, err := b.Pieces[i].Panel.Cut()
			require.NoError(t, err)
			if p.Width != q.Width || p.Height != q.Height || p.Area != q.Area || len(p.Notches) != len(q.Notches) {
				t.Fatalf("%s: %s x %s with %d notches and %s x %s with %d", p.Name, p.Width, p.Height, len(p.Notches), q.Width, q.Height, len(q.Notches))
			}
			for _, n := range p.Notches {
				if !slices.ContainsFunc(q.Notches, func(o allowance.CutNotch) bool {
					return near(o.Seam.X, -n.Seam.X) && near(o.Seam.Y, n.Seam.Y) && near(o.Cut.X, -n.Cut.X) && near(o.Cut.Y, n.Cut.Y)
				}) {
					t.Fatalf("%s: the notch at %s has no mirror image", p.Name, n.Seam)
				}
			}
		}
	})
}

// near allows for places rounded from the other end.
func near(a, b unit.Length) bool { return max(a-b, b-a) <= 20 }

// The right one of a pair is the mirror image of the left.
func TestPairsAreMirrorImages(t *testing.T) {
	for _, a := range anatomies {
		w := worked(t, a.cover())
		for i, p := range w.Pieces {
			if p.Hand != allowance.LeftHand || a.name == "slip cover" { // which opens on one side only
				continue
			}
			k := slices.IndexFunc(w.Pieces[i:], func(q allowance.CoverPiece) bool { return q.Of == p.Of && q.Hand == allowance.RightHand })
			require.Positive(t, k)
			left, err := p.Panel.Cut()
			require.NoError(t, err)
			right, err := w.Pieces[i+k].Panel.Cut()
			require.NoError(t, err)
			low, high := p.Panel.Outline.Mirrored().Bounds()
			rl, rh := w.Pieces[i+k].Panel.Outline.Bounds()
			require.Equal(t, [2]any{low, high}, [2]any{rl, rh})
			require.Equal(t, left.Area, right.Area, p.Name)
			require.Equal(t, left.Width, right.Width, p.Name)
			for _, e := range left.Edges {
				require.True(t, slices.ContainsFunc(right.Edges, func(o allowance.PanelEdge) bool { return o == e }), "%s.%s", p.Name, e.Name)
			}
		}
	}
}

// Other names change nothing but names.
func TestRenamingPanels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCover(t)
		a := worked(t, c)
		b := worked(t, c.Nested("other"))
		if len(a.Pieces) != len(b.Pieces) || len(a.Rows) != len(b.Rows) {
			t.Fatal("other pieces or rows")
		}
		strip := func(s []string) []string {
			s = slices.Clone(s)
			for i := range s {
				s[i] = strings.TrimPrefix(s[i], "other.")
			}
			return s
		}
		for i, p := range a.Pieces {
			q := b.Pieces[i]
			for k := range q.Marks {
				q.Marks[k].To = strip(q.Marks[k].To)
			}
			for k := range q.Uses {
				u := &q.Uses[k]
				u.To, u.HiddenBy = strip(u.To), strip(u.HiddenBy)
			}
			q.Name, q.Of, q.Panel.Name = strings.TrimPrefix(q.Name, "other."), strings.TrimPrefix(q.Of, "other."), strings.TrimPrefix(q.Panel.Name, "other.")
			require.Equal(t, p, q)
		}
		for i, r := range a.Rows {
			b.Rows[i].Of = strings.TrimPrefix(b.Rows[i].Of, "other.")
			require.Equal(t, r, b.Rows[i])
		}
		for i, s := range a.Fitting {
			require.Equal(t, s.What, strip(b.Fitting[i].What))
		}
		for i, s := range a.Sewing {
			require.Equal(t, [2]any{s.Do, s.Seam}, [2]any{b.Sewing[i].Do, strings.TrimPrefix(b.Sewing[i].Seam, "other.")})
		}
	})
}

// No seam is closed before what it needs: the seams that bring its parts
// together, welt on it, its rows before what crosses them; a panel's lines come
// before its edges, and what is closed by hand comes last.
func TestSewingOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCover(t)
		w := worked(t, c)
		last, closed := map[string]int{}, map[string]int{}
		for i, s := range w.Sewing {
			last[s.Seam] = i
			if s.Do == allowance.SewSeam || s.Do == allowance.SetZip {
				closed[s.Seam] = i
			}
		}
		ends := func(side []string) [2]string { return [2]string{panelOf(side[0]), panelOf(side[len(side)-1])} }
		for _, s := range w.Seams {
			for _, side := range s.Sides {
				for i := 1; i < len(side); i++ {
					from, to := panelOf(side[i-1]), panelOf(side[i])
					if from == to {
						continue
					}
					// a seam that ends at this junction joins the two panels
					joined := false
					for _, by := range w.Seams {
						if by.Letter == s.Letter || len(by.Sides) < 2 {
							continue
						}
						for k, one := range by.Sides {
							for m, other := range by.Sides {
								if k != m && slices.Contains(panels(one), from) && slices.Contains(panels(other), to) {
									joined = true
									if ends(one) == [2]string{from, from} && ends(other) == [2]string{to, to} && last[by.Letter] > closed[s.Letter] {
										t.Fatalf("%s runs over the end of %s and is closed before it is done", s.Letter, by.Letter)
									}
								}
							}
						}
					}
					if !joined && c.Seams[s.Seam].Tape == "" && !zipped(c, w, from, to) {
						t.Fatalf("%s: nothing joins %s and %s", s.Letter, from, to)
					}
				}
			}
		}
	})
}

func panelOf(edge string) string { return edge[:strings.LastIndexByte(edge, '.')] }

func panels(side []string) []string {
	var out []string
	for _, e := range side {
		out = append(out, panelOf(e))
	}
	return out
}

func zipped(c allowance.Cover, w allowance.CoverWork, a, b string) bool {
	tapes := map[string][]string{}
	for _, s := range w.Seams {
		if tape := c.Seams[s.Seam].Tape; tape != "" {
			tapes[tape] = append(tapes[tape], panelOf(s.Sides[0][0]))
		}
	}
	for _, on := range tapes {
		if slices.Contains(on, a) && slices.Contains(on, b) {
			return true
		}
	}
	return false
}

// Nothing is fitted after what hides it, and everything is fitted once.
func TestFittingOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCover(t)
		// Panels in any order: it may not break the rule.
		order := rapid.Permutation(c.Panels).Draw(t, "panels")
		c.Panels = order
		w := worked(t, c)
		at := map[string]int{}
		for i, s := range w.Fitting {
			for _, edge := range s.What {
				if _, twice := at[edge]; twice {
					t.Fatalf("%s is fitted twice", edge)
				}
				at[edge] = i
			}
		}
		for _, f := range w.Fastenings {
			if k := c.Fastenings[f.Fastening].Kind; k == allowance.Hemmed || k == allowance.HookAndLoop {
				continue
			}
			mine, ok := at[f.Side[0]]
			if !ok {
				t.Fatalf("%s is not fitted", f.Side[0])
			}
			for edge, i := range at {
				if dot := strings.LastIndexByte(edge, '.'); dot >= 0 && slices.Contains(f.HiddenBy, edge[:dot]) && i < mine {
					t.Fatalf("%s is fitted after %s, which hides it", f.Side[0], edge)
				}
			}
		}
	})
}

// Pieces of two covers are twice those of one: a pair gives both hands to each.
func TestEveryCoverHasBothHands(t *testing.T) {
	one := wingChair()
	two := one.Nested("first").Joined(one.Nested("second"))
	hands := map[allowance.Hand]int{}
	for _, p := range worked(t, two).Pieces {
		hands[p.Hand]++
	}
	require.Equal(t, map[allowance.Hand]int{allowance.Either: 2 * 10, allowance.LeftHand: 2 * 5, allowance.RightHand: 2 * 5}, hands)
}

// Cover of 60 panels and 90 seams.
func bigCover() allowance.Cover {
	var b builder
	const n = 30
	var feet, heads []string
	for i := range n {
		name := "upper " + strconv.Itoa(i)
		b.panel(name, 6, 20)
		b.panel("lower "+strconv.Itoa(i), 6, 10)
	}
	for i := range n {
		next := (i + 1) % n
		b.sew(allowance.TopStitchedJoin, "upper "+strconv.Itoa(i)+".right", "upper "+strconv.Itoa(next)+".left")
		b.plain("lower "+strconv.Itoa(i)+".right", "lower "+strconv.Itoa(next)+".left")
		b.welted("upper "+strconv.Itoa(i)+".bottom", "lower "+strconv.Itoa(i)+".top")
		feet = append(feet, "lower "+strconv.Itoa(i)+".bottom")
		heads = append([]string{"upper " + strconv.Itoa(i) + ".top"}, heads...)
	}
	b.fasten(allowance.TurnedBelow, strings.Join(feet, " + "))
	b.fasten(allowance.PulledOver, strings.Join(heads, " + "))
	return b.c
}

func BenchmarkCoverWork(b *testing.B) {
	c, goods := bigCover(), sewnGoods()
	b.ReportAllocs()
	for b.Loop() {
		w, err := c.Work(goods)
		if err != nil || len(w.Pieces) != 60 || len(w.Seams) != 90 {
			b.Fatal(err)
		}
	}
}

func BenchmarkCoverWorkAndCut(b *testing.B) {
	c, goods := bigCover(), sewnGoods()
	for b.Loop() {
		w, err := c.Work(goods)
		if err != nil {
			b.Fatal(err)
		}
		for _, p := range w.Pieces {
			if _, err := p.Panel.Cut(); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A mark on a piece lies where its notch is along the side, and nowhere else: where
// a ring closes at its end as well as at its start.
func TestMarksLieAtTheirNotches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := worked(t, anyCover(t))
		pieces := map[string]allowance.CoverPiece{}
		for _, p := range w.Pieces {
			pieces[p.Name] = p
		}
		for _, s := range w.Seams {
			notch := map[string]allowance.CoverNotch{}
			for _, n := range s.Notches {
				notch[n.Label] = n
			}
			for k, side := range s.Sides {
				run, from := unit.Length(0), make([]unit.Length, len(side)+1)
				for i, name := range side {
					dot := strings.LastIndexByte(name, '.')
					l, err := pieces[name[:dot]].Panel.Outline.EdgeLength(name[dot+1:])
					if err != nil { // an inner line, which has no marks
						continue
					}
					run += l
					from[i+1] = run
				}
				for i, name := range side {
					dot := strings.LastIndexByte(name, '.')
					p := pieces[name[:dot]]
					for m, mark := range p.Marks {
						n, of := notch[mark.Label]
						if !of || p.Panel.Notches[m].Edge != name[dot+1:] {
							continue
						}
						at := from[i] + p.Panel.Notches[m].At
						want := n.At[k]
						closes := s.Ring && (near(want, 0) || near(want, run)) && (near(at, 0) || near(at, run))
						if !near(at, want) && !closes {
							t.Fatalf("%s is marked at %s of side %d, its notch is at %s", mark.Label, at, k, want)
						}
					}
				}
			}
		}
	})
}

// Every notch is marked on every side of its seam, where that side's place is.
func TestEveryNotchIsMarked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCover(t)
		w := worked(t, c)
		on := map[string]map[string]bool{} // label, then piece and edge
		for _, p := range w.Pieces {
			for i, m := range p.Marks {
				if on[m.Label] == nil {
					on[m.Label] = map[string]bool{}
				}
				on[m.Label][p.Name+"."+p.Panel.Notches[i].Edge] = true
			}
		}
		for _, s := range w.Seams {
			for _, n := range s.Notches {
				for k, side := range s.Sides {
					marked := slices.ContainsFunc(side, func(edge string) bool { return on[n.Label][edge] || strings.Contains(edge, ".line ") })
					if !marked {
						t.Fatalf("%s at %s of side %d is marked on none of %v", n.Label, n.At[k], k, side)
					}
				}
			}
		}
	})
}
