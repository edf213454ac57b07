package camera

import "math"

// sway is how a place that is found at a pixel answers to the unknowns and to the
// pixel, in mm: the place P solves see(P, unknowns) = pixel, so that
//
//	dP = (∂see/∂P)⁻¹ (dpixel - ∂see/∂unknowns dunknowns)
type sway struct {
	par   [2][]float64
	pixel [2][2]float64
}

func (v *View) sway(at Point) sway {
	st := v.see(at.Sub(v.centre).Scale(v.factor))
	p := st.place
	det := float64(p[0][0]*p[1][1]) - float64(p[0][1]*p[1][0])
	inv := [2][2]float64{{p[1][1] / det, -p[0][1] / det}, {-p[1][0] / det, p[0][0] / det}}
	var out sway
	for e := range 2 {
		out.par[e] = make([]float64, len(v.par))
		for k := range plain {
			out.par[e][k] = -(float64(inv[e][0]*st.par[0][k]) + float64(inv[e][1]*st.par[1][k])) / v.factor
		}
		for k := range 2 {
			out.pixel[e][k] = inv[e][k] / float64(v.factor*v.half)
		}
	}
	return out
}

// spreadOf is the longer half axis of the ellipse of one standard deviation.
func (v *View) spreadOf(s sway, edge float64) float64 {
	var c [2][2]float64
	for i := range 2 {
		for j := range 2 {
			for k := range v.par {
				for l := range v.par {
					c[i][j] += float64(float64(s.par[i][k]*v.cov[k][l]) * s.par[j][l])
				}
			}
			c[i][j] += float64(float64(edge*edge) * (float64(s.pixel[i][0]*s.pixel[j][0]) + float64(s.pixel[i][1]*s.pixel[j][1])))
		}
	}
	mean, diff := (c[0][0]+c[1][1])/2, (c[0][0]-c[1][1])/2
	return math.Sqrt(math.Max(0, mean+math.Sqrt(float64(diff*diff)+float64(c[0][1]*c[0][1]))))
}

// SpreadAt is one standard deviation of a place in the axes of the first page, mm;
// edge is that of its pixel.
func (v *View) SpreadAt(at Point, edge float64) float64 { return v.spreadOf(v.sway(at), edge) }

// PixelSize is how long a pixel is at a place, mm: the mean of its sides.
func (v *View) PixelSize(at Point) float64 {
	p := v.sway(at).pixel
	return math.Sqrt(math.Abs(float64(p[0][0]*p[1][1]) - float64(p[0][1]*p[1][0])))
}

// SpreadOf is the largest standard deviation of the points of an outline, mm, after
// the move and the turn that the shape does not notice: with x, y from the centre
// of the points, what the unknowns do to all points is freed of its mean and of
// its part along (-y, x).
func (v *View) SpreadOf(points []Point, edge float64) float64 {
	n := float64(len(points))
	centre, _ := normal(points)
	arms := make([]Point, len(points))
	inertia := 0.0
	all := make([]sway, len(points))
	for i, p := range points {
		arms[i] = p.Sub(centre)
		inertia += arms[i].Dot(arms[i])
		all[i] = v.sway(p)
	}
	for k := range v.par {
		var mean Point
		turn := 0.0
		for i := range all {
			d := Point{all[i].par[0][k], all[i].par[1][k]}
			mean = mean.Add(d)
			turn += arms[i].Cross(d)
		}
		mean = mean.Scale(1 / n)
		if inertia > 0 {
			turn /= inertia
		}
		for i := range all {
			all[i].par[0][k] -= mean.X - float64(turn*arms[i].Y)
			all[i].par[1][k] -= mean.Y + float64(turn*arms[i].X)
		}
	}
	most := 0.0
	for i := range all {
		most = math.Max(most, v.spreadOf(all[i], edge))
	}
	return most
}

// Budget is how far an outline may be off at 95 %, in mm, by what causes it.
type Budget struct {
	Picture   float64 // where marks and outline are seen: three times the largest spread
	Scale     float64 // scale · L / 2, L the largest extent
	Thickness float64
}

// Budget works out the errors of an outline, given anticlockwise by its chords on
// the face of a thing of thickness t; edge is the spread of its points in the
// picture and scale how far that of the marks may be off. See photo.View.ErrorOf
// for the formulas.
func (v *View) Budget(ring []Point, edge, scale, t float64) Budget {
	cam := v.camera
	points := along(ring)
	extent, side := 0.0, 0.0
	for i, p := range points {
		for _, q := range points[:i] {
			extent = math.Max(extent, p.Away(q))
		}
		q := points[(i+1)%len(points)]
		// Outward normal (dy, -dx) of an edge of the anticlockwise outline.
		to := cam.Foot.Sub(p)
		n := to.Cross(q.Sub(p)) / math.Max(1e-9, p.Away(q))
		side = math.Max(side, t*n/cam.Height)
	}
	b := Budget{Scale: scale * extent / 2, Thickness: t*extent/(20*cam.Height) + side}
	if v.Known {
		for i, p := range points {
			points[i] = cam.Raise(p, t)
		}
		b.Picture = 3 * v.SpreadOf(points, edge)
	}
	return b
}

// along gives 128 points evenly round a ring.
func along(ring []Point) []Point {
	const n = 128
	corner := func(i int) Point { return ring[i%len(ring)] }
	total := 0.0
	for i := range ring {
		total += corner(i).Away(corner(i + 1))
	}
	out := make([]Point, 0, n)
	i, passed := 0, 0.0
	for k := range n {
		want := float64(total*float64(k)) / n
		for i < len(ring)-1 && passed+corner(i).Away(corner(i+1)) < want {
			passed += corner(i).Away(corner(i + 1))
			i++
		}
		a, b := corner(i), corner(i+1)
		f := 0.0
		if d := a.Away(b); d > 0 {
			f = (want - passed) / d
		}
		out = append(out, a.Add(b.Sub(a).Scale(f)))
	}
	return out
}
