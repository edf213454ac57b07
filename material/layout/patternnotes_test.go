package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// joinable is a strip that needs no join.
func joinable(phase Phase) Piece {
	p := cloth{name: "strip", width: 30 * in, length: 2 * in, count: 1, join: &Piecing{AlongWidth: true, Least: in, Most: 2}}.piece()
	if p.Phase = phase; phase.Axes != Unbound {
		p.Name = "edging"
	}
	return p
}

func TestPatternNotes(t *testing.T) {
	back := cloth{name: "back", width: 22 * in, length: 24 * in, count: 2, motif: inches(11, 12)}
	seat := cloth{name: "seat", width: 20 * in, length: 20 * in, count: 1}
	arm := cloth{name: "arm", width: 8 * in, length: 9 * in, count: 2, motif: inches(3, 20)}.piece()
	arm.Hand = Paired
	welt := cloth{name: "welt", width: 40 * in, length: 2 * in, count: 1, free: true}
	damask := material.Roll{Width: 53 * in, Repeat: 27 * in, Across: 53 * in / 2, First: inches(13, 4)}
	stripes := material.Roll{Width: 53 * in, Across: 6 * in, Even: true}
	unknown := damask
	unknown.First.Y, unknown.UnknownStart = 0, true
	along := material.Roll{Width: 53 * in, Repeat: 9 * in}
	drop := damask
	drop.Across, drop.AcrossLevel, drop.Drop, drop.OneWay = 0, 53*in, material.Drop{Num: 1, Den: 2}, true
	sideways := damask
	sideways.Up = material.UpToLeft
	alike := back.piece()
	alike.Phase.Common = 1
	for _, c := range []struct {
		name   string
		roll   material.Roll
		pieces []Piece
		says   []string
		never  string
	}{
		{"known", damask, append(pieces(back, seat, welt), arm), []string{"every 27 in along the roll and every 26 1/2 in across", "a motif lies 13 in from the left usable edge and 4 in from the end",
			"middle line: back", "point asked for: arm", "no motif asked for: seat", "fill the gaps: welt", "the motif itself is not mirrored"}, "no repeat across"},
		{"all on the repeat", damask, pieces(seat), []string{"every panel starts on the repeat"}, "fill the gaps"},
		{"unknown start", unknown, pieces(back), []string{"27 in more are bought, once for the whole order", "until one lies 13 in from the left usable edge and 12 in from the end"}, "no repeat"},
		{"no repeat across", along, pieces(back), []string{"motifs are not centred across", "point asked for: back", "at the end that is cut first"}, "middle line"},
		{"stripes", stripes, append(pieces(back), arm), []string{"repeats every 6 in across", "on the left usable edge"}, "not mirrored"},
		{"drop", drop, pieces(back), []string{"every 26 1/2 in across, the next to the right 1/2 of a repeat lower", "turn no panel round"}, "no repeat"},
		{"sideways", sideways, pieces(back), []string{"every 27 in across the roll and every 26 1/2 in along it, its top to the left edge"}, "no repeat"},
		{"joined to match", damask, []Piece{matchedBack(336, 104, 53, 56), joinable(Phase{Axes: Unbound}), joinable(OnMotif(inches(0, 0)))},
			[]string{"joined to match, a centre and equal sides; check that the pattern runs on before sewing: back", "point asked for: back", "off the repeat and do not match: strip", "no motif asked for: edging"}, "edging;"},
		{"alike", damask, []Piece{alike}, []string{"back: all alike on the pattern, as if a motif lay"}, "a motif lies"},
		{"alike, and no motif is asked for", damask, []Piece{alike}, nil, "motif on"},
	} {
		p, err := onRoll(c.roll, c.pieces, light)
		require.NoError(t, err, c.name)
		text := strings.Join(p.PatternNotes(pattern.Inches), "\n")
		for _, s := range c.says {
			assert.Contains(t, text, s, c.name)
		}
		assert.NotContains(t, text, c.never, c.name)
		for _, word := range []string{"phase", "anchor", "lattice", "modulo"} {
			assert.NotContains(t, text, word, "a word of the bench")
		}
		_, err = p.Draw(Picture{})
		require.NoError(t, err)
	}
	plain, err := onRoll(material.Roll{Width: 54 * unit.Inch}, pieces(seat), quick)
	require.NoError(t, err)
	assert.Empty(t, plain.PatternNotes(pattern.Inches))
}
