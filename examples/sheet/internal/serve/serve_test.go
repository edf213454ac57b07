package serve_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/examples/sheet/internal/serve"
	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

func ask(t *testing.T, in string) []string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, serve.Serve(strings.NewReader(in), &out))
	return strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
}

func TestEveryLineHasItsAnswer(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,4]}`, `{"id":1,"value":16}`},
		{`{"id":"a","fn":"boardFeet","args":[24,24,4,null]}`, `{"id":"a","value":16}`},
		{`{"fn":"FRACTIONTEXT","args":[25.625,8]}`, `{"id":null,"value":"25 5/8 in"}`},
		{`{"id":1,"fn":"SPLIT","args":[100.01,2]}`, `{"id":1,"value":[50.01,50]}`},
		{`{"id":1,"fn":"CUTSIZEIN","args":["652 mm","1/2 in",0.5]}`, `{"id":1,"value":26.669291338582678}`},
		{`{"id":1,"fn":"BOARDFEET","args":[[[12],[null],["24 in"]],12,[[1],[""],[2]]]}`, `{"id":1,"value":[[1],[null],[4]]}`},
		{`{"id":1,"fn":"BOARDFEET","args":[12,12,[[1,0]]]}`, `{"id":1,"value":[[1,{"error":"#NUM!","message":"thickness: “0 in”: out of range; want a length above zero"}]]}`},
		{`{"id":1,"fn":"WHY","args":["BOARDFEET",24,24,4]}`, `{"id":1,"value":""}`},
		{`{"id":1,"fn":"SUMAREASQFT","args":[[[12,12,1],["","",null]]]}`, `{"id":1,"value":1}`},
		{`{"id":-1.5e3,"fn":"APILEVEL"}`, `{"id":-1.5e3,"value":2}`},
		{"{\"id\":1,\"fn\":\"APILEVEL\"}\r", `{"id":1,"value":2}`},
		{`{"id":1,"fn":"shop.boardFeet","args":[24,24,4]}`, `{"id":1,"value":16}`},
		{`{"id":"é\ud800","fn":"SHOP.APILEVEL"}`, `{"id":"é\ud800","value":LEVEL}`},
	} {
		c.want = strings.ReplaceAll(c.want, "LEVEL", fmt.Sprint(table.Level))
		assert.Equal(t, []string{c.want}, ask(t, c.in+"\n"), c.in)
		assert.Equal(t, []string{c.want}, ask(t, c.in), "the last line may lack its end")
	}
	for _, c := range []struct {
		in, id string
		code   table.Code
	}{
		{`{"id":1,"fn":"NOSUCH","args":[]}`, `1`, table.Name},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,"x"]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,true]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,{"a":1}]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,[1]]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,[[[1]]]]}`, `1`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,1e999]}`, `1`, table.Num},
		{`{"id":1,"fn":"BOARDFEET","args":[24,24,1e300]}`, `1`, table.Num},
		{`{"id":1,"fn":"MARGINOF","args":[1,0]}`, `1`, table.DivideByZero},
		{`{"id":1,"fn":"THREADSIZE","args":["30"]}`, `1`, table.Missing},
		{`{"id":[1],"fn":"APILEVEL"}`, `null`, table.Value},
		{`{"id":1,"fn":"BOARDFEET","args":[NaN,24,4]}`, `null`, table.Value},
		{`{"id":1,"fn":7}`, `1`, table.Value},
		{`{"id":1,"fn":"SHOP.NOSUCH"}`, `1`, table.Name},
		{`{"id":1,"fn":"SHOP.SHOP.APILEVEL"}`, `1`, table.Name},
		{"{\"id\":\"a\xff\",\"fn\":\"APILEVEL\"}", `null`, table.Value},
		{"{\"id\":1,\"fn\":\"APILEVEL\xff\"}", `null`, table.Value},
		{`not json`, `null`, table.Value},
		{``, `null`, table.Value},
		{`[]`, `null`, table.Value},
		{"\x00\xff", `null`, table.Value},
		{`{"id":1,"fn":"` + strings.Repeat("x", 2*serve.MostLine) + `"}`, `null`, table.Value},
		{strings.Repeat("[", 100_000), `null`, table.Value},
	} {
		after := `{"id":2,"fn":"APILEVEL"}`
		got := ask(t, c.in+"\n"+after+"\n")
		require.Len(t, got, 2, "%.80s", c.in)
		var a struct {
			ID      json.RawMessage
			Error   table.Code
			Message string
		}
		require.NoError(t, json.Unmarshal([]byte(got[0]), &a), got[0])
		assert.Equal(t, c.id, string(a.ID), "%.80s", c.in)
		assert.Equal(t, c.code, a.Error, "%.80s: %s", c.in, a.Message)
		assert.Equal(t, `{"id":2,"value":2}`, got[1], "the stream goes on")
	}
}

// A caller who waits for the answer before asking again must get it, though
// half of a further request may lie in the buffer.
func TestAnswersDoNotWait(t *testing.T) {
	inR, inW := io.Pipe()
	outR, outW := io.Pipe()
	done := make(chan error, 1)
	go func() {
		err := serve.Serve(inR, outW)
		outW.Close()
		done <- err
	}()
	answers := bufio.NewReader(outR)
	half := ""
	for i := range 20 {
		whole := fmt.Sprintf(`{"id":%d,"fn":"APILEVEL"}`+"\n", i)
		next := fmt.Sprintf(`{"id":%d,`, i+1)
		_, err := io.WriteString(inW, strings.TrimPrefix(whole, half)+next)
		require.NoError(t, err)
		half = next
		got, err := answers.ReadString('\n')
		require.NoError(t, err)
		require.Equal(t, fmt.Sprintf(`{"id":%d,"value":2}`+"\n", i), got)
	}
	require.NoError(t, inW.Close())
	rest, err := io.ReadAll(answers)
	require.NoError(t, err)
	require.Contains(t, string(rest), "error")
	require.NoError(t, <-done)
}

func TestMemoryStaysBounded(t *testing.T) {
	// A line of 64 MiB without an end.
	var out bytes.Buffer
	require.NoError(t, serve.Serve(io.LimitReader(ones{}, 64<<20), &out))
	assert.Equal(t, 1, strings.Count(out.String(), "\n"))
	assert.Less(t, testing.AllocsPerRun(1, func() {
		require.NoError(t, serve.Serve(io.LimitReader(ones{}, 8<<20), io.Discard))
	}), 200.0)
}

type ones struct{}

func (ones) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '1'
	}
	return len(p), nil
}

// Any lines: as many answers as lines, each of them JSON with a value or an
// error.
func TestAnyLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOf(rapid.OneOf(
			rapid.StringMatching(`\{"id":[0-9]{1,3},"fn":"(BOARDFEET|INTOMM|FRACTIONTEXT)","args":\[[-0-9e.,"]{0,12}\]\}`),
			rapid.StringMatching(`[ -~]{0,20}`),
		)).Draw(t, "lines")
		var out bytes.Buffer
		in := strings.Join(lines, "\n")
		if len(lines) > 0 {
			in += "\n"
		}
		if err := serve.Serve(strings.NewReader(in), &out); err != nil {
			t.Fatal(err)
		}
		checkAnswers(t, []byte(in), out.Bytes())
	})
}

type fataler interface{ Fatalf(string, ...any) }

// wantedID gives the id that the answer to a line must have: its own where the
// line is a JSON object in UTF-8 and the id a finite number or a text, else null.
func wantedID(line []byte) string {
	var q struct {
		ID json.RawMessage `json:"id"`
	}
	if !utf8.Valid(line) || len(line) > serve.MostLine || json.Unmarshal(line, &q) != nil {
		return "null"
	}
	var id any
	if json.Unmarshal(q.ID, &id) != nil { // none, or a number that is too large
		return "null"
	}
	switch id.(type) {
	case string, float64:
		return string(q.ID)
	}
	return "null"
}

// checkAnswers holds answers to the laws: one to each line, JSON in UTF-8 with
// the id of the line and either a value or an error, which is no panic.
func checkAnswers(t fataler, in, out []byte) {
	var lines [][]byte
	for line := range bytes.Lines(in) {
		lines = append(lines, bytes.TrimRight(line, "\r\n"))
	}
	if n := bytes.Count(out, []byte{'\n'}); n != len(lines) {
		t.Fatalf("%d answers to %d lines", n, len(lines))
	}
	i := -1
	for line := range bytes.Lines(out) {
		i++
		var a map[string]json.RawMessage
		if err := json.Unmarshal(line, &a); err != nil || !utf8.Valid(line) {
			t.Fatalf("%q: %v", line, err)
		}
		if want := wantedID(lines[i]); string(a["id"]) != want {
			t.Fatalf("%q has not the id %s of %q", line, want, lines[i])
		}
		_, value := a["value"]
		_, bad := a["error"]
		if value == bad {
			t.Fatalf("%q: value or error", line)
		}
		if bytes.Contains(line, []byte("internal fault")) {
			t.Fatalf("%q: a panic", line)
		}
	}
}

func FuzzServe(f *testing.F) {
	for i := range table.Functions() {
		fn := &table.Functions()[i]
		args, err := json.Marshal(fn.Example)
		if err != nil {
			f.Fatal(err)
		}
		fmt.Fprintf(&seed{f}, `{"id":%d,"fn":%q,"args":%s}`, i, fn.Name(), args)
	}
	for _, s := range []string{"", "\n", "\r\n\r\n", `{"id":1e999}`, `{"id":"\ud800","fn":"\u0000","args":[1e309,[[null]],[[[]]]]}`, "{}\n{}\n{"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		var out bytes.Buffer
		if err := serve.Serve(bytes.NewReader(in), &out); err != nil {
			t.Fatal(err)
		}
		checkAnswers(t, in, out.Bytes())
	})
}

type seed struct{ f *testing.F }

func (s *seed) Write(p []byte) (int, error) {
	s.f.Add(bytes.Clone(p))
	return len(p), nil
}

func BenchmarkServe(b *testing.B) {
	line := []byte(`{"id":1,"fn":"CUTSIZEIN","args":[23,0.5,3]}` + "\n")
	b.SetBytes(int64(len(line)))
	b.ReportAllocs()
	if err := serve.Serve(&repeat{line: line, left: b.N}, io.Discard); err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "requests/s")
}

// repeat gives a line over and over.
type repeat struct {
	line []byte
	at   int
	left int
}

func (r *repeat) Read(p []byte) (int, error) {
	n := 0
	for r.left > 0 && n < len(p) {
		c := copy(p[n:], r.line[r.at:])
		n += c
		if r.at += c; r.at == len(r.line) {
			r.at = 0
			r.left--
		}
	}
	if n == 0 {
		return 0, io.EOF
	}
	return n, nil
}
