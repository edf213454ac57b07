package main

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/jpeg"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/examples/trace/internal/picture"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// overlayWidth is the width of the overlay's longer side, in pixels.
const overlayWidth = 1600

// overlay draws the outlines that were read over the photo, as SVG with the photo
// in it, small: to see at a glance that they lie on the panels.
func overlay(p picture.Picture, r reading) (string, error) {
	scale := min(overlayWidth/float64(max(p.W, p.H)), 1)
	w, h := int(scale*float64(p.W)), int(scale*float64(p.H))
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, small(p, w, h), &jpeg.Options{Quality: 80}); err != nil {
		return "", err
	}
	d := svg.New(float64(w), float64(h), "Outlines read from a photo")
	d.Image(svg.Point{}, float64(w), float64(h), "data:image/jpeg;base64,"+base64.StdEncoding.EncodeToString(photo.Bytes()))
	at := func(x, y float64) svg.Point { return svg.Point{X: scale * x, Y: scale * y} }
	for i, page := range r.pages {
		for _, s := range page {
			q := at(s.Ring.X, s.Ring.Y)
			d.Line(svg.Point{X: q.X - 8, Y: q.Y}, svg.Point{X: q.X + 8, Y: q.Y}, svg.Attrs("stroke", "#0a0", "stroke-width", "1.5")...)
			d.Line(svg.Point{X: q.X, Y: q.Y - 8}, svg.Point{X: q.X, Y: q.Y + 8}, svg.Attrs("stroke", "#0a0", "stroke-width", "1.5")...)
		}
		q := at(page[0].Ring.X, page[0].Ring.Y)
		label(d, svg.Point{X: q.X + 30, Y: q.Y - 10}, 16, "#060", fmt.Sprintf("page %d", i+1))
	}
	for _, q := range r.panels {
		if err := q.draw(d, r, at); err != nil {
			return "", err
		}
	}
	return d.String(), nil
}

// draw puts an outline, its corners and the names of its edges on the photo.
func (p panel) draw(d *svg.Drawing, r reading, at func(x, y float64) svg.Point) error {
	seen := func(q shape.Point) (svg.Point, error) {
		px, err := r.view.Pixel(q)
		return at(float64(px.X), float64(px.Y)), err
	}
	points, err := p.lies.Flatten(unit.Millimetre / 4)
	if err != nil {
		return err
	}
	ring := make([]svg.Point, len(points))
	for i, q := range points {
		if ring[i], err = seen(q); err != nil {
			return err
		}
	}
	d.Polygon(ring, svg.Attrs("fill", "none", "stroke", "#e00", "stroke-width", "1.5", "stroke-linejoin", "round")...)
	for _, e := range p.lies.Edges() {
		long, err := p.lies.EdgeLength(e)
		if err != nil {
			return err
		}
		start, _, err := p.lies.Mark(e, 0, unit.Millimetre)
		if err != nil {
			return err
		}
		// The name stands inside, so that those of neighbouring panels keep apart.
		_, mid, err := p.lies.Mark(e, long/2, -12*unit.Millimetre)
		if err != nil {
			return err
		}
		c, err := seen(start)
		if err != nil {
			return err
		}
		d.Circle(c, 4, svg.Attrs("fill", "none", "stroke", "#e00", "stroke-width", "1.5")...)
		if c, err = seen(mid); err != nil {
			return err
		}
		label(d, c, 14, "#a00", e)
	}
	c, err := seen(p.lies.Centroid())
	if err != nil {
		return err
	}
	label(d, c, 22, "#a00", p.name)
	return nil
}

// label writes words about a place, to be read on any ground.
func label(d *svg.Drawing, at svg.Point, size float64, colour, words string) {
	d.Text(at, words, svg.Attrs("font-family", "sans-serif", "font-size", svg.Number(size), "font-weight", "bold", "text-anchor", "middle",
		"fill", colour, "stroke", "#fff", "stroke-width", "3", "stroke-linejoin", "round", "paint-order", "stroke")...)
}

// small gives the photo upright and small.
func small(p picture.Picture, w, h int) image.Image {
	sw, sh := w, h
	if p.Turn.Swaps() {
		sw, sh = h, w
	}
	from := p.Shown.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			// The pixel of the photo in the middle of this one.
			sx, sy := p.Turn.Stored(x, y, sw, sh)
			out.Set(x, y, p.Shown.At(from.Min.X+(2*sx+1)*from.Dx()/(2*sw), from.Min.Y+(2*sy+1)*from.Dy()/(2*sh)))
		}
	}
	return out
}
