package camera

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

const (
	// lensSpread is the standard deviation of the lens term before a picture is
	// looked at; mostLens the largest term that is believed.
	lensSpread = 0.02
	mostLens   = 0.12
	// leastSpread is how well the middle of a mark can be known at best, in pixels.
	leastSpread = 0.05
	// mostSpread is the residual in pixels beyond which marks are wrong.
	mostSpread = 1.0
	// Most are the most marks and pages of a view.
	Most = 400
)

// Options say what is known of the picture.
type Options struct {
	NoLens bool    // the picture has no lens term
	Spread float64 // standard deviation of a mark, in pixels; zero: from the residuals alone
	Place  float64 // standard deviation of the places of the marks, mm; zero: exact
	Disc   float64 // the square of the radius of the disc that a mark stands for, mm²; zero: a point
}

// Off is a mark that was left out, and how far it is off in pixels. Mark is -1
// when the whole page was.
type Off struct {
	Page, Mark int
	By         float64
}

// View is how a picture shows the plane of the first page.
type View struct {
	model
	width, height float64
	cov           [][]float64 // of the unknowns
	spread        float64     // standard deviation of a seen mark, in pixels, as the errors take it
	Sigma         float64     // the same from the residuals; zero when Spare is
	Spare         int         // measures beyond those needed
	Known         bool        // errors can be stated
	Off           []Off
	kept          []int   // pages
	back          matrix3 // from the picture to the plane
	sign          float64 // of what back makes of places in front of the camera
	camera        Camera
}

// set is the marks that take part: indices into the pages as given.
type set struct {
	pages [][]Mark
	use   [][]int // marks of each page; none when the page is out
}

func (s set) count() (marks, pages int) {
	for _, u := range s.use {
		if marks += len(u); len(u) > 0 {
			pages++
		}
	}
	return marks, pages
}

// without gives the set less one mark, or less a page when mark is -1.
func (s set) without(page, mark int) set {
	out := set{s.pages, append([][]int(nil), s.use...)}
	out.use[page] = nil
	for _, i := range s.use[page] {
		if mark >= 0 && i != mark {
			out.use[page] = append(out.use[page], i)
		}
	}
	return out
}

// Path names a mark, or a page when mark is -1.
func Path(page, mark int) unit.Path {
	p := unit.Path("pages").At(page)
	if mark < 0 {
		return p
	}
	return p.At(mark)
}

// See finds the view. Errors name "width", "height", "pages" or a mark such as
// "pages[0][3].seen".
func See(width, height int, pages [][]Mark, o Options) (*View, error) {
	if err := checkMarks(width, height, pages); err != nil {
		return nil, err
	}
	s := set{pages: pages, use: make([][]int, len(pages))}
	for i, p := range pages {
		for k := range p {
			s.use[i] = append(s.use[i], k)
		}
	}
	v := &View{width: float64(width), height: float64(height)}
	v.middle = Point{v.width / 2, v.height / 2}
	v.half = v.middle.Norm()
	f, err := fit(v.model, s, o)
	if err != nil {
		return nil, err
	}
	if o.Place > 0 { // a place that is off looks like a mark that is
		at := f.see(Point{}).place
		seen := float64(o.Place*f.factor*f.half) * math.Sqrt(math.Abs(float64(at[0][0]*at[1][1])-float64(at[0][1]*at[1][0])))
		o.Spread = geom.Hypot(o.Spread, seen)
	}
	limit := math.Max(mostSpread, 3*o.Spread)
	if f, s, v.Off, err = mend(v.model, f, s, o, limit); err != nil {
		return nil, err
	}
	if f.sigma > limit {
		page, mark, by := f.worst(s)
		return nil, check.Refuse(Path(page, mark).Dot("seen"), Pixels(by), ErrMisfit, "marks that fit a flat page to "+Pixels(limit)+": look at this mark, at its true place, and whether the page lies flat")
	}
	v.take(f, s, o)
	return v, v.check(s)
}

// take makes the view of a fit.
func (v *View) take(f *fitted, s set, o Options) {
	v.model, v.Spare = f.model, f.spare
	for j, u := range s.use {
		if len(u) > 0 {
			v.kept = append(v.kept, j)
		}
	}
	v.spread = math.Max(leastSpread, o.Spread)
	v.Known = o.Spread > 0 || f.spare > 0
	if f.spare > 0 {
		v.Sigma = f.sigma
		if o.Spread > 0 {
			v.spread = math.Max(v.spread, f.sigma)
		} else {
			v.spread = math.Max(v.spread, float64(f.sigma*student(f.spare))/student(0))
		}
	}
	v.cov = f.covariance(v.spread, o.NoLens)
	h := v.homography()
	v.back, v.sign, v.camera = h.adjugate(), h.det(), v.taken()
}

// check refuses views that no camera has.
func (v *View) check(s set) error {
	if k := v.par[lens]; math.Abs(k) > mostLens {
		return check.Refuse("pages", unit.Ratio(k).String(), ErrLens, "a lens that bends lines less: a camera that is not wide-angle, further away")
	}
	for j, u := range s.use {
		for _, i := range u {
			if st := v.see(v.placed(v.slot(j), s.pages[j][i].At)); !(st.depth > 0) {
				return check.Refuse(Path(j, i).Dot("seen"), "", ErrBehind, "a mark in front of the camera")
			}
		}
	}
	if v.homography().det() > 0 {
		return check.Refuse("pages", "", ErrMirrored, "a picture that is not mirrored, with places measured Y up")
	}
	return nil
}

// slot is the number of a page among those kept.
func (v *View) slot(page int) int {
	for i, j := range v.kept {
		if j == page {
			return i
		}
	}
	return -1
}

func (m *model) placed(page int, p Point) Point {
	q, _ := m.pose(page, p)
	return q
}

// student is the two-sided 95 % point of Student's distribution, and of the
// normal one for 0 and for more than the table has.
func student(freedom int) float64 {
	table := [...]float64{1.959964, 12.706205, 4.302653, 3.182446, 2.776445, 2.570582, 2.446912, 2.364624, 2.306004, 2.262157, 2.228139, 2.200985, 2.178813, 2.160369, 2.144787, 2.131450, 2.119905, 2.109816, 2.100922, 2.093024, 2.085963}
	if freedom < len(table) {
		return table[freedom]
	}
	return table[0] * (1 + 1.2/float64(freedom)) // 2.8 standard deviations of the spread of the table's end
}

// mend leaves out marks that do not fit the others, and a page that does not when
// there are others to say so.
func mend(m model, f *fitted, s set, o Options, limit float64) (*fitted, set, []Off, error) {
	var off []Off
	marks, pages := s.count()
	if pages > 2 {
		if g, page := leavePageOut(m, f, s, o, limit); g != nil {
			by := f.sigma
			if page == 0 {
				return nil, s, nil, check.Refuse(Path(0, -1), Pixels(by), ErrMisfit, "a first page that lies flat in the plane of the others and has their scale")
			}
			f, s, off = g, s.without(page, -1), append(off, Off{page, -1, by})
		}
	}
	for range marks / 4 {
		left := f.spare - 2
		if left < 2 || !telling(f.squares, f.squares-f.share(s, o), left, 30, o) {
			break
		}
		g, page, mark := leaveOneOut(m, f, s, o)
		if g == nil || !telling(f.squares, g.squares, left, float64(marks)*1e3, o) {
			break
		}
		s = s.without(page, mark)
		off = append(off, Off{page, mark, g.miss(s, page, mark)})
		f = g
	}
	return f, s, off, nil
}

// leavePageOut finds the page without which the others fit three times as well, and
// well enough, where no single mark explains that.
func leavePageOut(m model, f *fitted, s set, o Options, limit float64) (best *fitted, page int) {
	least := math.Max(leastSpread, o.Spread)
	if f.sigma < 3*least {
		return nil, 0
	}
	for j, u := range s.use {
		if len(u) == 0 {
			continue
		}
		if g, err := fit(m, s.without(j, -1), o); err == nil && g.spare > 1 && g.sigma <= limit && 3*g.sigma < f.sigma && (best == nil || g.sigma < best.sigma) {
			best, page = g, j
		}
	}
	if best == nil {
		return nil, 0
	}
	if g, _, _ := leaveOneOut(m, f, s, o); g != nil && g.sigma <= 2*math.Max(least, best.sigma) {
		return nil, 0
	}
	return best, page
}

// telling says whether it is by chance, one in so many, that the squares grow less by
// what a mark takes away. The share F of the mark, against what is left, has
// P(F > x) = (1 + 2x/n)^(-n/2) with 2 and n degrees of freedom.
func telling(all, without float64, left int, oneIn float64, o Options) bool {
	n := float64(left)
	rest := math.Max(math.Max(0, without)/n, math.Max(leastSpread*leastSpread, float64(o.Spread*o.Spread)))
	share, odds := (all-without)/2/rest, 1.0
	for range left {
		odds *= 1 + 2*share/n
	}
	return odds >= float64(oneIn*oneIn)
}

// leaveOneOut finds the mark without which the others fit best, among the dozen
// that fit worst.
func leaveOneOut(m model, f *fitted, s set, o Options) (best *fitted, page, mark int) {
	for _, c := range f.dozen(s) {
		if len(s.use[c.Page]) <= 2 {
			continue
		}
		if g, err := fit(m, s.without(c.Page, c.Mark), o); err == nil && (best == nil || g.squares < best.squares) {
			best, page, mark = g, c.Page, c.Mark
		}
	}
	return best, page, mark
}

// rigid gives the turn (sine, cosine) and the move that bring the points from
// nearest to the points to: P -> R P + t, by least squares.
func rigid(from, to []Point) (sin, cos float64, move Point) {
	a, _ := normal(from)
	b, _ := normal(to)
	var s, c float64
	for i := range from {
		p, q := from[i].Sub(a), to[i].Sub(b)
		s, c = s+p.Cross(q), c+p.Dot(q)
	}
	l := geom.Hypot(s, c)
	if l == 0 {
		return 0, 1, b.Sub(a)
	}
	sin, cos = s/l, c/l
	return sin, cos, b.Sub(a.Turned(sin, cos))
}
