package job

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit/caution"
)

func idsOf(o WorkOrder) []string {
	var out []string
	for _, c := range o.Cautions {
		out = append(out, c.ID)
	}
	return out
}

// What a job says of a piece, and what is worked out for it, bring its cautions:
// where it lives, whom it is for, its owner, its age, its foam and what that lies on,
// seams and frame.
func TestCautionsGoByTheJob(t *testing.T) {
	t.Parallel()
	const (
		panel = `"panels": [{"name": "seat", "goods": "vinyl", "width": "20 in", "length": "20 in"}]`
		berth = `"foam": [{"name": "foam", "width": "20 in", "depth": "20 in", "thickness": "2 in", "filling": {"use": "berth", "duty": "normal", "base": "springs", "price": "3 USD/bd ft"}}]`
		loose = `"cushions": [{"name": "pad", "width": "20 in", "depth": "20 in", "thickness": "3 in", "top": "vinyl",
			"foam": {"use": "seat", "duty": "normal", "base": "board", "price": "3 USD/bd ft"}}]`
	)
	for _, c := range []struct {
		name, piece string
		has, lacks  []string
	}{
		{"a cover without new foam", panel, []string{"F0", "F1", "F2", "F5", "H6", "W1"}, []string{"P0", "F12", "H8", "H9", "F7"}},
		{"a slip cover", `"from": "slip cover", "goods": "vinyl", "measures": {"width": "20 in", "inside back height": "24 in", "seat depth": "20 in", "front height": "10 in"}`,
			[]string{"F1", "H7", "T1"}, []string{"H6", "H9", "W1"}},
		{"a loose cushion", loose, []string{"F12", "H8", "H10", "T1", "T2"}, []string{"H6", "W1", "H5", "F13"}},
		{"a bed on springs", panel + ", " + berth, []string{"F13", "H5"}, []string{"H10", "B6"}},
		{"for children and the public, of a new owner", `"for": ["children", "contract"], "owner": "new", ` + panel, []string{"C1", "C2", "F1", "F6", "F8", "F10"}, []string{"F2", "F4", "F5"}},
		{"of the same owner, and may be old", `"owner": "same", "may_be_old": true, ` + panel, []string{"F2", "H1", "H2", "H3", "H4", "H5"}, []string{"F1", "F1L"}},
		{"a boat", `"lives": "boat", ` + loose, []string{"B4", "B5", "B6"}, []string{"F1", "F5", "B1"}},
		{"a ship's berth", `"lives": "boat", "for": ["ship"], ` + panel + ", " + berth, []string{"B1", "B2", "B3", "B6"}, []string{"B4", "B5"}},
		{"a vehicle", `"lives": "vehicle", ` + panel, []string{"V0", "V1", "V2", "V3"}, []string{"F1", "F5"}},
		{"out of doors", `"lives": "outdoors", ` + panel, []string{"O1"}, []string{"F1"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			o := built(t, `{"name": "seat", `+c.piece+`}`, `{}`)
			got := slices.DeleteFunc(idsOf(o), func(id string) bool { return strings.HasPrefix(id, "J") }) // of the job, several of an id
			assert.Subset(t, got, c.has)
			for _, id := range c.lacks {
				assert.NotContains(t, got, id)
			}
			assert.Len(t, slices.Compact(slices.Sorted(slices.Values(got))), len(got), "none twice")
			assert.True(t, slices.IsSortedFunc(o.Cautions, func(a, b caution.Caution) int { return int(a.Rank) - int(b.Rank) }))
			for _, p := range o.Papers {
				assert.Contains(t, got, p.Because)
			}
		})
	}
}

// The order of a large piece says how it is lifted, that of dining chairs or of a saddle
// of six panels does not.
func TestLargePiecesAreLifted(t *testing.T) {
	t.Parallel()
	for piece, want := range map[string]bool{sixSeats: false, strings.Replace(wing, "%s", "", 1): true,
		`{"name": "saddle", "from": "bucket seat", "goods": "cloth", "for": ["motorcycle"], "measures": {"insert width": "10 in", "front insert length": "14 in",
			"rear insert length": "10 in", "side height": "6 in", "nose length": "5 in", "tail length": "5 in"}}`: false} {
		o, err := Build(t.Context(), jobWith(t, piece), quick)
		require.NoError(t, err)
		assert.Equal(t, want, slices.Contains(idsOf(o), "H9"))
		assert.Contains(t, idsOf(o), "P0", "no place is named")
	}
}

// Words that the cautions do not know are refused in the file's terms, and in Go.
func TestCautionWordsAreRefused(t *testing.T) {
	t.Parallel()
	s := jobWith(t, sixSeats)
	s.Pieces[0].For, s.Pieces[0].Owner = []caution.Use{caution.Ship, 77}, 0
	assert.Equal(t, []string{"pieces[0].for[1]"}, faultsOf(t, s))
	s.Pieces[0].For, s.Pieces[0].Owner = nil, 9
	assert.Equal(t, []string{"pieces[0].owner"}, faultsOf(t, s))
}
