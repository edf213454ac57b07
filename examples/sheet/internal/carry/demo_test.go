package carry_test

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
	"github.com/coverwright/coverwright/examples/sheet/internal/workbook"
)

// demo gives the quoting workbook of the demo job twice: as it is, and with another name.
func demo(t testing.TB) (was, is []byte) {
	t.Helper()
	data, err := os.ReadFile("../../../workorder/larkfield.json")
	require.NoError(t, err)
	shop, err := jobfile.Files{Shop: "../../../workorder/larkfield-shop.json"}.ReadShop()
	require.NoError(t, err)
	spec, err := shop.ReadSpec(bytes.NewReader(data))
	require.NoError(t, err)
	spec.Options = nil // they take long, as layouts do
	for i, g := range spec.Goods {
		if g.Kind == job.HideGoods {
			spec.Goods[i].BuyBy = "rule of thumb"
		}
		spec.Goods[i].Repeat = 0
	}
	order, err := job.Build(t.Context(), spec, job.Options{Effort: 0.001})
	require.NoError(t, err)
	write := func() []byte {
		var b bytes.Buffer
		_, err = workbook.Quote(&b, spec, order, workbook.Options{})
		require.NoError(t, err)
		return withAreas(t, b.Bytes())
	}
	was = write()
	order.Name = "New " + order.Name
	return was, write()
}

// withAreas names the regions of the program where it has not done so itself.
func withAreas(t testing.TB, book []byte) []byte {
	t.Helper()
	return edit(t, book, func(f *excelize.File) {
		had := names(f)
		for _, s := range f.GetSheetList() {
			if _, some := had[s+"!"+carry.AreaName]; some {
				continue
			}
			rows, err := f.GetRows(s)
			require.NoError(t, err)
			columns := 1
			for _, r := range rows {
				columns = max(columns, len(r))
			}
			last, err := excelize.CoordinatesToCellName(columns, max(1, len(rows)), true)
			require.NoError(t, err)
			require.NoError(t, f.SetDefinedName(&excelize.DefinedName{Name: carry.AreaName, Scope: s, RefersTo: "'" + s + "'!$A$1:" + last}))
		}
	})
}

// The workbook of the demo job comes over whole: every figure, formula, style and name of
// a job with another name is there.
func TestTheDemoWorkbook(t *testing.T) {
	owner, fresh := demo(t)
	out, remarks := over(t, owner, fresh)
	assert.Empty(t, remarks)
	a, b := opened(t, fresh), opened(t, out)
	assert.Equal(t, a.GetSheetList(), b.GetSheetList())
	assert.Equal(t, names(a), names(b))
	cells := 0
	for _, s := range a.GetSheetList() {
		rows, err := a.GetRows(s)
		require.NoError(t, err)
		for r, row := range rows[:min(len(rows), 60)] {
			for c := range row {
				at, err := excelize.CoordinatesToCellName(c+1, r+1)
				require.NoError(t, err)
				require.Equal(t, value(t, a, s, at), value(t, b, s, at), "%s %s", s, at)
				require.Equal(t, formula(t, a, s, at), formula(t, b, s, at), "%s %s", s, at)
				require.Equal(t, style(t, a, s, at), style(t, b, s, at), "%s %s", s, at)
				cells++
			}
		}
		x, err := a.GetDataValidations(s)
		require.NoError(t, err)
		y, err := b.GetDataValidations(s)
		require.NoError(t, err)
		assert.Equal(t, x, y)
		conditions, err := a.GetConditionalFormats(s)
		require.NoError(t, err)
		now, err := b.GetConditionalFormats(s)
		require.NoError(t, err)
		assert.Len(t, now, len(conditions))
		layout, err := a.GetPageLayout(s)
		require.NoError(t, err)
		is, err := b.GetPageLayout(s)
		require.NoError(t, err)
		assert.Equal(t, layout, is)
	}
	assert.Greater(t, cells, 1000)
}

func BenchmarkOver(b *testing.B) {
	owner, fresh := demo(b)
	b.ReportAllocs()
	for b.Loop() {
		_, _, err := carry.Over(owner, fresh)
		require.NoError(b, err)
	}
}
