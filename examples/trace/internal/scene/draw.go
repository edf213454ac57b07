package scene

import (
	"errors"
	"image"
	"math"
	"math/rand/v2"
	"sync"

	"golang.org/x/image/vector"
)

// coded tells how light is coded in files (IEC 61966-2-1), for 65536 steps of
// light, in levels of 255.
var coded = sync.OnceValue(func() []float32 {
	t := make([]float32, 1<<16)
	for i := range t {
		v := float64(i) / float64(len(t)-1)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		t[i] = float32(255 * v)
	}
	return t
})

// bells are random numbers of the normal distribution.
var bells = sync.OnceValue(func() []float32 {
	r := rand.New(rand.NewPCG(7, 11))
	t := make([]float32, 1<<16)
	for i := range t {
		t[i] = float32(r.NormFloat64())
	}
	return t
})

// Take photographs a scene: each thing is drawn by how much of a pixel it covers,
// then comes uneven light, the blur of the lens in the light itself, the code of
// files, and noise.
func (c Camera) Take(s Scene) (*image.YCbCr, error) {
	layers, err := s.layers()
	if err != nil {
		return nil, err
	}
	w, h := c.Width, c.Height
	light := make([]float32, w*h)
	for i := range light {
		light[i] = float32(s.Ground.Light)
	}
	out := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	for i := range out.Cb {
		out.Cb[i], out.Cr[i] = level(128+s.Ground.Cb), level(128+s.Ground.Cr)
	}
	eye := c.Eye()
	for _, l := range layers {
		if err := cover(light, out, w, h, l, eye); err != nil {
			return nil, err
		}
	}
	c.shade(light)
	blur(light, w, h, c.Blur)
	code, bell := coded(), bells()
	r := rand.New(rand.NewPCG(c.Seed, 3))
	for y := range h {
		row := out.Y[y*out.YStride:]
		var bits uint64
		for x := range w {
			if x%4 == 0 {
				bits = r.Uint64()
			}
			v := code[int(min(max(light[y*w+x], 0), 1)*65535)]
			row[x] = level(float64(v + float32(c.Noise)*bell[bits&0xffff]))
			bits >>= 16
		}
	}
	return out, nil
}

func level(v float64) uint8 { return uint8(min(max(v+0.5, 0), 255)) }

// cover draws a layer.
func cover(light []float32, out *image.YCbCr, w, h int, l layer, eye func(Point) (x, y float64, ok bool)) error {
	xs, ys := make([]float32, len(l.ring)), make([]float32, len(l.ring))
	box := image.Rectangle{Min: image.Pt(w, h)}
	for i, p := range l.ring {
		x, y, ok := eye(p)
		if !ok {
			return errors.New("a thing lies behind the camera")
		}
		xs[i], ys[i] = float32(x), float32(y)
		box.Min = image.Pt(min(box.Min.X, int(math.Floor(x))), min(box.Min.Y, int(math.Floor(y))))
		box.Max = image.Pt(max(box.Max.X, int(math.Ceil(x))), max(box.Max.Y, int(math.Ceil(y))))
	}
	box = box.Intersect(image.Rect(0, 0, w, h))
	if box.Empty() {
		return nil
	}
	ras := vector.NewRasterizer(box.Dx(), box.Dy())
	for i := range xs {
		x, y := xs[i]-float32(box.Min.X), ys[i]-float32(box.Min.Y)
		if i == 0 {
			ras.MoveTo(x, y)
		} else {
			ras.LineTo(x, y)
		}
	}
	ras.ClosePath()
	mask := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	ras.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	tone, cb, cr := float32(l.tone.Light), level(128+l.tone.Cb), level(128+l.tone.Cr)
	for y := range box.Dy() {
		row := light[(y+box.Min.Y)*w+box.Min.X:]
		for x, a := range mask.Pix[y*mask.Stride : y*mask.Stride+box.Dx()] {
			if a == 0 {
				continue
			}
			row[x] += (tone - row[x]) * float32(a) / 255
			if a > 127 {
				i := out.COffset(x+box.Min.X, y+box.Min.Y)
				out.Cb[i], out.Cr[i] = cb, cr
			}
		}
	}
	return nil
}

// shade makes the light weaker towards one side, and blotched.
func (c Camera) shade(light []float32) {
	w, h := c.Width, c.Height
	sin, cos := math.Sincos(c.SlopeTo * math.Pi / 180)
	half := math.Hypot(float64(w), float64(h)) / 2
	const cell, depth = 64, 0.015
	gw := w/cell + 2
	r := rand.New(rand.NewPCG(c.Seed, 5))
	grid := make([]float32, gw*(h/cell+2))
	for i := range grid {
		grid[i] = 1 + depth*float32(r.NormFloat64())
	}
	for y := range h {
		j, v := y/cell, float32(y%cell)/cell
		for x := range w {
			i, u := x/cell, float32(x%cell)/cell
			a, b := grid[j*gw+i:], grid[(j+1)*gw+i:]
			top, low := a[0]+u*(a[1]-a[0]), b[0]+u*(b[1]-b[0])
			slope := 1 - c.Slope*(0.5+0.5*((float64(x)-float64(w)/2)*cos+(float64(y)-float64(h)/2)*sin)/half)
			light[y*w+x] *= (top + v*(low-top)) * float32(slope*c.Exposure)
		}
	}
}

// blur spreads light by a Gauss curve, along rows and then along columns.
func blur(light []float32, w, h int, s float64) {
	if s <= 0 {
		return
	}
	n := int(math.Ceil(3 * s))
	kernel := make([]float32, n+1)
	var sum float64
	for i := -n; i <= n; i++ {
		sum += math.Exp(-float64(i*i) / (2 * s * s))
	}
	for i := range kernel {
		kernel[i] = float32(math.Exp(-float64(i*i)/(2*s*s)) / sum)
	}
	row := make([]float32, w+2*n)
	for y := range h {
		line := light[y*w : (y+1)*w]
		copy(row[n:], line)
		for i := range n {
			row[i], row[n+w+i] = line[0], line[w-1]
		}
		for x := range line {
			v := kernel[0] * row[x+n]
			for i := 1; i <= n; i++ {
				v += kernel[i] * (row[x+n-i] + row[x+n+i])
			}
			line[x] = v
		}
	}
	// Down the columns with the rows above kept.
	kept := make([][]float32, n+1)
	for i := range kept {
		kept[i] = append([]float32(nil), light[:w]...)
	}
	now := make([]float32, w)
	for y := range h {
		copy(now, light[y*w:(y+1)*w])
		out := light[y*w : (y+1)*w]
		for x := range out {
			out[x] = kernel[0] * now[x]
		}
		for i := 1; i <= n; i++ {
			above := kept[(y-i+len(kept)*n)%len(kept)]
			below := light[min(y+i, h-1)*w:][:w]
			if y+i > h-1 && y == h-1 {
				below = now
			}
			k := kernel[i]
			for x := range out {
				out[x] += k * (above[x] + below[x])
			}
		}
		copy(kept[y%len(kept)], now)
	}
}
