package dev_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/pages"
)

func TestWork(t *testing.T) {
	for block, want := range map[string]pages.Result{
		"a = 2 × 3 = 6 in": {Value: 6, Unit: "in"},
		"w = 24 in; h = 3 in\nR = w² / (8 h) + h / 2 = 576 / 24 + 1.5 = 25.5 in": {Value: 25.5, Unit: "in"},
		"R = 25 1/2 in\ns = √2 R ≈ 36.06 in":                                     {Value: 36.06, Half: 0.005, Unit: "in"},
		"t = 4 atan(2 × 3 / 24) ≈ 56.14°":                                        {Value: 56.14, Half: 0.005, Unit: "°"},
		"n = ⌈7 / 2⌉ - ⌊7 / 2⌋ = 1":                                              {Value: 1},
		"s = 15 % × 40 = 6 yd":                                                   {Value: 6, Unit: "yd"},
		"v = 1 ft³/min × 2 = 2 ft³/min":                                          {},
		"m = max(1, 2 × 3, 4) - min(5, 6) + sin 30° = 1.5":                       {Value: 1.5},
		"p = 1,234.50 + 1 = 1,235.50 USD":                                        {Value: 1235.5, Unit: "USD"},
		"L₁ = 2^3 = 8; L₂ = -L₁ + 1 = -7":                                        {Value: -7},
	} {
		got, err := pages.Work(block)
		if want == (pages.Result{}) {
			assert.Error(t, err, block)
			continue
		}
		require.NoError(t, err, block)
		assert.InDelta(t, want.Value, got.Value, 1e-12, block)
		assert.InDelta(t, want.Half, got.Half, 1e-12, block)
		assert.Equal(t, want.Unit, got.Unit, block)
	}
	for _, wrong := range []string{"a = 2 × 3 = 7", "a = 2 / 3 = 0.67", "a = 2 / 3 ≈ 0.66", "a = 2 b = 4", "a 3", "a = 3\na = 4", "a = (2 = 2", "a = 3 = b", "a = in", "a = 1/0 x = 1"} {
		_, err := pages.Work(wrong)
		assert.Error(t, err, wrong)
	}
}

func TestResultIsInText(t *testing.T) {
	r := pages.Result{Value: 36.06, Half: 0.005, Unit: "in"}
	for text, is := range map[string]bool{
		"welt 36.0624 in": true, "36 1/16 in, cut": true, "36.06 cm": false, "136.06 in": false, "36.07 in": false,
	} {
		assert.Equal(t, is, r.Is(text), text)
	}
	assert.True(t, pages.Result{Value: 25.5, Unit: "in"}.Is("radius 25 1/2 in"))
	assert.True(t, pages.Result{Value: 1235.5}.Is("USD 1,235.50"))
	assert.False(t, pages.Result{Value: 25.5, Unit: "in"}.Is("radius 25 in"))
}

func TestCheckFindsWhatIsWrong(t *testing.T) {
	example := "<!-- example F -->\n```go\nf()\n```\n\nprints\n\n```text\n6 in\n```\n<!-- end -->\n"
	right, faults := pages.Check("```text\na = 2 × 3 = 6 in\n```\n" + example)
	assert.Equal(t, 1, right)
	assert.Empty(t, faults)
	for _, wrong := range []string{
		"```text\na = 2 × 3 = 7 in\n```\n" + example,
		"```text\na = 2 × 4 = 8 in\n```\n" + example,
		"```text\na = 2 × 3 = 6 cm\n```\n" + example,
		example + "```text\na = 2 × 3 = 6 in\n```\n",
		"```text\na = 2 × 3 = 6 in\n```\n<!-- doc F -->\n<!-- end -->\n",
	} {
		_, faults := pages.Check(wrong)
		assert.Len(t, faults, 1, wrong)
	}
}

func TestUnworked(t *testing.T) {
	doc := func(name string) string { return "<!-- doc " + name + " -->\nwords\n<!-- end -->\n" }
	sum := "```text\na = 2 × 3 = 6 in\n```\n"
	example := "<!-- example F -->\n```text\n6 in\n```\n<!-- end -->\n"
	page := doc("A") + sum + example + doc("B") + example + doc("C") + doc("D") + sum + example
	assert.Equal(t, []string{"B", "E"}, pages.Unworked(page, []string{"A", "B", "C", "D", "E"}))
}
