package layout

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// PieceOf makes a piece of a cut panel of package allowance, with its cut line
// as the outline: chords that lie within twice cut.Tolerance of the true curves,
// in a box as large as that of the true cut line. Holes of the cut line, where
// margins ran together, count as part of the piece. Errors are those of
// shape.Polygon, at cut_line.
func PieceOf(cut allowance.PanelCut, count int) (Piece, error) {
	o, err := cutOutline(cut)
	return Piece{Name: cut.Name, Outline: o, Count: count}, unit.InField("cut_line", err)
}

// PieceOfRect makes a piece of a rectangle that is cut. Errors are those of
// shape.Rectangle.
func PieceOfRect(cut allowance.RectCut, count int) (Piece, error) {
	return RectPiece(cut.Name, cut.Width, cut.Height, count)
}

// RectPiece makes a piece of a rectangle, width across the goods by length along
// them. Errors are those of shape.Rectangle.
func RectPiece(name string, width, length unit.Length, count int) (Piece, error) {
	o, err := shape.Rectangle(width, length)
	return Piece{Name: name, Outline: o, Count: count}, err
}

// PiecesOfStrips makes pieces of strips. They lie across the roll, or along it
// where the goods allow it, and not on the repeat. Errors name the strip and are
// those of shape.Rectangle.
func PiecesOfStrips(strips ...made.Strip) ([]Piece, error) {
	return piecesOf(stripsOf(strips...), 1)
}

// MadeUp are the results of package made whose pieces are rectangles, or have
// rectangles around them.
type MadeUp interface {
	made.BoxingCut | made.WeltCut | made.SkirtCut | made.ChannelsCut | made.TuftPlan
}

// PiecesOf makes the pieces of count made-up parts that are alike: skirts and
// channels as they are drawn, up the roll and on the repeat; boxing, zip and welt
// strips as PiecesOfStrips has them. Panels of a cover are pieces by [PieceOf].
func PiecesOf[M MadeUp](cut M, count int) ([]Piece, error) {
	return piecesOf(rectsOf(cut), count)
}

// rectOf is a rectangle of a made-up part, or the box round one.
type rectOf struct {
	name          string
	width, length unit.Length
	count         int
	free          bool // runs either way, off the repeat
}

func piecesOf(rects []rectOf, count int) ([]Piece, error) {
	var out []Piece
	for i, r := range rects {
		p, err := RectPiece(r.name, r.width, r.length, r.count*count)
		if err != nil {
			return nil, unit.InField(check.At("pieces", i), err)
		}
		if r.free {
			p.Turn, p.Phase.Axes = Railroad, Unbound
		}
		out = append(out, p)
	}
	return out, nil
}

func stripsOf(strips ...made.Strip) []rectOf {
	out := make([]rectOf, len(strips))
	for i, s := range strips {
		out[i] = rectOf{s.Use, s.Length, s.Width, s.Count, true}
	}
	return out
}

func rectsOf(cut any) []rectOf {
	upright := func(name string, width, length unit.Length, count int) []rectOf {
		return []rectOf{{name, width, length, count, false}}
	}
	switch c := cut.(type) {
	case made.BoxingCut:
		return stripsOf(c.Strips()...)
	case made.WeltCut:
		return stripsOf(c.Strips...)
	case made.SkirtCut:
		out := stripsOf(c.Pieces...)
		for i := range out {
			out[i].free = false
		}
		return out
	case made.ChannelsCut:
		var out []rectOf
		for _, s := range c.Pieces {
			out = append(out, upright(s.Use, s.Width, s.Length, s.Count)...)
		}
		return out
	case made.TuftPlan:
		return upright("tufted panel", c.CutWidth, c.CutHeight, 1)
	}
	return nil
}
