package contour

// solid keeps the largest part of a mask, its holes filled, and gives the part of
// it that was holes. The border of the mask must be off.
func solid(in []bool, w, h int) (out []bool, holes float64) {
	mark := make([]int32, w*h)
	next, best, most := int32(0), int32(0), 0
	spread := func(start int, on bool) int {
		next++
		n := 0
		stack := []int{start}
		mark[start] = next
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			n++
			x, y := i%w, i/w
			for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				u, v := x+d[0], y+d[1]
				if u < 0 || v < 0 || u >= w || v >= h || mark[v*w+u] != 0 || in[v*w+u] != on {
					continue
				}
				mark[v*w+u] = next
				stack = append(stack, v*w+u)
			}
		}
		return n
	}
	for i, on := range in {
		if on && mark[i] == 0 {
			if n := spread(i, true); n > most {
				best, most = next, n
			}
		}
	}
	if most == 0 {
		return make([]bool, w*h), 0
	}
	// What the outside does not reach without crossing the part is the part.
	out = make([]bool, w*h)
	for i := range out {
		out[i] = true
	}
	stack := []int{0}
	out[0] = false
	n := w * h
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		n--
		x, y := i%w, i/w
		for _, d := range [4][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			u, v := x+d[0], y+d[1]
			if u < 0 || v < 0 || u >= w || v >= h || !out[v*w+u] || mark[v*w+u] == best {
				continue
			}
			out[v*w+u] = false
			stack = append(stack, v*w+u)
		}
	}
	return out, float64(n-most) / float64(most)
}

// border follows the outside of a solid part along the sides of its pixels, with
// the part on the right as the picture is seen, and gives the corners it passes.
func border(in []bool, w, h int) []Point {
	is := func(x, y int) bool { return x >= 0 && y >= 0 && x < w && y < h && in[y*w+x] }
	var x, y int
	found := false
	for i, on := range in {
		if on {
			x, y, found = i%w, i/w, true
			break
		}
	}
	if !found {
		return nil
	}
	// At the upper left corner of the first pixel, going right.
	dx, dy := 1, 0
	x0, y0 := x, y
	var out []Point
	for {
		out = append(out, Point{float64(x), float64(y)})
		x, y = x+dx, y+dy
		// The pixels ahead, left and right of the way.
		lx, ly, rx, ry := x, y, x, y
		switch {
		case dx == 1:
			ly--
		case dx == -1:
			lx, rx, ry = lx-1, rx-1, ry-1
		case dy == 1:
			rx--
		case dy == -1:
			lx, ly, ry = lx-1, ly-1, ry-1
		}
		switch left, right := is(lx, ly), is(rx, ry); {
		case !right: // turn right; where parts touch by a corner, stay with this one
			dx, dy = -dy, dx
		case left: // turn left
			dx, dy = dy, -dx
		}
		if x == x0 && y == y0 && dx == 1 && dy == 0 {
			return out
		}
	}
}
