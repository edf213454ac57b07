package main

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/unit"
)

// Whatever is written, on a label of any size the lines lie inside it in type of 6 pt at
// least, and number, count, hand and the beginning of a name are there.
func TestLabelsFit(t *testing.T) {
	name := rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z]{1,9}( [a-z]{1,12}){0,5}(, [a-z]{1,40} [0-9]{1,3})?`), rapid.StringMatching(`[a-zA-Z0-9]{1,200}`))
	rapid.Check(t, func(t *rapid.T) {
		g := labelGrid{label: acrossDown{unit.Length(rapid.IntRange(25, 200).Draw(t, "wide")) * unit.Millimetre, unit.Length(rapid.IntRange(12, 200).Draw(t, "high")) * unit.Millimetre}}
		f, err := newFitter(g, labelPad(g.label))
		require.NoError(t, err)
		of := rapid.IntRange(1, 9999).Draw(t, "of")
		l := pieceLabel{Number: rapid.IntRange(1, 9999).Draw(t, "number"), Of: of, Copy: rapid.IntRange(1, of).Draw(t, "copy"), Part: name.Draw(t, "part"), Piece: name.Draw(t, "piece"),
			Goods: name.Draw(t, "goods"), Hand: rapid.SampledFrom([]allowance.Hand{allowance.Either, allowance.LeftHand, allowance.RightHand}).Draw(t, "hand"),
			Way: "top up the roll", Size: "24 1/16 x 21 5/8 in"}
		for range rapid.IntRange(0, 30).Draw(t, "seams") {
			l.Seams = append(l.Seams, seamMates{rapid.StringMatching(`[A-Z]{1,2}(-[LR])?`).Draw(t, "letter"), name.Draw(t, "mates")})
		}
		lines := f.set(l)
		high, text := points(0), ""
		for i, line := range lines {
			high += line.High
			room := f.wide
			if i == 0 {
				room -= arrowWide(line.High)
			}
			if len(line.Words) > 1 || len([]rune(line.Words[0].Text)) > 1 {
				assert.LessOrEqual(t, f.widthOf(line.Words), room)
			}
			for _, w := range line.Words {
				assert.GreaterOrEqual(t, w.Size, leastType)
				text += w.Text + " "
			}
		}
		assert.LessOrEqual(t, high, f.high)
		text = strings.Join(strings.Fields(text), " ")
		must := strconv.Itoa(l.Number) + " " + strconv.Itoa(l.Copy) + " of " + strconv.Itoa(l.Of)
		if l.Hand != allowance.Either {
			must += " " + l.Hand.String()
		}
		assert.True(t, strings.HasPrefix(text, must), "%q in %q", must, text)
		if len(words(l.Part, leastType, true)) > 0 {
			assert.Greater(t, len(text), len(must), "a name")
		}
	})
}

// What is left out: a large label says all; on a smaller one type shrinks, then mates,
// size, goods and the rest go; the name of a made-up part keeps its end.
func TestFormsOfLabels(t *testing.T) {
	l := pieceLabel{Number: 26, Copy: 1, Of: 2, Hand: allowance.RightHand, Part: "window-seat cushion, zip panel upper 2", Piece: "window seat", Goods: "tan upholstery leather",
		Way: "top to the neck", Size: "37 x 3 1/4 in", Seams: []seamMates{{"C", "zip panel upper 1"}, {"D", "zip"}}}
	set := func(label string) string {
		g, err := labelFlags{label: label, first: 1}.grid(pattern.A4())
		require.NoError(t, err)
		f, err := newFitter(g, labelPad(g.label))
		require.NoError(t, err)
		var out []string
		for _, line := range f.set(l) {
			var ws []string
			for _, w := range line.Words {
				ws = append(ws, w.Text)
			}
			out = append(out, strings.ReplaceAll(strings.Join(ws, " "), noBreak, " "))
		}
		return strings.Join(out, " | ")
	}
	assert.Equal(t, "26 1 of 2 right | window-seat cushion, zip panel upper 2 | window seat | tan upholstery leather | top to the neck | cut 37 x 3 1/4 in | C: zip panel upper 1 · D: zip", set("180 mm x 60 mm"))
	assert.Equal(t, "26 1 of 2 right | window-seat cushion, zip panel upper 2 | window seat | tan upholstery leather · top to the neck · cut 37 x 3 1/4 in | C: zip panel upper 1 · D: zip",
		set("64 mm x 25 mm"))
	assert.Equal(t, "26 1 of 2 right | window-seat cushion, zip panel | upper 2 | window seat | tan upholstery leather · top to the neck | C · D", set("50 mm x 25 mm"))
	assert.Equal(t, "26 1 of 2 right | window-seat cushion, zip panel | upper 2 | window seat", set("50 mm x 20 mm"))
	assert.Equal(t, "26 1 of 2 right | zip panel upper 2", set("25 mm x 12 mm"))
	// Spaces that do not break are no name, and no line; nor is there an end without words.
	l.Part = noBreak
	assert.Equal(t, "26 1 of 2 right | window seat | top to the neck", set("25 mm x 12 mm"))
	l.Part = "zip panel of the very long cushion of the window seat, " + noBreak
	assert.Equal(t, "26 1 of 2 right | zip panel of the very | long cushion of the…", set("25 mm x 12 mm"))
}
