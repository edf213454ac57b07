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
			c[i][j] += float64(edge*edge) * (float64(s.pixel[i][0]*s.pixel[j][0]) + float64(s.pixel[i][1]*s.pixel[j][1]))
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
