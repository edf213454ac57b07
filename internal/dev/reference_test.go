package dev_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

const head = "id,quantity,inputs,expected,unit,tolerance,status,source,note\n"

func rows(t *testing.T, lines string) []reference.Row {
	t.Helper()
	rs, err := reference.Read("unit", strings.NewReader(head+lines))
	require.NoError(t, err)
	return rs
}

func TestReadRefuses(t *testing.T) {
	for _, r := range []struct{ text, want string }{
		{"id,quantity\n", "unit.csv"},
		{"a,b,c,d,e,f,g,h,i\n", "header is"},
		{head + "u1,q,a=1,1,m,0,published,NIST-SP811\n", "unit.csv: record on line 2"},
		{head + "u1,q,a=1,1,m,0,guessed,,\n", `unit.csv:2: status "guessed"`},
		{head + "u1,q,a=1,1,m,0,published,,\n", "unit.csv:2: row u1: status published needs a source"},
		{head + "u1,q,a=1,1,m,0,standard,,\n", "row u1: status standard needs a source"},
		{head + "u1,q,a=1,1,m,0,common practice,NIST-SP811,\n", "row u1: status common practice takes no source"},
		{head + "u1,q,a=1,1,m,0,from memory,NIST-SP811,\n", "row u1: status from memory takes no source"},
		{head + "u1,q,a=1,1,m,0,published,NO-SUCH,\n", `row u1: unknown source "NO-SUCH"`},
		{head + "u1,q,a=1,1,m,0,derived,NO-SUCH,\n", `row u1: unknown source "NO-SUCH"`},
		{head + ",q,a=1,1,m,0,derived,,\n", "must not be empty"},
		{head + "u1,,a=1,1,m,0,derived,,\n", "must not be empty"},
		{head + "u1,q,a=1,,m,0,derived,,\n", "must not be empty"},
		{head + "u1,q,a=1,1,m,,derived,,\n", "must not be empty"},
		{head + "u1,q,a=1,1,m,wide,derived,,\n", `tolerance "wide"`},
		{head + "u1,q,a=1,1,m,-1,derived,,\n", `tolerance "-1"`},
		{head + "u1,q,a=1,1,m,NaN,derived,,\n", `tolerance "NaN"`},
		{head + "u1,q,a=1,1,m,Inf,derived,,\n", `tolerance "Inf"`},
		{head + "u1,q,a=1,1,m,NaN%,derived,,\n", `tolerance "NaN%"`},
		{head + "\nu1,q,\"a=1\n", "unit.csv"},
	} {
		_, err := reference.Read("unit", strings.NewReader(r.text))
		assert.ErrorContains(t, err, r.want, "%q", r.text)
	}
	none, err := reference.Read("unit", strings.NewReader(""))
	require.Error(t, err, "not even a header")
	assert.Empty(t, none)
	_, err = reference.Rows("no-such-package")
	require.Error(t, err)
}

func one(v reference.Value) map[string]reference.Evaluator {
	return map[string]reference.Evaluator{"q": func(in *reference.Inputs, _ string) (reference.Value, error) { in.Text("a"); return v, nil }}
}

// Each row is held against a value, to the edge of its tolerance.
func TestCompare(t *testing.T) {
	for _, r := range []struct {
		expected, tolerance string
		v                   reference.Value
		ok                  bool
	}{
		{"2.5", "0", reference.Numbers(2.5), true},
		{"2.5", "0", reference.Numbers(2.5000000000001), false},
		{"0", "0", reference.Numbers(0), true},
		{"0", "0", reference.Numbers(5e-324), false},
		{"2.5", "0.05", reference.Numbers(2.54), true},
		{"2.5", "0.05", reference.Numbers(2.56), false},
		{"2.5", "0.05", reference.Numbers(2.44), false},
		{"-200", "1%", reference.Numbers(-201.9), true},
		{"-200", "1%", reference.Numbers(-202.1), false},
		{"1;2", "0.1", reference.Numbers(1.05, 2.05), true},
		{"1; 2", "0.1", reference.Numbers(1, 2), true},
		{"1;2", "0.1", reference.Numbers(1, 2.2), false},
		{"1;2", "0.1", reference.Numbers(1.2, 2), false},
		{"1;2", "0.1", reference.Numbers(1), false},
		{"1", "0.1", reference.Numbers(1, 2), false},
		{"1", "exact", reference.Numbers(1), true},
		{"1", "exact", reference.Numbers(1.001), false},
		{"1", "1e9", reference.Numbers(math.NaN()), false},
		{"1", "1e9", reference.Numbers(math.Inf(1)), false},
		{"NaN", "1e9", reference.Numbers(math.NaN()), false},
		{"Inf", "0", reference.Numbers(math.Inf(1)), false},
		{"Inf", "0", reference.Numbers(3), false},
		{"many", "0", reference.Numbers(3), false},
		{"1", "0", reference.Numbers(), false},
		{"12.50 EUR", "exact", reference.Text("12.50 EUR"), true},
		{"12.50 EUR", "exact", reference.Text("12.5 EUR"), false},
		{"12.50 EUR", "0", reference.Text("12.50 EUR"), false},
		{"12.50", "100%", reference.Text("12.50"), false},
		{"1", "exact", reference.Text(""), false},
	} {
		s := reference.Suite{Package: "unit", Rows: []reference.Row{{ID: "u1", Package: "unit", Quantity: "q", Inputs: "a=1", Expected: r.expected,
			Tolerance: r.tolerance, Status: cite.Derived}}, Evaluators: one(r.v)}
		rep := reference.Run([]reference.Suite{s})
		require.Len(t, rep.Rows, 1)
		assert.Equal(t, r.ok, rep.Rows[0].OK, "%+v: %+v", r, rep.Rows[0])
		if r.ok {
			assert.Zero(t, rep.Summary.Failed)
		} else {
			assert.Equal(t, 1, rep.Summary.Failed)
		}
	}
	for _, bad := range []string{"NaN", "-1", "Inf", "wide", "NaN%", "Inf%", ""} {
		s := reference.Suite{Rows: []reference.Row{{ID: "u1", Quantity: "q", Inputs: "a=1", Expected: "1", Tolerance: bad}}, Evaluators: one(reference.Numbers(1))}
		assert.False(t, reference.Run([]reference.Suite{s}).Rows[0].OK, "tolerance %q", bad)
	}
}

func TestRunFailsARow(t *testing.T) {
	rs := rows(t, "u1,q,a=1,1,m,0,derived,,\nu2,missing,a=1,1,m,0,derived,,\nu3,q,a=1; b=2,1,m,0,derived,,\nu4,q,b=2,1,m,0,derived,,\n"+
		"u5,broken,a=1,1,m,0,derived,,\nu6,length,a=1,1,m,0,derived,,\nu7,length,a=1 m,1,m,0,derived,,\nu8,q,a=1;b,1,m,0,derived,,\nu9,q,a=1;a=1,1,m,0,derived,,\n")
	evs := one(reference.Numbers(1))
	evs["broken"] = func(in *reference.Inputs, _ string) (reference.Value, error) {
		in.Text("a")
		return reference.Numbers(1), errors.New("no answer")
	}
	evs["length"] = func(in *reference.Inputs, _ string) (reference.Value, error) {
		return reference.Numbers(in.Length("a").Metres()), nil
	}
	rep := reference.Run([]reference.Suite{{Package: "unit", Rows: rs, Evaluators: evs}})
	got := map[string]string{}
	for _, r := range rep.Rows {
		got[r.ID] = r.Got
		assert.Equal(t, r.ID == "u1" || r.ID == "u7", r.OK, "%+v", r)
	}
	assert.Equal(t, "no evaluator for missing", got["u2"])
	assert.Equal(t, `error: input "b" was never read`, got["u3"])
	assert.Equal(t, `error: input "a" is missing from "b=2"`, got["u4"])
	assert.Equal(t, "error: no answer", got["u5"])
	assert.Contains(t, got["u6"], "unit missing")
	assert.Contains(t, got["u8"], "want name=value")
	assert.Contains(t, got["u9"], "never read")
	assert.Equal(t, 9, rep.Summary.Rows)
	assert.Equal(t, 7, rep.Summary.Failed)
	assert.Equal(t, map[string]int{"unit": 9}, rep.Summary.ByPackage)
	assert.Equal(t, 9, rep.Summary.ByStatus["derived"])
}

func TestFaultsNamesWhatIsWrongWithTheTable(t *testing.T) {
	rs := rows(t, "u1,q,a=1,1,m,0,published,NIST-SP811,\nu1,q,a=1,1,m,0,derived,,\nu3,missing,a=1,1,m,0,derived,,\n")
	evs := one(reference.Numbers(1))
	evs["idle"] = evs["q"]
	faults := reference.Faults([]reference.Suite{{Package: "unit", Rows: rs, Evaluators: evs}, {Package: "foam"}})
	assert.Contains(t, faults, "row u1: id stands twice")
	assert.Contains(t, faults, "row u3: no evaluator for missing")
	assert.Contains(t, faults, "package unit: no row uses evaluator idle")
	assert.Contains(t, faults, "package foam: no rows")
	assert.Contains(t, faults, "source UCUM: no row uses it")
	assert.NotContains(t, faults, "source NIST-SP811: no row uses it")
	// An id is unique in the whole table, not only in its package.
	faults = reference.Faults([]reference.Suite{{Package: "unit", Rows: rs[:1], Evaluators: one(reference.Numbers(1))}, {Package: "foam", Rows: rs[:1], Evaluators: one(reference.Numbers(1))}})
	assert.Contains(t, faults, "row u1: id stands twice")
}

func TestInputsReadEveryKind(t *testing.T) {
	in := reference.ParseInputs("f=2.5; n=3; b=true; l=1 in; t=3 oz; ar=1 sq ft; v=1 l; m=1 kg; fo=1 N; p=1 Pa; d=1 kg/m3; ld=90 tex; an=45 deg; r=25 %; du=2 h; s=a b  c; x = y ")
	assert.InDelta(t, 2.5, in.Float("f"), 0)
	assert.Equal(t, 3, in.Int("n"))
	assert.True(t, in.Bool("b"))
	assert.Equal(t, unit.Inch, in.Length("l"))
	assert.Equal(t, 3*unit.LeatherOunce, in.Thickness("t"))
	assert.Equal(t, unit.SquareFoot, in.Area("ar"))
	assert.Equal(t, unit.Litre, in.Volume("v"))
	assert.Equal(t, unit.Kilogram, in.Mass("m"))
	assert.Equal(t, unit.Newton, in.Force("fo"))
	assert.Equal(t, unit.Pascal, in.Pressure("p"))
	assert.Equal(t, unit.KilogramPerCubicMetre, in.Density("d"))
	assert.Equal(t, 90*unit.Tex, in.LinearDensity("ld"))
	assert.Equal(t, 45*unit.Degree, in.Angle("an"))
	assert.Equal(t, 25*unit.Percent, in.Ratio("r"))
	assert.Equal(t, 2*unit.Hour, in.Duration("du"))
	assert.Equal(t, []string{"a", "b", "c"}, in.List("s"))
	require.True(t, in.Has("x"))
	require.False(t, in.Has("y"))
	require.ErrorContains(t, in.Err(), `"x" was never read`)
	assert.Equal(t, "y", in.Text("x"))
	require.NoError(t, in.Err())

	single := reference.ParseInputs(" 1 in -> mm ")
	assert.Equal(t, "1 in -> mm", single.Text(""))
	require.NoError(t, single.Err())

	for _, bad := range []func(in *reference.Inputs){
		func(in *reference.Inputs) { in.Float("a") }, func(in *reference.Inputs) { in.Int("a") }, func(in *reference.Inputs) { in.Bool("a") }, func(in *reference.Inputs) { in.Mass("a") },
	} {
		in := reference.ParseInputs("a=x")
		bad(in)
		require.ErrorContains(t, in.Err(), `input "a"`)
	}
}

func TestPrinting(t *testing.T) {
	rs := rows(t, "u1,q,a=1,1,m,0,published,NIST-SP811,table | one\nu2,q,a=1,2,m,0,derived,,\n")
	rep := reference.Run([]reference.Suite{{Package: "unit", Rows: rs, Evaluators: one(reference.Numbers(1))}})
	var text, md, js bytes.Buffer
	require.NoError(t, rep.Text(&text))
	assert.Contains(t, text.String(), "2 rows, 1 failed, 1 documents")
	assert.Contains(t, text.String(), "FAIL")
	assert.Contains(t, text.String(), "NIST Special Publication 811")
	require.NoError(t, rep.Markdown(&md))
	assert.Contains(t, md.String(), `table \| one`)
	for line := range strings.Lines(md.String()) {
		if strings.HasPrefix(line, "| u") {
			assert.Equal(t, 14, strings.Count(strings.ReplaceAll(line, `\|`, ""), "|"), line)
		}
	}
	require.NoError(t, rep.JSON(&js))
	var back struct {
		Rows []struct {
			ID, Package, Quantity, Inputs, Expected, Got, Unit, Tolerance, Deviation, Status, Source string
			OK                                                                                       *bool
		}
		Summary struct {
			Rows, Failed, Sources int
			ByStatus              map[string]int `json:"by_status"`
		}
	}
	dec := json.NewDecoder(&js)
	require.NoError(t, dec.Decode(&back))
	require.Len(t, back.Rows, 2)
	assert.Equal(t, "published", back.Rows[0].Status)
	require.NotNil(t, back.Rows[1].OK)
	assert.False(t, *back.Rows[1].OK)
	assert.Equal(t, 1, back.Summary.Failed)
	assert.Len(t, back.Summary.ByStatus, 5)
}

func FuzzRead(f *testing.F) {
	f.Add(head + "u1,q,a=1,1,m,0,derived,,\n")
	f.Add(head)
	f.Add("\"")
	f.Fuzz(func(t *testing.T, text string) {
		rs, err := reference.Read("unit", strings.NewReader(text))
		if err != nil {
			return
		}
		rep := reference.Run([]reference.Suite{{Package: "unit", Rows: rs, Evaluators: one(reference.Numbers(1))}})
		for _, r := range rep.Rows {
			if r.OK && r.Quantity != "q" {
				t.Fatalf("row %q holds without an evaluator", r.ID)
			}
		}
	})
}
