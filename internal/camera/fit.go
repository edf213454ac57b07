package camera

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
)

// fitted is a model with its misfit.
type fitted struct {
	model
	normal  [][]float64 // Jᵀ J of the marks, in pixels
	squares float64     // of the residuals in pixels
	spare   int         // measures less unknowns; what is known of the lens counts as one
	sigma   float64     // root of squares by spare; zero when there is nothing to spare
	slots   []int       // the place of each page among those that take part, or -1
}

// fit finds the model of the marks of s: a first guess page by page, then
// damped least squares over all unknowns, twice, since the weight of what is
// known of the lens follows from the spread of the marks.
func fit(m model, s set, o Options) (*fitted, error) {
	f := &fitted{model: m, slots: make([]int, len(s.use))}
	n, pages := s.count()
	f.spare = 2*n - lens - perPage*(pages-1)
	if err := f.guess(s); err != nil {
		return nil, err
	}
	weight := math.Max(0.1, o.Spread)
	for range 2 {
		if err := f.descend(s, o, weight/lensSpread); err != nil {
			return nil, err
		}
		if f.spare > 0 {
			weight = math.Max(leastSpread, math.Max(o.Spread, f.sigma))
		}
	}
	return f, nil
}

// guess gives first values to all unknowns: the homography of the page with most
// marks, and with it the places of the other pages.
func (f *fitted) guess(s set) error {
	base, slot := -1, 0
	for j, u := range s.use {
		f.slots[j] = -1
		if len(u) > 0 {
			f.slots[j] = slot
			slot++
		}
		if base < 0 || len(u) > len(s.use[base]) {
			base = j
		}
	}
	at, seen := s.points(base)
	for i := range seen {
		seen[i] = f.unit(seen[i])
	}
	if !spreadOut(at) || !spreadOut(seen) {
		return check.Refuse(Path(base, -1), "", ErrDegenerate, "a page with four marks of which no three are nearly in line")
	}
	h, ok := direct(at, seen)
	if !ok {
		return check.Refuse(Path(base, -1), "", ErrDegenerate, "marks that fix a plane")
	}
	// Where each page lies in the axes of the base.
	back := h.adjugate()
	type lie struct {
		sin, cos float64
		move     Point
	}
	var lies []lie
	var all []Point
	f.means = nil
	for j, u := range s.use {
		if len(u) == 0 {
			continue
		}
		at, seen := s.points(j)
		there := make([]Point, len(at))
		for i := range seen {
			there[i], _ = back.point(f.unit(seen[i]))
		}
		l := lie{0, 1, Point{}}
		if j != base {
			l.sin, l.cos, l.move = rigid(at, there)
		}
		lies = append(lies, l)
		c, _ := normal(at)
		f.means = append(f.means, c)
		for _, p := range at { // in the axes of the first page
			p = p.Turned(l.sin, l.cos).Add(l.move).Sub(lies[0].move).Turned(-lies[0].sin, lies[0].cos)
			all = append(all, p)
		}
	}
	f.centre, f.factor = normal(all)
	if f.factor == 0 || math.IsNaN(f.factor) {
		return check.Refuse(Path(base, -1), "", ErrDegenerate, "marks that fix a plane")
	}
	first := lies[0]
	inFirst := matrix3{{first.cos, -first.sin, first.move.X}, {first.sin, first.cos, first.move.Y}, {0, 0, 1}}
	inFirst = h.times(inFirst).times(matrix3{{1 / f.factor, 0, f.centre.X}, {0, 1 / f.factor, f.centre.Y}, {0, 0, 1}})
	w := inFirst[2][2]
	if math.Abs(w) < 1e-12 {
		return check.Refuse("pages", "", ErrBehind, "marks in front of the camera")
	}
	f.par = make([]float64, plain+perPage*(len(lies)-1))
	for i := range lens {
		f.par[i] = inFirst[i/3][i%3] / w
	}
	for j, l := range lies[1:] {
		c := f.means[j+1].Turned(l.sin, l.cos).Add(l.move).Sub(first.move).Turned(-first.sin, first.cos)
		q := c.Sub(f.centre).Scale(f.factor)
		turn := geom.Atan2(l.sin, l.cos) - geom.Atan2(first.sin, first.cos)
		copy(f.par[plain+perPage*j:], []float64{turn, q.X, q.Y})
	}
	return nil
}

// points gives the marks of a page that take part.
func (s set) points(page int) (at, seen []Point) {
	for _, i := range s.use[page] {
		at, seen = append(at, s.pages[page][i].At), append(seen, s.pages[page][i].Seen)
	}
	return at, seen
}

// equations are the sum of the squares of the residuals, and the normal equations
// Jᵀ J and Jᵀ r.
func (f *fitted) equations(s set, o Options) (squares float64, a [][]float64, b []float64) {
	n := len(f.par)
	a, b = square(n), make([]float64, n)
	rows := [2][]float64{make([]float64, n), make([]float64, n)}
	for j, u := range s.use {
		used := f.used(f.slots[j])
		for _, i := range u {
			r := f.residual(f.slots[j], s.pages[j][i], o, &rows)
			squares += r.Dot(r)
			for e, miss := range [2]float64{r.X, r.Y} {
				row := rows[e]
				for k, x := range used {
					b[x] += float64(row[x] * miss)
					for _, y := range used[:k+1] {
						a[x][y] += float64(row[x] * row[y])
					}
				}
			}
		}
	}
	for x := range n {
		for y := range x {
			a[y][x] = a[x][y]
		}
	}
	return squares, a, b
}

// used lists the unknowns that a mark of a page answers to, in rising order.
func (f *fitted) used(slot int) []int {
	out := []int{0, 1, 2, 3, 4, 5, 6, 7, 8}
	if slot > 0 {
		at := plain + perPage*(slot-1)
		out = append(out, at, at+1, at+2)
	}
	return out
}

// residual is what a mark is off, seen less computed, in pixels. It sets how the
// computed place answers to the unknowns of used, when rows are given.
func (f *fitted) residual(slot int, m Mark, o Options, rows *[2][]float64) Point {
	q, byTurn := f.pose(slot, m.At)
	st := f.see(f.middleOf(q, o.Disc))
	for e := range 2 {
		if rows == nil {
			break
		}
		row, d := rows[e], st.place[e]
		for k, x := range st.par[e] {
			row[k] = float64(f.half * x)
		}
		if slot > 0 {
			at := plain + perPage*(slot-1)
			row[at] = float64(f.half * (float64(d[0]*byTurn.X) + float64(d[1]*byTurn.Y)))
			row[at+1], row[at+2] = float64(f.half*d[0]), float64(f.half*d[1])
		}
	}
	return m.Seen.Sub(f.pixel(st.seen))
}

// descend is the method of Levenberg and Marquardt, with the lens term held to
// zero by a spring of the given stiffness (pixels for a term of one).
func (f *fitted) descend(s set, o Options, spring float64) error {
	held := func(squares float64) float64 {
		k := float64(spring * f.par[lens])
		return squares + float64(k*k)
	}
	squares, a, b := f.equations(s, o)
	cost, damp := held(squares), 1e-3
	for range 60 {
		step := f.step(a, b, spring, damp, o.NoLens)
		if step == nil {
			return check.Refuse("pages", "", ErrDegenerate, "marks that fix the plane and where each page lies in it")
		}
		before := slices.Clone(f.par)
		size := 0.0
		for i, x := range step {
			f.par[i] += x
			size = math.Max(size, math.Abs(x))
		}
		tried, at, bt := f.equations(s, o)
		next := held(tried)
		if !(next <= cost) {
			if f.par = before; damp > 1e9 || size < 1e-12 {
				break
			}
			damp *= 10
			continue
		}
		done := size < 1e-12 || size < 1e-6 && cost-next <= 1e-13*cost
		squares, a, b, cost = tried, at, bt, next
		if damp = math.Max(damp/10, 1e-12); done {
			break
		}
	}
	f.squares, f.normal = squares, a
	if math.IsNaN(f.squares) || math.IsInf(f.squares, 0) {
		return check.Refuse("pages", "", ErrDegenerate, "marks that fix a plane")
	}
	f.sigma = 0
	if f.spare > 0 {
		f.sigma = math.Sqrt(f.squares / float64(f.spare))
	}
	return nil
}

// step solves the damped normal equations; nil when they cannot be.
func (f *fitted) step(a [][]float64, b []float64, spring, damp float64, noLens bool) []float64 {
	n := len(b)
	c := square(n)
	for i := range n {
		copy(c[i], a[i])
	}
	rhs := slices.Clone(b)
	c[lens][lens] += float64(spring * spring)
	rhs[lens] -= float64(float64(spring*spring) * f.par[lens])
	if noLens {
		c[lens] = make([]float64, n)
		for i := range n {
			c[i][lens] = 0
		}
		c[lens][lens], rhs[lens] = 1, 0
	}
	for i := range n {
		c[i][i] = float64(c[i][i] * (1 + damp))
	}
	x, ok := solve(c, rhs)
	if !ok {
		return nil
	}
	return x
}

// covariance of the unknowns, for a spread of the marks in pixels.
func (f *fitted) covariance(spread float64, noLens bool) [][]float64 {
	n := len(f.par)
	c := square(n)
	for i := range n {
		for j := range n {
			c[i][j] = f.normal[i][j] / float64(spread*spread)
		}
	}
	c[lens][lens] += 1 / (lensSpread * lensSpread)
	if noLens {
		c[lens][lens] += 1e18
	}
	out, ok := inverse(c)
	if !ok {
		return nil
	}
	return out
}

// share is the largest part of the squares that goes when a mark is left out, to
// first order: with r what it is off and H how far the fit follows it,
// rᵀ (1 - H)⁻¹ r.
func (f *fitted) share(s set, o Options) float64 {
	c := f.covariance(1, o.NoLens)
	if c == nil {
		return 0
	}
	most := 0.0
	rows := [2][]float64{make([]float64, len(f.par)), make([]float64, len(f.par))}
	for j, u := range s.use {
		used := f.used(f.slots[j])
		for _, i := range u {
			r := f.residual(f.slots[j], s.pages[j][i], o, &rows)
			var h [2][2]float64
			for a := range 2 {
				for b := range 2 {
					for _, x := range used {
						for _, y := range used {
							h[a][b] += float64(float64(rows[a][x]*c[x][y]) * rows[b][y])
						}
					}
				}
			}
			p, q, x := 1-h[0][0], 1-h[1][1], h[0][1]
			if det := float64(p*q) - float64(x*x); det > 1e-9 {
				most = math.Max(most, (float64(r.X*float64(q*r.X))+float64(r.Y*float64(p*r.Y))+2*float64(x*float64(r.X*r.Y)))/det)
			}
		}
	}
	return most
}

// miss is how far a mark is off, in pixels; s need not hold it, but its page.
func (f *fitted) miss(s set, page, mark int) float64 {
	return f.residual(f.slots[page], s.pages[page][mark], Options{}, nil).Norm()
}

// dozen lists the marks that fit worst, the worst first.
func (f *fitted) dozen(s set) []Off {
	var all []Off
	for j, u := range s.use {
		for _, i := range u {
			all = append(all, Off{j, i, f.miss(s, j, i)})
		}
	}
	slices.SortStableFunc(all, func(a, b Off) int { return cmp.Compare(b.By, a.By) })
	return all[:min(12, len(all))]
}

func (f *fitted) worst(s set) (page, mark int, by float64) {
	w := f.dozen(s)[0]
	return w.Page, w.Mark, w.By
}
