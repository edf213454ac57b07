package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

//go:generate go test -run TestReadmePicture . -update

// The README shows what comes out: a panel of the demo job with its lines, and
// the layout of its damask. go -C examples generate ./workorder draws it again.
func TestReadmePicture(t *testing.T) {
	o, err := asPrinted()
	require.NoError(t, err)
	got, err := readmePicture(o)
	require.NoError(t, err)
	const name = "doc/larkfield.svg"
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644)) //nolint:gosec // a document
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got, "run go -C examples generate ./workorder after looking at the change")
}

// readmePicture puts a panel drawing, some figures and a roll side by side.
func readmePicture(o job.WorkOrder) (string, error) {
	const wide, high, gap = 720.0, 372.0, 14.0
	s := &sheet{}
	cuts, err := drawnCuts(o)
	if err != nil {
		return "", err
	}
	n := slices.IndexFunc(o.Cuts, func(c job.Cut) bool { return c.Part == "inside wing" })
	panel, err := cuts[n].Picture(pattern.Picture{Units: s.units()})
	if err != nil {
		return "", err
	}
	d := svg.New(wide, high, "A panel of the demo job and the cutting layout of its cloth")
	d.Rect(svg.Point{}, wide, high, svg.Attrs("fill", "#fff")...)
	c := o.Cuts[n]
	x, y := 372.0, 36.0
	line := func(size float64, text string, attrs ...svg.Attr) {
		d.Write(svg.Point{X: x, Y: y}, size, "start", text, attrs...)
		y += size + 8
	}
	line(15, o.Name, svg.Attrs("font-weight", "bold")...)
	line(12.5, fmt.Sprintf("%s, %s: %d in %s", c.Piece, c.Part, c.Count, c.Goods))
	line(12.5, "finished "+s.size(c.Finished)+", cut "+s.cutSize(c.Cut))
	for _, g := range s.edgeGroups(cuts[n]) {
		line(12.5, strings.Join(g.parts, ", ")+": "+finishOf(c, g.edge)+" "+s.margins(g.edge))
	}
	y += 10
	for _, p := range o.Purchases {
		bought := fmt.Sprintf("%d hides", p.Hides)
		if p.Length != 0 {
			bought = s.buyLen(p.Length)
		}
		line(12.5, p.Name+": "+bought)
	}
	line(12.5, "total "+o.Quote.Total.String())
	roll := o.Purchases[0]
	small(d, *roll.Plan, labelsOf(roll.Layouts()[0], cuts), roll.Name, svg.Point{X: gap, Y: 242}, wide-2*gap)
	return strings.TrimSuffix(d.String(), "</svg>\n") + strings.Replace(panel, "<svg ", `<svg x="14" y="14" `, 1) + "</svg>\n", nil
}

// small draws a whole roll, with the numbers of the pieces where they find room.
func small(d *svg.Drawing, plan layout.Plan, labels []layout.Label, name string, at svg.Point, wide float64) {
	scale := wide / float64(plan.Order)
	usable, repeat := plan.Job.Roll.Usable(), plan.Job.Roll.Repeat
	px := func(l unit.Length) float64 { return float64(float64(l) * scale) }
	place := func(x, y unit.Length) svg.Point {
		return svg.Point{X: at.X + px(y), Y: at.Y + px(x)}
	}
	d.Rect(at, wide, px(usable), svg.Attrs("fill", "#e9e9e9", "stroke", "#000")...)
	for _, p := range plan.InOrder() {
		low, high := p.Bounds()
		points := make([]svg.Point, len(p.Outline))
		for i, q := range p.Outline {
			points[i] = place(q.X, q.Y)
		}
		d.Polygon(points, svg.Attrs("fill", "#fff", "stroke", "#000", "stroke-width", "0.9")...)
		if box := min(px(high.X-low.X), px(high.Y-low.Y)); box > 14 {
			c := place((low.X+high.X)/2, (low.Y+high.Y)/2)
			d.Write(svg.Point{X: c.X, Y: c.Y + 4}, 11, "middle", labels[p.Piece].Number)
		}
	}
	for y := repeat; repeat > 0 && y < plan.Order; y += repeat {
		d.Line(place(0, y), place(usable, y), svg.Attrs("stroke", "#777", "stroke-width", "0.7", "stroke-dasharray", "2 4")...)
	}
	d.Write(svg.Point{X: at.X, Y: at.Y + px(usable) + 18}, 11.5, "start",
		name+", used from the left; broken lines are the repeat, numbers those of the cut list")
}
