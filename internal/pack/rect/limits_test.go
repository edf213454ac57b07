package rect

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every number of a job is taken up to its limit and refused beyond it, each by
// its name.
func TestLimitsOfAJob(t *testing.T) {
	const most, small = maxCoord - 1, maxCoord>>20 - 1
	type set func(j *Job, v int64)
	for _, r := range []struct {
		field    string
		from, to int64
		set      set
	}{
		{"Width", 10, most, func(j *Job, v int64) { j.Width = v }},
		{"MaxLength", 0, most, func(j *Job, v int64) { j.MaxLength = v }},
		{"Gap", 0, small, func(j *Job, v int64) { j.Gap = v }},
		{"Repeat.PeriodX", 0, small, func(j *Job, v int64) { j.Repeat.PeriodX = v }},
		{"Repeat.PeriodY", 0, small, func(j *Job, v int64) { j.Repeat.PeriodY = v }},
		{"Repeat.OriginX", -small, small, func(j *Job, v int64) { j.Repeat.OriginX = v }},
		{"Repeat.OriginY", -small, small, func(j *Job, v int64) { j.Repeat.OriginY = v }},
		{"Repeat.DropDen", 0, 64, func(j *Job, v int64) { j.Repeat.DropDen = v }},
		{"Repeat.DropNum", 0, 6, func(j *Job, v int64) { j.Repeat = Repeat{PeriodX: 1, PeriodY: 1, DropNum: v, DropDen: 7} }},
		{"Flaws[0].X", -most, most, func(j *Job, v int64) { j.Flaws[0].X = v }},
		{"Flaws[0].W", 1, most, func(j *Job, v int64) { j.Flaws[0].W = v }},
		{"Sets[0].Step", 1, small, func(j *Job, v int64) { j.Sets[0].Step = v }},
		{"Groups[0].Window", 1, most, func(j *Job, v int64) { j.Groups[0].Window = v }},
		{"Pieces[0].W", 5, 10, func(j *Job, v int64) { j.Pieces[0].W = v }},
		{"Pieces[1].Count", 1, MaxPieces - 1, func(j *Job, v int64) { j.Pieces[1].Count = int(v) }},
		{"Pieces[0].Set", 0, 1, func(j *Job, v int64) { j.Pieces[0].Set = int(v) }},
		{"Pieces[0].Group", 0, 1, func(j *Job, v int64) { j.Pieces[0].Group = int(v) }},
		{"Pieces[0].Cells", 0, 2, func(j *Job, v int64) { j.Pieces[0].Cells[0].X = v }},
		{"Pieces[0].Cells", 1, 3, func(j *Job, v int64) { j.Pieces[0].Cells[0].H = v }},
		// Two copies of 2^59 are all that there may be of sides, and of a gap and a
		// repeat beside each.
		{"Pieces[0].H", 1, maxCoord/2 - 2, func(j *Job, v int64) {
			j.Width, j.Gap, j.Repeat.PeriodY, j.Pieces = 5, 1, 1, []Piece{{W: 5, H: v, Count: 2}}
		}},
		{"Pieces[1].H", 1, maxCoord - 9, func(j *Job, v int64) {
			j.Width, j.Gap, j.Repeat.PeriodX, j.Pieces = 5, 1, 1, []Piece{{W: 5, H: 3, Count: 1}, {W: 5, H: v, Count: 1}}
		}},
	} {
		job := func(v int64) *Job {
			j := &Job{Width: 10, Flaws: []Flaw{{X: 1, Y: 1, W: 1, H: 1}}, Sets: []Set{{Moves: X, Step: 1}}, Groups: []Group{{Window: 100}},
				Pieces: []Piece{{W: 5, H: 5, Count: 1, Cells: []Cell{{X: 1, Y: 2, W: 3, H: 1}}}, {W: 5, H: 5, Count: 1}}}
			r.set(j, v)
			return j
		}
		for _, v := range []int64{r.from, r.to} {
			assert.NoError(t, job(v).Validate(), "%s %d", r.field, v)
		}
		beyond := []int64{r.to + 1}
		if r.field != "Width" && r.field != "Pieces[0].W" && r.field != "Pieces[0].H" {
			beyond = append(beyond, r.from-1)
		}
		for _, v := range beyond {
			var in *InputError
			if assert.ErrorAs(t, job(v).Validate(), &in, "%s %d", r.field, v) {
				assert.Equal(t, r.field, in.Field, v)
			}
		}
	}
	require.Error(t, (&Job{Width: 10}).Validate())
	for h, ok := range map[int64]bool{4: true, 5: false} { // a flaw ends below 2^60
		j := &Job{Width: 10, Flaws: []Flaw{{X: 1, Y: most - 4, W: 1, H: h}}, Pieces: []Piece{{W: 5, H: 5, Count: 1}}}
		var in *InputError
		if err := j.Validate(); ok {
			assert.NoError(t, err)
		} else if assert.ErrorAs(t, err, &in) {
			assert.Equal(t, InputError{"Flaws", maxCoord, "ends below 2^60"}, *in)
		}
	}
}
