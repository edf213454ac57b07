package camera

import "math"

// matrix3 is a matrix of three rows and columns.
type matrix3 [3][3]float64

func (m matrix3) times(n matrix3) matrix3 {
	var out matrix3
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out[i][j] += float64(m[i][k] * n[k][j])
			}
		}
	}
	return out
}

func (m matrix3) apply(x, y, z float64) (float64, float64, float64) {
	f := func(r [3]float64) float64 { return float64(r[0]*x) + float64(r[1]*y) + float64(r[2]*z) }
	return f(m[0]), f(m[1]), f(m[2])
}

// adjugate gives the matrix whose product with m is det m times the unit matrix.
func (m matrix3) adjugate() matrix3 {
	var out matrix3
	for i := range 3 {
		for j := range 3 {
			a, b, c, d := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			out[i][j] = float64(m[a][c]*m[b][d]) - float64(m[a][d]*m[b][c])
		}
	}
	return out
}

func (m matrix3) det() float64 {
	a := m.adjugate()
	return float64(m[0][0]*a[0][0]) + float64(m[0][1]*a[1][0]) + float64(m[0][2]*a[2][0])
}

// cholesky gives the lower triangle L with L Lᵀ = a, and false when a is not
// positive definite. Rows and columns are scaled to a diagonal of one first, so
// that the unknowns may have any units.
func cholesky(a [][]float64) (l [][]float64, scale []float64, ok bool) {
	n := len(a)
	scale = make([]float64, n)
	for i := range n {
		if !(a[i][i] > 0) || math.IsInf(a[i][i], 1) {
			return nil, nil, false
		}
		scale[i] = 1 / math.Sqrt(a[i][i])
	}
	l = square(n)
	for i := range n {
		for j := 0; j <= i; j++ {
			s := float64(float64(a[i][j]*scale[i]) * scale[j])
			for k := range j {
				s -= float64(l[i][k] * l[j][k])
			}
			if i != j {
				l[i][j] = s / l[j][j]
				continue
			}
			if !(s > 1e-15) {
				return nil, nil, false
			}
			l[i][i] = math.Sqrt(s)
		}
	}
	return l, scale, true
}

// solve gives x with a x = b.
func solve(a [][]float64, b []float64) ([]float64, bool) {
	l, scale, ok := cholesky(a)
	if !ok {
		return nil, false
	}
	n := len(b)
	x := make([]float64, n)
	for i := range n {
		s := float64(b[i] * scale[i])
		for k := range i {
			s -= float64(l[i][k] * x[k])
		}
		x[i] = s / l[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		s := x[i]
		for k := i + 1; k < n; k++ {
			s -= float64(l[k][i] * x[k])
		}
		x[i] = s / l[i][i]
	}
	for i := range x {
		x[i] = float64(x[i] * scale[i])
	}
	return x, true
}

// inverse gives the inverse of a positive definite matrix.
func inverse(a [][]float64) ([][]float64, bool) {
	n := len(a)
	out := square(n)
	for j := range n {
		e := make([]float64, n)
		e[j] = 1
		x, ok := solve(a, e)
		if !ok {
			return nil, false
		}
		for i := range n {
			out[i][j] = x[i]
		}
	}
	return out, true
}

func square(n int) [][]float64 {
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
	}
	return out
}

// leastVector gives the eigenvector of the smallest eigenvalue of a symmetric
// matrix, by Jacobi rotations.
func leastVector(a [][]float64) []float64 {
	n := len(a)
	v := square(n)
	for i := range n {
		v[i][i] = 1
	}
	for range 60 {
		off, all := 0.0, 0.0
		for i := range n {
			for j := range n {
				sq := float64(a[i][j] * a[i][j])
				if all += sq; i != j {
					off += sq
				}
			}
		}
		if off <= 1e-32*all {
			break
		}
		for p := range n {
			for q := p + 1; q < n; q++ {
				rotate(a, v, p, q)
			}
		}
	}
	least := 0
	for i := range n {
		if a[i][i] < a[least][least] {
			least = i
		}
	}
	out := make([]float64, n)
	for i := range n {
		out[i] = v[i][least]
	}
	return out
}

// rotate makes a[p][q] zero and turns the columns of v along.
func rotate(a, v [][]float64, p, q int) {
	if a[p][q] == 0 {
		return
	}
	theta := (a[q][q] - a[p][p]) / (2 * a[p][q])
	t := 1 / (math.Abs(theta) + math.Sqrt(1+float64(theta*theta)))
	if theta < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(1+float64(t*t))
	s := float64(t * c)
	turn := func(x, y *float64) {
		*x, *y = float64(c**x)-float64(s**y), float64(s**x)+float64(c**y)
	}
	for k := range a {
		turn(&a[k][p], &a[k][q])
	}
	for k := range a {
		turn(&a[p][k], &a[q][k])
	}
	for k := range v {
		turn(&v[k][p], &v[k][q])
	}
}
