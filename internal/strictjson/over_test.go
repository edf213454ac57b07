package strictjson

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

type stock struct {
	Name string `json:"name" required:"true" hint:"a name"`
	Size string `json:"size" required:"true" hint:"a size"`
	Tags []int  `json:"tags"`
}

type yard struct {
	Kind  string         `json:"kind"`
	Stock []stock        `json:"stock"`
	Loose []stock        `json:"loose"`
	Rate  map[string]int `json:"rate"`
	Pick  pick           `json:"pick"`
}

type pick struct {
	One  string `json:"one"`
	Two  string `json:"two"`
	Must string `json:"must" required:"true" hint:"this"`
}

var joins = Joins{By: map[unit.Path]string{"stock": "name"}, Instead: map[unit.Path][][]string{"pick": {{"one", "two"}}}, Apart: []unit.Path{"kind"},
	Take: func(_ unit.Path, key string) bool { return key != "unwanted" }}

func parsed(t *testing.T, text string) *Document {
	t.Helper()
	d, err := Parse(strings.NewReader(text))
	require.NoError(t, err)
	return d
}

// What lies above holds, down to fields, and what is not there is from below.
func TestOver(t *testing.T) {
	lower := parsed(t, `{"kind": "lower", "stock": [{"name": "a", "size": "1", "tags": [1]}, {"name": "unwanted", "size": "2"}, {"name": "b", "size": "3"}],
		"loose": [{"name": "x", "size": "9"}], "rate": {"p": 1, "q": 2}, "pick": {"two": "2", "must": "m"}}`)
	for name, c := range map[string]struct {
		upper string
		want  yard
	}{
		"nothing": {`{}`, yard{Stock: []stock{{"a", "1", []int{1}}, {"b", "3", nil}}, Loose: []stock{{"x", "9", nil}}, Rate: map[string]int{"p": 1, "q": 2}, Pick: pick{"", "2", "m"}}},
		"fields": {`{"kind": "upper", "stock": [{"name": "new", "size": "7"}, {"name": "a", "tags": []}], "loose": [], "rate": {"q": 0}, "pick": {"one": "1"}}`,
			yard{Kind: "upper", Stock: []stock{{"new", "7", nil}, {"a", "1", []int{}}, {"b", "3", nil}}, Loose: []stock{}, Rate: map[string]int{"p": 1, "q": 0}, Pick: pick{"1", "", "m"}}},
		"none": {`{"stock": []}`, yard{Stock: []stock{}, Loose: []stock{{"x", "9", nil}}, Rate: map[string]int{"p": 1, "q": 2}, Pick: pick{"", "2", "m"}}},
	} {
		var got yard
		require.NoError(t, parsed(t, c.upper).Over(lower, joins).Decode(&got), name)
		assert.Equal(t, c.want, got, name)
	}
	var alone yard
	require.NoError(t, lower.Decode(&alone))
	assert.Len(t, alone.Stock, 3, "what lies beneath is not changed")
}

// Faults are told where they stand, through three documents.
func TestFaultsOfDocumentsOverEachOther(t *testing.T) {
	first := parsed(t, "{\"stock\": [\n{\"name\": \"a\", \"size\": 1},\n{\"name\": \"unwanted\"},\n{\"name\": \"b\"},\n{\"name\": \"c\",\n\"size\": 3}]}").Named("first")
	second := parsed(t, "{\"stock\": [\n{\"name\": \"c\",\n\"tags\": [\"x\"]}]}").Named("second")
	third := parsed(t, "{\"stock\": [{\"name\": \"d\", \"colour\": \"red\"},\n{\"name\": \"a\", \"tags\": true}], \"pick\": {}}")
	d := third.Over(second.Over(first, joins), joins)
	var v yard
	err := d.Decode(&v)
	var fs Faults
	require.ErrorAs(t, err, &fs)
	got := make([]string, len(fs))
	for i, f := range fs {
		place, _, _ := strings.Cut(f.Error(), ": ")
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		got[i] = place + " " + string(in.Field)
	}
	assert.ElementsMatch(t, []string{
		"line 1 stock[0].colour", "line 1 stock[0].size", "line 2 stock[1].tags", "line 2 pick.must",
		"in the first, line 2 stock[0].size", "in the first, line 4 stock[2].size", "in the first, line 6 stock[3].size", "in the second, line 3 stock[0].tags[0]",
	}, got, "%v", err)

	for field, want := range map[unit.Path]string{
		"stock[2].name": "second 2 stock[0].name", "stock[2].size.x": "first 6 stock[3].size.x", "stock[3].nowhere": "first 4 stock[2].nowhere",
		"stock[9]": " 1 stock[9]", "rate.p": " 1 rate.p", "": " 1 ", "pick.two": " 2 pick.two",
	} {
		f := d.Place(&unit.InputError{Field: field, Err: unit.ErrRange})
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		assert.Equal(t, want, fmt.Sprintf("%s %d %s", f.File, f.Line, in.Field), field)
	}
}

// Of a part only what it must have by itself is asked for.
func TestDecodePart(t *testing.T) {
	var v yard
	require.NoError(t, parsed(t, `{"stock": [{"name": "a"}], "pick": {}}`).DecodePart(&v, joins))
	for text, want := range map[string]unit.Path{`{"stock": [{"size": "1"}]}`: "stock[0].name", `{"loose": [{"name": "a"}]}`: "loose[0].size"} {
		var in *unit.InputError
		require.ErrorAs(t, parsed(t, text).DecodePart(&v, joins), &in, text)
		assert.Equal(t, want, in.Field)
	}
}
