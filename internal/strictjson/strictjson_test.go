package strictjson

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

type piece struct {
	Name   string                 `json:"name" required:"true" hint:"a name"`
	Width  unit.Length            `json:"width" required:"true" hint:"a length"`
	Count  int                    `json:"count"`
	Stay   bool                   `json:"stay"`
	Waste  unit.Ratio             `json:"waste"`
	Hidden string                 // no tag: takes no part
	Never  string                 `json:"-"`
	Edge   *edge                  `json:"edge"`
	Limit  *unit.Length           `json:"limit"`
	Marks  map[string]unit.Length `json:"marks"`
	Stitch uint16                 `json:"stitch"`
}

type edge struct {
	Seam unit.Length `json:"seam"`
}

type job struct {
	Title  string   `json:"title" required:"true" hint:"a title"`
	Pieces []piece  `json:"pieces"`
	Tags   []string `json:"tags,omitempty"`
}

func decode(t *testing.T, text string) (job, error) {
	t.Helper()
	var j job
	d, err := Parse(strings.NewReader(text))
	if err != nil {
		return j, err
	}
	return j, d.Decode(&j)
}

func TestDecodeReadsEveryShape(t *testing.T) {
	j, err := decode(t, "\ufeff"+`{"title":"wing chair","tags":["a","b"],"pieces":[
		{"name":"seat","width":"22 1/2 in","count":2,"stay":true,"waste":"15 %","edge":{"seam":"1/2 in"},"limit":"1 m","marks":{"top left":"3 in"},"stitch":301},
		{"name":"back","width":"0.5 m","waste":0.1}]}`)
	require.NoError(t, err)
	metre := unit.Metre
	assert.Equal(t, job{Title: "wing chair", Tags: []string{"a", "b"}, Pieces: []piece{
		{Name: "seat", Width: 22*unit.Inch + unit.Inch/2, Count: 2, Stay: true, Waste: 0.15, Edge: &edge{unit.Inch / 2}, Limit: &metre, Marks: map[string]unit.Length{"top left": 3 * unit.Inch}, Stitch: 301},
		{Name: "back", Width: 500 * unit.Millimetre, Waste: 0.1},
	}}, j)
	j, err = decode(t, `{"title":"","pieces":[]}`)
	require.NoError(t, err)
	assert.NotNil(t, j.Pieces)
}

// either is a list of texts, or one text that stands for several.
type either []string

func (e *either) UnmarshalText(text []byte) error {
	*e = strings.Fields(string(text))
	if len(*e) == 0 {
		return errors.New("no words")
	}
	return nil
}

func (e *either) UnmarshalJSON(text []byte) error { return errors.New("not asked for") }

// A text or a list is read into a list type that reads JSON of its own, and
// nothing else is.
func TestDecodeReadsTextOrList(t *testing.T) {
	var v struct {
		Words either `json:"words"`
	}
	for text, want := range map[string]either{`{"words": "a b"}`: {"a", "b"}, `{"words": ["a b", "c"]}`: {"a b", "c"}, `{"words": []}`: {}} {
		d, err := Parse(strings.NewReader(text))
		require.NoError(t, err)
		require.NoError(t, d.Decode(&v), text)
		assert.Equal(t, want, v.Words, text)
	}
	for text, place := range map[string]unit.Path{`{"words": " "}`: "words", `{"words": {}}`: "words", `{"words": [1]}`: "words[0]"} {
		d, err := Parse(strings.NewReader(text))
		require.NoError(t, err)
		var in *unit.InputError
		require.ErrorAs(t, d.Decode(&v), &in, text)
		assert.Equal(t, place, in.Field, text)
	}
}

func TestDecodeReportsEveryFaultWithPathAndLine(t *testing.T) {
	_, err := decode(t, `{
  "titel": "x",
  "pieces": [
    {"name": "seat", "width": "22,5 in"},
    {"name": "seat", "width": 22,
     "colour": "red", "count": 1.5},
    {"width": "4 furlongs", "stay": "yes", "name": 7,
     "edge": {"seam": null, "seam": "1 in"},
     "width": "3 in"},
    "back",
    {"name": null, "width": ["1 in"], "waste": true, "edge": [], "limit": {}, "marks": []},
    {"name": "x", "width": "1 in", "marks": {"a": "1", "b": "2 in", "b": "3 in"}, "stitch": 70000}
  ],
  "tags": {"a": 1}
}`)
	var fs Faults
	require.ErrorAs(t, err, &fs)
	want := []struct {
		line int
		path string
		is   error
	}{
		{1, "title", unit.ErrRequired},
		{2, "titel", ErrUnknownField},
		{4, "pieces[0].width", unit.ErrDecimalComma},
		{5, "pieces[1].width", unit.ErrMissingUnit},
		{6, "pieces[1].colour", ErrUnknownField},
		{6, "pieces[1].count", ErrWrongType},
		{7, "pieces[2].width", unit.ErrUnknownUnit},
		{7, "pieces[2].stay", ErrWrongType},
		{7, "pieces[2].name", ErrWrongType},
		{8, "pieces[2].edge.seam", ErrTwice},
		{8, "pieces[2].edge.seam", ErrWrongType},
		{9, "pieces[2].width", ErrTwice},
		{10, "pieces[3]", ErrWrongType},
		{11, "pieces[4].name", ErrWrongType},
		{11, "pieces[4].width", ErrWrongType},
		{11, "pieces[4].waste", ErrWrongType},
		{11, "pieces[4].edge", ErrWrongType},
		{11, "pieces[4].limit", ErrWrongType},
		{11, "pieces[4].marks", ErrWrongType},
		{12, "pieces[5].marks.a", unit.ErrMissingUnit},
		{12, "pieces[5].marks.b", ErrTwice},
		{12, "pieces[5].stitch", ErrWrongType},
		{14, "tags", ErrWrongType},
	}
	got := map[string]bool{}
	for _, f := range fs {
		var in *unit.InputError
		require.ErrorAs(t, f, &in)
		got[fmt.Sprintf("%d %s %v", f.Line, in.Field, in.Err)] = true
	}
	for _, w := range want {
		key := fmt.Sprintf("%d %s %v", w.line, w.path, w.is)
		assert.True(t, got[key], "missing: %s\ngot:\n%v", key, err)
		assert.ErrorIs(t, err, w.is)
	}
	assert.Len(t, fs, len(want), "%v", err)
	for i := 1; i < len(fs); i++ {
		assert.LessOrEqual(t, fs[i-1].Line, fs[i].Line, "in the order of the file")
	}
	assert.Contains(t, err.Error(), "line 4: pieces[0].width: “22,5 in”: comma in a number")
	assert.Contains(t, err.Error(), "line 2: titel: unknown field; want one of title, pieces, tags")
}

func TestParseRefuses(t *testing.T) {
	deep := strings.Repeat(`[`, maxDepth+1) + strings.Repeat(`]`, maxDepth+1)
	for _, r := range []struct {
		text string
		is   error
		line int
	}{
		{"", ErrMalformed, 1},
		{" \n\n ", ErrMalformed, 3},
		{"{", ErrMalformed, 1},
		{"{\n\"a\": [1,\n", ErrMalformed, 2},
		{"{\n\"a\": 1\n", ErrMalformed, 3 - 1},
		{"{\n\"a\": 1,\n}", ErrMalformed, 3},
		{"{\n\"a\": [1,\n]}", ErrMalformed, 3},
		{"{\n\"a\" 1}", ErrMalformed, 2},
		{"{\n\n'a': 1}", ErrMalformed, 3},
		{"{1: 2}", ErrMalformed, 1},
		{"{\"a\": 1}\n{\"b\": 2}", ErrMalformed, 2},
		{"{\"a\": 1}\n\n]", ErrMalformed, 3},
		{"[1}", ErrMalformed, 1},
		{"[01]", ErrMalformed, 1},
		{"[NaN]", ErrMalformed, 1},
		{"[1] // note", ErrMalformed, 1},
		{"\"a\nb\"", ErrMalformed, 1},
		{"\n" + deep, ErrTooDeep, 2},
		{strings.Repeat(`{"a":`, 100_000), ErrTooDeep, 1},
		{strings.Repeat(" ", maxBytes+1), ErrTooLarge, 0},
		{"\x00", ErrMalformed, 1},
		{"\xff\xfe{", ErrMalformed, 1},
	} {
		_, err := Parse(strings.NewReader(r.text))
		name := r.text[:min(len(r.text), 30)]
		require.ErrorIs(t, err, r.is, "%q", name)
		var f *Fault
		require.ErrorAs(t, err, &f, "%q", name)
		assert.Equal(t, r.line, f.Line, "%q: %v", name, err)
		assert.NotContains(t, err.Error(), "\n", "%q", name)
	}
	nested := strings.Repeat(`[`, maxDepth) + strings.Repeat(`]`, maxDepth)
	_, err := Parse(strings.NewReader(nested))
	require.NoError(t, err, "the limit itself is accepted")
	_, err = Parse(strings.NewReader("{}" + strings.Repeat(" ", maxBytes-2)))
	require.NoError(t, err, "the limit itself is accepted")

	broken := errors.New("broken disk")
	_, err = Parse(iotest.ErrReader(broken))
	require.ErrorIs(t, err, broken)
}

// endless gives an unbounded file; Parse must not read it to its end.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '['
	}
	e.read += len(p)
	return len(p), nil
}

func TestParseStopsReading(t *testing.T) {
	e := &endless{}
	_, err := Parse(e)
	require.ErrorIs(t, err, ErrTooLarge)
	assert.LessOrEqual(t, e.read, 2*maxBytes)
}

func TestRootMustBeAnObject(t *testing.T) {
	for _, text := range []string{"null", "1", `"x"`, "[]", "true"} {
		_, err := decode(t, text)
		require.ErrorIs(t, err, ErrWrongType, text)
	}
}

func TestFaultsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString(`{"title":"x"`)
	for i := range 50_000 {
		fmt.Fprintf(&b, ",\n\"f%d\":1", i)
	}
	b.WriteString("}")
	_, err := decode(t, b.String())
	var fs Faults
	require.ErrorAs(t, err, &fs)
	require.Len(t, fs, maxFaults+1)
	require.ErrorIs(t, fs[maxFaults], ErrMoreFaults)

	exactly := `{"title":"x"` + strings.Repeat(`,"f":1`, maxFaults) // one unknown field, the rest stand twice
	_, err = decode(t, exactly+"}")
	require.ErrorAs(t, err, &fs)
	require.Len(t, fs, maxFaults)
	require.NotErrorIs(t, err, ErrMoreFaults)
}

func TestHostileNamesStayOnOneLine(t *testing.T) {
	_, err := decode(t, `{"title":"x","`+strings.Repeat("y", 1<<20)+`":1,"a\nb\u001b[31m":2}`)
	require.ErrorIs(t, err, ErrUnknownField)
	assert.Less(t, len(err.Error()), 2000)
	assert.Equal(t, 1, strings.Count(err.Error(), "\n"), "one line a fault")
	assert.NotContains(t, err.Error(), "\x1b")
}

func TestLocate(t *testing.T) {
	d, err := Parse(strings.NewReader("{\n\"title\": \"x\",\n\"pieces\": [\n{\"name\": \"a\"},\n{\"name\": \"b\",\n\"width\": \"1 in\"}]}"))
	require.NoError(t, err)
	require.NoError(t, d.Locate(nil))
	require.NoError(t, d.Locate([]error{nil}))
	at := func(field unit.Path) error { return &unit.InputError{Field: field, Err: unit.ErrRange} }
	plain := errors.New("plain")
	err = d.Locate([]error{
		at("pieces[1].width"), at("title"), at("pieces[1].height"), at("pieces[7]"), at("pieces[7].y"), at("nowhere.at.all"), at(""),
		at("title.sub"), plain, errors.Join(at("pieces[0].name"), at("pieces")),
	})
	var fs Faults
	require.ErrorAs(t, err, &fs)
	var got []string
	for _, f := range fs {
		var in *unit.InputError
		field := "-"
		if errors.As(f, &in) {
			field = string(in.Field)
		}
		got = append(got, fmt.Sprintf("%d %s", f.Line, field))
	}
	assert.Equal(t, []string{"0 -", "1 nowhere.at.all", "1 ", "2 title", "2 title.sub", "3 pieces[7]", "3 pieces[7].y", "3 pieces",
		"4 pieces[0].name", "5 pieces[1].height", "6 pieces[1].width"}, got)
	require.ErrorIs(t, err, plain)
	require.EqualError(t, fs[0], "plain")
}

// table is a struct with a form of its own.
type table struct{ names []string }

func (t *table) UnmarshalJSON(text []byte) error {
	var rows []map[string]string
	if err := json.Unmarshal(text, &rows); err != nil {
		return input("table", "", ErrMalformed, "rows")
	}
	var all []error
	for i, row := range rows {
		if row["name"] == "" {
			all = append(all, input(unit.Path("").At(i).Dot("name"), "", unit.ErrRequired, "a name"))
		}
		t.names = append(t.names, row["name"])
	}
	return errors.Join(all...)
}

func TestDecodeOwnForm(t *testing.T) {
	var v struct {
		Table table `json:"table"`
	}
	d, err := Parse(strings.NewReader(`{"table": [{"name": "a"}, {"name": "b"}]}`))
	require.NoError(t, err)
	require.NoError(t, d.Decode(&v))
	assert.Equal(t, []string{"a", "b"}, v.Table.names)

	for text, want := range map[string][]string{
		"{\"table\": [\n{\"name\": \"a\"},\n{\"name\": \"\"},\n{}]}": {"3 table[1].name", "4 table[2].name"},
		"{\"table\":\n3}": {"2 table"},
		"{\"table\": [\n{\"name\": \"a\", \"name\": \"b\"}]}": {"2 table[0].name"},
	} {
		d, err := Parse(strings.NewReader(text))
		require.NoError(t, err)
		var fs Faults
		require.ErrorAs(t, d.Decode(&v), &fs)
		var got []string
		for _, f := range fs {
			var in *unit.InputError
			require.ErrorAs(t, f, &in)
			got = append(got, fmt.Sprintf("%d %s", f.Line, in.Field))
		}
		assert.Equal(t, want, got, text)
	}
}

func FuzzDecode(f *testing.F) {
	f.Fuzz(func(t *testing.T, text string) {
		d, err := Parse(strings.NewReader(text))
		if err != nil {
			var fault *Fault
			if !errors.As(err, &fault) {
				t.Fatalf("%T is no *Fault", err)
			}
			return
		}
		var j job
		err = d.Decode(&j)
		var fs Faults
		if err != nil && (!errors.As(err, &fs) || len(fs) == 0) {
			t.Fatalf("%T is no Faults", err)
		}
		for _, fault := range fs {
			if last := 1 + strings.Count(text, "\n"); fault.Line < 0 || fault.Line > last {
				t.Fatalf("line %d of %d: %v", fault.Line, last, fault)
			}
			if strings.Contains(fault.Error(), "\n") {
				t.Fatalf("%q is not one line", fault)
			}
		}
	})
}

// A number that cannot be read is not told to be too small as well.
func TestOneFaultForOneNumber(t *testing.T) {
	var v struct {
		Count int `json:"count" least:"1"`
	}
	for text, want := range map[string]string{`{"count": "two"}`: "wrong kind", `{"count": 0}`: "from 1"} {
		doc, err := Parse(strings.NewReader(text))
		require.NoError(t, err)
		var faults Faults
		require.ErrorAs(t, doc.Decode(&v), &faults)
		require.Len(t, faults, 1, text)
		assert.Contains(t, faults[0].Error(), want)
	}
}
