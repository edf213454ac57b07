package carry_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
)

// Whatever rows come, go and change places: a mark of the owner's on a part is on that part
// afterwards and on no other, a note at it is there or beside the table, a formula that
// reads its figure reads it still, and the cells beside the table are all there.
func TestMarksStayWithTheirParts(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		parts := []string{"seat", "back", "arm", "welt", "skirt", "flap", "strap", "deck"}
		cuts := func(label string) []piece {
			var out []piece
			for i, p := range rapid.Permutation(parts).Draw(r, label)[:rapid.IntRange(1, len(parts)).Draw(r, label+" rows")] {
				out = append(out, piece{p, "damask", i + 1, float64(10*i + 1)})
			}
			return out
		}
		was, is := cuts("was"), cuts("is")
		marked := rapid.SampledFrom(was).Draw(r, "marked")
		row := 4 + slices.Index(was, marked)
		below := 4 + len(was) + rapid.IntRange(1, 4).Draw(r, "below")
		owner := edit(t, program{pieces: was}.write(t), func(f *excelize.File) {
			id, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFF00"}}})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle(cutList, fmt.Sprintf("A%d", row), fmt.Sprintf("E%d", row), id))
			require.NoError(t, f.AddComment(cutList, excelize.Comment{Cell: fmt.Sprintf("B%d", row), Author: "shop", Text: "mind the nap"}))
			require.NoError(t, f.SetCellStr(cutList, fmt.Sprintf("B%d", below), "mine"))
			_, err = f.NewSheet("Mine")
			require.NoError(t, err)
			require.NoError(t, f.SetCellFormula("Mine", "A1", fmt.Sprintf("'Cut list'!$D$%d", row)))
			require.NoError(t, f.SetCellFormula("Mine", "A2", fmt.Sprintf("'Cut list'!B%d", below)))
		})
		out, _, err := carry.Over(owner, program{pieces: is}.write(t))
		require.NoError(t, err)
		f := opened(t, out)
		defer f.Close()
		now := slices.IndexFunc(is, func(p piece) bool { return p.part == marked.part }) + 4
		for i := range is {
			for _, c := range "ABCDE" {
				fill := style(t, f, cutList, fmt.Sprintf("%c%d", c, i+4)).Fill.Color
				require.Equal(t, i+4 == now, slices.Equal(fill, []string{"FFFF00"}), "%c%d", c, i+4)
			}
		}
		notes, err := f.GetComments(cutList)
		require.NoError(t, err)
		i := slices.IndexFunc(notes, func(n excelize.Comment) bool { return n.Author == "shop" })
		require.GreaterOrEqual(t, i, 0)
		reads := formula(t, f, "Mine", "A1")
		if now > 3 {
			require.Equal(t, fmt.Sprintf("B%d", now), notes[i].Cell)
			require.Equal(t, fmt.Sprintf("'Cut list'!$D$%d", now), reads)
		} else {
			require.Equal(t, byte('F'), notes[i].Cell[0])
			require.Equal(t, "#REF!", reads)
		}
		sheet, cell := formula(t, f, "Mine", "A2")[:11], formula(t, f, "Mine", "A2")[11:]
		require.Equal(t, "'Cut list'!", sheet)
		require.Equal(t, "mine", value(t, f, cutList, cell))
	})
}
