package dev_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/internal/dev/reference/evaluate"
	"github.com/coverwright/coverwright/unit/cite"
)

// theTable evaluates the check table, once for all tests.
var theTable = sync.OnceValues(func() (reference.Report, error) {
	suites, err := evaluate.Suites()
	return reference.Run(suites), err
})

// The page of the check table is what its program prints now.
func TestReferencesAreFresh(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, rep.Markdown(&page))
	stored, err := os.ReadFile(filepath.Join(root, "examples", "references", "REFERENCES.md"))
	require.NoError(t, err)
	wanted, got := strings.Split(page.String(), "\n"), strings.Split(string(stored), "\n")
	for i := range min(len(wanted), len(got)) {
		require.Equal(t, wanted[i], got[i], "line %d: go -C examples generate ./references", i+1)
	}
	assert.Len(t, got, len(wanted), "go -C examples generate ./references")
}

// The last part of the page lists each row that rests on nothing outside, once and
// with a reason, and no other row.
func TestPageListsWhatRestsOnNothing(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, rep.Markdown(&page))
	listed := map[string]int{}
	for line := range strings.Lines(section(t, page.String(), "What rests on nothing outside")) {
		cells := strings.Split(line, "|")
		if len(cells) != 9 || strings.HasPrefix(line, "| package |") || strings.HasPrefix(line, "|--") {
			continue
		}
		assert.Greater(t, len(cells[6]), 20, "no reason: %s", line)
		for _, id := range strings.Fields(cells[7]) {
			listed[id]++
		}
	}
	for _, r := range rep.Rows {
		want := 1
		if r.Strength.Outside() {
			want = 0
		}
		assert.Equal(t, want, listed[r.ID], r.ID)
	}
}

// ofHundred gives whole shares that add up to a hundred: those with the largest
// remainders are rounded up.
func ofHundred(counts []int) []int {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	out, order, left := make([]int, len(counts)), make([]int, len(counts)), 100
	for i, n := range counts {
		out[i], order[i] = 100*n/sum, i
		left -= out[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return 100*counts[b]%sum - 100*counts[a]%sum })
	for _, i := range order[:left] {
		out[i]++
	}
	return out
}

// The README says of each hundred rows what the table does.
func TestReadmeSaysTheShares(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	var counts []int
	for _, st := range reference.Strengths() {
		counts = append(counts, rep.Summary.Of(st))
	}
	s := ofHundred(counts)
	text := strings.Join(strings.Fields(documents(t)[filepath.Join(root, "README.md")]), " ")
	wanted := fmt.Sprintf("%d meet a value that a document prints, %d copy one into a table, %d follow by arithmetic; "+
		"%d work a rule for which no text is cited, and %d only read such a figure back", s[0], s[1], s[2], s[3], s[4])
	assert.True(t, strings.Contains(text, wanted), "the first paragraph must say: %s", wanted)
	half := strings.Contains(documents(t)[filepath.Join(root, "examples", "references", "README.md")], "more than half of it")
	assert.Equal(t, 2*(counts[3]+counts[4]) > rep.Summary.Rows, half, "the README of the program says so of what rests on nothing outside")
	assert.Equal(t, []int{34, 33, 33}, ofHundred([]int{1, 1, 1}))
	assert.Equal(t, []int{5, 16, 29, 26, 24}, ofHundred([]int{88, 260, 476, 426, 407}))
}

func TestStrengthFollows(t *testing.T) {
	evs := one(reference.Numbers(1))
	evs["cell"] = evs["q"]
	for _, r := range []struct {
		status, source     string
		computed, readBack reference.Strength
	}{
		{"published", "NIST-SP811", reference.Independent, reference.Tabulated},
		{"standard", "UCUM", reference.Independent, reference.Tabulated},
		{"derived", "NIST-SP811", reference.Law, reference.Tabulated},
		{"derived", "", reference.Law, reference.Law},
		{"common practice", "", reference.UncitedRule, reference.ReadBack},
		{"from memory", "", reference.UncitedRule, reference.ReadBack},
	} {
		line := func(quantity string) string {
			return "u-" + quantity + "," + quantity + ",a=1,1,m,0," + r.status + "," + r.source + ",\n"
		}
		rep := reference.Run([]reference.Suite{{Package: "unit", Rows: rows(t, line("q")+line("cell")), Evaluators: evs, Cells: []string{"cell"},
			Why: map[string]string{"cell": "for a reason"}}})
		assert.Equal(t, r.computed, rep.Rows[0].Strength, r.status)
		assert.Equal(t, r.readBack, rep.Rows[1].Strength, r.status)
		assert.Equal(t, 2, rep.Summary.Of(reference.Strengths()...))
		uncited := r.source == "" && r.status != "derived"
		assert.Equal(t, uncited, rep.Rows[0].Why != "", r.status)
		assert.Equal(t, uncited, rep.Rows[1].Why == "for a reason", r.status)
	}
	assert.Equal(t, "Strength(9)", reference.Strength(9).String())
}

// founded takes what was read and what follows from it as one: a value that a
// document prints may well be held against exact arithmetic.
func founded(s cite.Status) cite.Status {
	if s == cite.Published || s == cite.Standard {
		return cite.Derived
	}
	return s
}

// A row is never marked better than the API that it calls says of itself.
func TestNoRowIsBetterThanItsAPI(t *testing.T) {
	rep, err := theTable()
	require.NoError(t, err)
	say := 0
	for _, r := range rep.Rows {
		if r.Basis != 0 {
			say++
		}
		assert.LessOrEqual(t, founded(r.Basis), founded(r.Status), "%s %s(%s) is marked %s, and what it calls says of itself: %s",
			r.ID, r.Quantity, r.Inputs, r.Status, r.Basis)
	}
	assert.Greater(t, say, len(rep.Rows)/3, "few evaluators hand on what the API says of itself")

	// The worst of several decides.
	evs := one(reference.Numbers(1).On(cite.In("NIST-SP811", ""), cite.Memory(""), cite.Practice("")))
	rep = reference.Run([]reference.Suite{{Package: "unit", Rows: rows(t, "u1,q,a=1,1,m,0,derived,,\n"), Evaluators: evs}})
	assert.Equal(t, cite.FromMemory, rep.Rows[0].Basis)
}

var number = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// nearby gives the inputs with one of their numbers changed, in all ways.
func nearby(inputs string) []string {
	var out []string
	for _, at := range number.FindAllStringIndex(inputs, -1) {
		x, err := strconv.ParseFloat(inputs[at[0]:at[1]], 64)
		if err != nil {
			continue
		}
		for _, y := range []float64{x + 1, x * 2, x * 1.1, math.Floor(x / 2)} {
			out = append(out, inputs[:at[0]]+strconv.FormatFloat(y, 'f', -1, 64)+inputs[at[1]:])
		}
	}
	return out
}

// answers tells whether a quantity has a row that gives another value when one
// of its numbers is another.
func answers(s reference.Suite, quantity string) bool {
	for _, r := range s.Rows {
		if r.Quantity != quantity {
			continue
		}
		got := reference.Run([]reference.Suite{{Rows: []reference.Row{r}, Evaluators: s.Evaluators}}).Rows[0].Got
		for _, in := range nearby(r.Inputs) {
			r.Inputs = in
			other := reference.Run([]reference.Suite{{Rows: []reference.Row{r}, Evaluators: s.Evaluators}}).Rows[0].Got
			if other != got && !strings.HasPrefix(other, "error: ") {
				return true
			}
		}
	}
	return false
}

// What the table calls computed follows from the numbers of its rows: a quantity
// that only finds a cell is named as one. The numbers of jobs stand in files.
func TestComputedIsComputed(t *testing.T) {
	suites, err := evaluate.Suites()
	require.NoError(t, err)
	for _, s := range suites {
		for q := range s.Evaluators {
			if slices.Contains(s.Cells, q) || strings.HasPrefix(q, "job_") {
				continue
			}
			assert.True(t, answers(s, q), "%s: %s gives the same for other numbers: a cell?", s.Package, q)
		}
		for q := range s.Why {
			assert.True(t, slices.ContainsFunc(s.Rows, func(r reference.Row) bool {
				return r.Quantity == q && (r.Status == cite.CommonPractice || r.Status == cite.FromMemory)
			}), "%s: no row of %s rests on nothing outside", s.Package, q)
		}
	}
}
