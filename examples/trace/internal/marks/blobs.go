package marks

import (
	"math"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// dark is the part of the mean light about a pixel under which it is dark.
const dark = 0.6

// run is a stretch of dark pixels in a row, from x0 up to and without x1.
type run struct{ y, x0, x1 int32 }

// blob is a dark thing, its holes filled row by row, by its moments: how many
// pixels, the centre, and the spread xx, xy, yy about it.
type blob struct {
	area, ink   float64
	x, y        float64
	xx, xy, yy  float64
	wide, tall  float64 // of the box round it
	left, upper float64
}

// darkRuns finds the pixels darker than the light about them: under the part
// dark of the mean of a square of 2 half + 1 pixels.
func darkRuns(p picture.Plane, half int) []run {
	w := p.W + 1
	// Sums run over and come round; differences of them are right all the same, as
	// a square holds less than 2^32.
	sum := make([]uint32, w*(p.H+1))
	for y := range p.H {
		var row uint32
		for x := range p.W {
			row += uint32(p.Pix[y*p.W+x])
			sum[(y+1)*w+x+1] = sum[y*w+x+1] + row
		}
	}
	var out []run
	for y := range p.H {
		y0, y1 := max(y-half, 0), min(y+half+1, p.H)
		above, below := sum[y0*w:], sum[y1*w:]
		from := -1
		for x := range p.W {
			x0, x1 := max(x-half, 0), min(x+half+1, p.W)
			s := below[x1] - below[x0] - above[x1] + above[x0]
			area := float64((x1 - x0) * (y1 - y0))
			if float64(p.Pix[y*p.W+x])*area < dark*float64(s) {
				if from < 0 {
					from = x
				}
				continue
			}
			if from >= 0 {
				out = append(out, run{int32(y), int32(from), int32(x)})
				from = -1
			}
		}
		if from >= 0 {
			out = append(out, run{int32(y), int32(from), int32(p.W)})
		}
	}
	return out
}

// forest joins runs to things.
type forest []int32

func (f forest) root(i int32) int32 {
	for f[i] != i {
		f[i] = f[f[i]]
		i = f[i]
	}
	return i
}

// join makes one thing of two; the one that began earlier gives it its number.
func (f forest) join(a, b int32) {
	a, b = f.root(a), f.root(b)
	if a < b {
		f[b] = a
	} else {
		f[a] = b
	}
}

// connected joins runs that touch each other, also by corners.
func connected(runs []run) forest {
	f := make(forest, len(runs))
	above := 0 // the first run of the row above that may touch
	for i := range runs {
		f[i] = int32(i)
		r := runs[i]
		for runs[above].y < r.y-1 || runs[above].y == r.y-1 && runs[above].x1 < r.x0 {
			above++
		}
		for k := above; k < i && runs[k].y == r.y-1 && runs[k].x0 <= r.x1; k++ {
			f.join(int32(k), int32(i))
		}
	}
	return f
}

// blobs measures the things that may be rings: their box from least to most
// pixels, its sides within 2.5 to 1, and ink in part of it.
func blobs(runs []run, least, most int32) []blob {
	f := connected(runs)
	type box struct{ x0, y0, x1, y1, n int32 }
	boxes := make(map[int32]*box)
	for i, r := range runs {
		k := f.root(int32(i))
		b := boxes[k]
		if b == nil {
			b = &box{r.x0, r.y, r.x1, r.y, 0}
			boxes[k] = b
		}
		b.x0, b.x1, b.y1 = min(b.x0, r.x0), max(b.x1, r.x1), r.y
		b.n += r.x1 - r.x0
	}
	spans := make(map[int32][][2]int32) // of the rows of those that may be rings
	var order []int32
	for i, r := range runs {
		k := f.root(int32(i))
		b := boxes[k]
		wide, tall := b.x1-b.x0, b.y1-b.y0+1
		long, short := max(wide, tall), min(wide, tall)
		if short < least || long > most || 2*long > 5*short || 20*b.n < 3*wide*tall || 20*b.n > 15*wide*tall {
			continue
		}
		s := spans[k]
		if s == nil {
			s = make([][2]int32, tall)
			order = append(order, k)
		}
		row := &s[r.y-b.y0]
		if row[1] == 0 {
			*row = [2]int32{r.x0, r.x1}
		} else {
			row[1] = max(row[1], r.x1)
		}
		spans[k] = s
	}
	out := make([]blob, 0, len(order))
	for _, k := range order {
		b := boxes[k]
		q := filled(spans[k], b.y0)
		q.ink, q.wide, q.tall, q.left, q.upper = float64(b.n), float64(b.x1-b.x0), float64(b.y1-b.y0+1), float64(b.x0), float64(b.y0)
		out = append(out, q)
	}
	return out
}

// filled gives the moments of rows of pixels, each from its first to its last.
func filled(rows [][2]int32, y0 int32) blob {
	var q blob
	for i, r := range rows {
		n := float64(r[1] - r[0])
		q.area += n
		q.x += float64(n * (float64(r[0]) + n/2))
		q.y += float64(n * (float64(y0) + float64(i) + 0.5))
	}
	q.x, q.y = q.x/q.area, q.y/q.area
	for i, r := range rows {
		n := float64(r[1] - r[0])
		dx, dy := float64(r[0])+n/2-q.x, float64(y0)+float64(i)+0.5-q.y
		q.xx += float64(n*dx*dx) + n*n*n/12
		q.xy += float64(n * dx * dy)
		q.yy += float64(n*dy*dy) + n/12
	}
	q.xx, q.xy, q.yy = q.xx/q.area, q.xy/q.area, q.yy/q.area
	return q
}

// filledRight tells whether the box of a thing is that of an ellipse of its area.
func (b blob) filledRight() bool {
	want := math.Pi / 4 * b.wide * b.tall
	// The box of a slanting ellipse is larger than that of one along the axes.
	return b.area > 0.5*want && b.area < 1.15*want
}
