package pattern

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
)

// plainMargin keeps the lines of a plain front on its page.
const plainMargin = 2.0

// plain draws the group of most pieces alone.
func (u *unfolding) plain() (string, error) {
	v := &frontView{unfolding: u, id: u.name() + "plain", tiles: map[string]frontTile{}}
	width := float64(u.Width)
	if len(u.groups) == 0 {
		return svg.New(width, plainMargin, u.Title).String(), nil
	}
	most := 0
	for g, x := range u.groups {
		if len(x.pieces) > len(u.groups[most].pieces) {
			most = g
		}
	}
	u.pieces = slices.DeleteFunc(u.pieces, func(p frontPiece) bool { return p.group != most })
	var seen []shape.Point
	for k := range u.pieces {
		p := &u.pieces[k]
		p.group, p.sights = 0, nil
		seen = append(seen, p.lying(p.shown(), shape.Point{})...)
	}
	b := boxOf(seen)
	u.groups = []frontGroup{{low: b.Low, high: b.High}}
	v.scale = math.Min((width-2*plainMargin)/float64(max(b.High.X-b.Low.X, 1)), 1.2*width/float64(max(b.High.Y-b.Low.Y, 1)))
	left := (width - float64(float64(b.High.X-b.Low.X)*v.scale)) / 2
	v.corner = []svg.Point{{X: hundredth(left), Y: plainMargin}}
	v.d = svg.New(width, math.Ceil(float64(float64(b.High.Y-b.Low.Y)*v.scale)+2*plainMargin), u.Title)
	if err := v.photos(); err != nil {
		return "", err
	}
	v.drawPieces()
	return v.d.String(), nil
}
