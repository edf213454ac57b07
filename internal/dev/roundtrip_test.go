package dev_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/dev/roundtrip"
)

func TestStructs(t *testing.T) {
	names, err := roundtrip.Structs(fstest.MapFS{
		"a.go":      {Data: []byte("package a\ntype B struct{}\ntype A[Q any] struct{}\ntype c struct{}\ntype D int\n")},
		"b.go":      {Data: []byte("package a\ntype E struct{}\nfunc (e *E) Error() string { return \"\" }\n")},
		"a_test.go": {Data: []byte("package a\ntype T struct{}\n")},
	})
	require.NoError(t, err)
	assert.Equal(t, []string{"A", "B"}, names)
	_, err = roundtrip.Structs(fstest.MapFS{"a.go": {Data: []byte("pack age")}})
	assert.Error(t, err)
}

type good struct {
	A string `json:"a"`
	B []int  `json:"b_1,omitempty"`
}

type hidden struct {
	A string `json:"a"`
	b int
}

type untagged struct{ A string }

type camel struct {
	A string `json:"aB"`
}

type lossy struct {
	A []int `json:"a,omitempty"`
}

type unwritable struct {
	A func() `json:"a"`
}

type generic[Q any] struct {
	A Q `json:"a"`
}

type embedding struct {
	good
	C string `json:"c"`
}

func TestFault(t *testing.T) {
	for _, v := range []any{good{}, good{"x", []int{1}}, generic[int]{3}, embedding{good{A: "x"}, "y"}} {
		assert.NoError(t, roundtrip.Fault(v))
	}
	for _, v := range []any{hidden{b: 1}, untagged{}, camel{}, lossy{[]int{}}, unwritable{func() {}}} {
		assert.Error(t, roundtrip.Fault(v), "%T", v)
	}
	assert.Equal(t, "generic", roundtrip.Name(generic[good]{}))
}

func TestFaults(t *testing.T) {
	dir := fstest.MapFS{"a.go": {Data: []byte("package a\ntype Good struct{}\ntype Other struct{}\ntype Left struct{}\n")}}
	type Good = good
	faults, err := roundtrip.Faults(dir, []any{Good{}, untagged{"x"}}, "Left", "None")
	require.NoError(t, err)
	assert.Equal(t, []string{"dev_test.good is empty", "dev_test.untagged.A: \"\" is no name in snake case", "dev_test.untagged.A: \"\" is no name in snake case",
		"Good is not tried", "Other is not tried", "None is no exception"}, faults)
	_, err = roundtrip.Faults(fstest.MapFS{"a.go": {Data: []byte("pack age")}}, nil)
	assert.Error(t, err)
}
