package job

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// oldSeat is a seat of 20 x 18 in that was traced at its raw edge and its staples,
// with what else is said of it.
const oldSeat = `{"name": "seat", "goods": "cloth", "outline": {"rectangle": {"width": "21 in", "height": "20.5 in"}},
	"ripped": {"allowance": "1/2 in", "edges": {"bottom": {"line": "staple", "allowance": "2 in"}}}`

// The finished panel follows from the old one, and is cut with its new allowances;
// what was noted goes with it.
func TestRippedJob(t *testing.T) {
	t.Parallel()
	s := madeJob(t, `{"name": "chair", "take_off": {"order": ["outside back", "seat"], "photos": ["left.jpg"], "notes": ["gimp round the rail"]},
		"panels": [`+oldSeat+`, "bottom": "pull-over 3 in", "take_off": {"notes": ["eased at the front"]}},
			{"name": "band", "goods": "cloth", "width": "20 in", "length": "4 in"}]}`)
	o, err := Build(t.Context(), s, quick)
	require.NoError(t, err)
	require.Len(t, o.TakeOff, 1)
	r := o.TakeOff[0]
	assert.Equal(t, []string{"outside back", "seat"}, r.Order)
	require.Len(t, r.Panels, 1)
	assert.Equal(t, []string{"eased at the front"}, r.Panels[0].Notes)
	require.NotNil(t, r.Panels[0].Old)
	assert.Equal(t, 20*unit.Inch, r.Panels[0].Old.Width)
	assert.Equal(t, 18*unit.Inch, r.Panels[0].Old.Height)
	for _, c := range o.Cuts {
		if c.Part == "seat" {
			assert.Equal(t, Size{20 * unit.Inch, 18 * unit.Inch}, c.Finished)
			assert.Equal(t, Size{21 * unit.Inch, 43 * unit.Inch / 2}, c.Cut)
		}
	}
	about := 0
	for _, c := range o.Cautions {
		if c.About == "taking off" {
			about++
		}
	}
	assert.Equal(t, 3, about, "staples and dust, the ladder of the photos, the lines of old panels")
}

// Edges of two old panels that are sewn together are compared on their finished
// lines: 18 in and, of what was traced 1 in too wide, 19 in.
func TestRippedMates(t *testing.T) {
	t.Parallel()
	job := func(width string) Spec {
		return madeJob(t, `{"name": "chair", "panels": [`+oldSeat+`},
			{"name": "band", "goods": "cloth", "width": "`+width+`", "length": "5 in", "ripped": {"allowance": "1/2 in"}}],
			"seams": [{"sew": "seat.top", "to": "band.bottom"}],
			"fastenings": [{"fasten": ["seat.left", "seat.right", "seat.bottom", "band.left", "band.right", "band.top"]}]}`)
	}
	_, err := Build(t.Context(), job("21 in"), quick)
	require.NoError(t, err)
	_, err = Build(t.Context(), job("24 in"), quick)
	var faults Faults
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0].Error(), "seams[0]")
	assert.Contains(t, faults[0].Error(), "23 in")
}

// Each fault is at its field.
func TestRippedFaults(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ piece, field string }{
		"no allowance": {`{"name": "chair", "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "18 in", "ripped": {}}]}`, "pieces[0].panels[0].ripped.allowance"},
		"no edge": {`{"name": "chair", "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "18 in",
			"ripped": {"allowance": "1/2 in", "edges": {"front": {"line": "fold"}}}}]}`, "pieces[0].panels[0].ripped.edges"},
		"nothing left": {`{"name": "chair", "panels": [{"name": "band", "goods": "cloth", "width": "20 in", "length": "3.9 in", "ripped": {"allowance": "2 in"}}]}`, "pieces[0].panels[0].ripped"},
		"outline": {`{"name": "chair", "panels": [{"name": "band", "goods": "cloth", "outline": {"circle": {"diameter": "1 in"}}, "ripped": {"allowance": "1/2 in"}}]}`,
			"pieces[0].panels[0].outline"},
		"pair":       {`{"name": "chair", "panels": [` + oldSeat[:len(oldSeat)-1] + `, "frame": [{"panel": "18 in", "frame": "12 in"}]}}]}`, "pieces[0].panels[0].ripped.frame[0].frame"},
		"photo":      {`{"name": "chair", "take_off": {"photos": ["a/b.jpg"]}, "panels": [` + oldSeat + `}]}`, "pieces[0].take_off.photos[0]"},
		"twice":      {`{"name": "chair", "take_off": {"order": ["seat", "seat"]}, "panels": [` + oldSeat + `}]}`, "pieces[0].take_off.order[1]"},
		"empty note": {`{"name": "chair", "panels": [` + oldSeat + `, "take_off": {"notes": [" "]}}]}`, "pieces[0].panels[0].take_off.notes[0]"},
		"joined":     {`{"name": "chair", "panels": [` + oldSeat + `, "join": {"least": "6 in", "most": 2}}]}`, "pieces[0].panels[0].join"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Build(t.Context(), madeJob(t, c.piece), quick)
			var faults Faults
			require.ErrorAs(t, err, &faults)
			var in *unit.InputError
			require.ErrorAs(t, faults[0].Err, &in)
			assert.Equal(t, unit.Path(c.field), in.Field)
		})
	}
}
