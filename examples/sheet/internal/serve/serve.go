// Package serve is the function filter: JSON lines in, JSON lines out.
//
//	{"id":1,"fn":"BOARDFEET","args":[24,24,4]}
//	{"id":1,"value":16}
//	{"id":2,"error":"#NUM!","message":"…"}
//
// Every line is answered by one line, in order, whatever it holds, with its id
// where it is JSON in UTF-8. A name may have the prefix of the sheet before it:
// SHOP.BOARDFEET. An argument that is left out is null; a range is a list of
// rows. A column comes back as a list of numbers, a grid as a list of rows, in
// which a cell may be null where it is blank, or an object with its error.
package serve

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"strconv"
	"unicode/utf8"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// MostLine is the longest request in bytes. A longer line is read past and
// answered with an error, so that memory stays bounded.
const MostLine = 1 << 20

// request is a line. Arguments stay raw until the numbers in them are read.
type request struct {
	ID   json.RawMessage   `json:"id"`
	Fn   string            `json:"fn"`
	Args []json.RawMessage `json:"args"`
}

// Serve answers requests until r ends. Answers are flushed whenever no whole
// request waits, so that a caller who waits for an answer gets it.
func Serve(r io.Reader, w io.Writer) error {
	in := bufio.NewReaderSize(r, 1<<16)
	out := bufio.NewWriterSize(w, 1<<16)
	var s session
	for {
		line, long, some, err := s.line(in)
		if err != nil && !errors.Is(err, io.EOF) {
			return errors.Join(err, out.Flush())
		}
		if some {
			if _, werr := out.Write(s.answer(line, long)); werr != nil {
				return werr
			}
		}
		if err != nil {
			return out.Flush()
		}
		if !waiting(in) {
			if err := out.Flush(); err != nil {
				return err
			}
		}
	}
}

// waiting tells whether a whole line lies in the buffer.
func waiting(in *bufio.Reader) bool {
	b, err := in.Peek(in.Buffered())
	return err == nil && bytes.IndexByte(b, '\n') >= 0
}

// session holds the buffers of one stream.
type session struct {
	long []byte
	out  []byte
}

// line reads a line; some tells whether there was one. A long one is read
// past and its beginning dropped.
func (s *session) line(in *bufio.Reader) (line []byte, long, some bool, err error) {
	line, err = in.ReadSlice('\n')
	some = len(line) > 0
	if !errors.Is(err, bufio.ErrBufferFull) {
		return bytes.TrimRight(line, "\r\n"), false, some, err
	}
	s.long = append(s.long[:0], line...)
	for errors.Is(err, bufio.ErrBufferFull) {
		line, err = in.ReadSlice('\n')
		if long = long || len(s.long)+len(line) > MostLine; !long {
			s.long = append(s.long, line...)
		}
	}
	if long {
		return nil, true, some, err
	}
	return bytes.TrimRight(s.long, "\r\n"), false, some, err
}

// answer gives the line that answers a request.
func (s *session) answer(line []byte, long bool) []byte {
	if long {
		return s.refuse(nil, &table.Fault{Code: table.Value, Message: "request longer than 1 MiB"})
	}
	if !utf8.Valid(line) {
		return s.refuse(nil, &table.Fault{Code: table.Value, Message: "no request: it is not UTF-8"})
	}
	var q request
	err := json.Unmarshal(line, &q)
	if !plain(q.ID) {
		return s.refuse(nil, &table.Fault{Code: table.Value, Message: "id: a number or a text is wanted"})
	}
	if err != nil { // with the id, where a field beside it is of the wrong kind
		return s.refuse(q.ID, &table.Fault{Code: table.Value, Message: "no request: " + err.Error()})
	}
	values := make([]any, len(q.Args))
	for i, raw := range q.Args {
		v, bad := value(raw, 2)
		if bad != nil {
			return s.refuse(q.ID, bad)
		}
		values[i] = v
	}
	r, bad := table.Call(q.Fn, values)
	if bad != nil {
		return s.refuse(q.ID, bad)
	}
	s.open(q.ID)
	s.out = append(s.out, `"value":`...)
	switch r.Kind {
	case table.Text:
		s.text(r.Text)
	case table.Column:
		s.out = append(s.out, '[')
		for i, x := range r.Column {
			if i > 0 {
				s.out = append(s.out, ',')
			}
			s.out = strconv.AppendFloat(s.out, x, 'g', -1, 64)
		}
		s.out = append(s.out, ']')
	case table.Grid:
		s.grid(r.Grid)
	default:
		s.out = strconv.AppendFloat(s.out, r.Number, 'g', -1, 64)
	}
	s.out = append(s.out, '}', '\n')
	return s.out
}

// grid writes a list of rows; a cell without a value is its error, a blank one
// null.
func (s *session) grid(lines [][]any) {
	s.out = append(s.out, '[')
	for i, line := range lines {
		if i > 0 {
			s.out = append(s.out, ',')
		}
		s.out = append(s.out, '[')
		for k, cell := range line {
			if k > 0 {
				s.out = append(s.out, ',')
			}
			switch x := cell.(type) {
			case float64:
				s.out = strconv.AppendFloat(s.out, x, 'g', -1, 64)
			case string:
				s.text(x)
			case *table.Fault:
				s.out = append(s.out, '{')
				s.fault(x)
				s.out = append(s.out, '}')
			default:
				s.out = append(s.out, "null"...)
			}
		}
		s.out = append(s.out, ']')
	}
	s.out = append(s.out, ']')
}

// plain tells whether an id can be sent back as it came: left out, null, a
// finite number or a text.
func plain(id json.RawMessage) bool {
	if len(id) == 0 || id[0] == '"' || string(id) == "null" {
		return true
	}
	x, err := strconv.ParseFloat(string(id), 64)
	return err == nil && !math.IsInf(x, 0) && id[0] != '+'
}

func (s *session) open(id json.RawMessage) {
	s.out = append(s.out[:0], `{"id":`...)
	if len(id) == 0 {
		id = json.RawMessage("null")
	}
	s.out = append(append(s.out, id...), ',')
}

func (s *session) refuse(id json.RawMessage, f *table.Fault) []byte {
	s.open(id)
	s.fault(f)
	s.out = append(s.out, '}', '\n')
	return s.out
}

func (s *session) fault(f *table.Fault) {
	s.out = append(s.out, `"error":`...)
	s.text(string(f.Code))
	s.out = append(s.out, `,"message":`...)
	s.text(f.Message)
}

func (s *session) text(x string) {
	b, err := json.Marshal(x)
	if err != nil { // a string always marshals
		b = []byte(`""`)
	}
	s.out = append(s.out, b...)
}

// value reads an argument: null, a number, a text, or a list of rows, which
// are lists themselves.
func value(raw json.RawMessage, depth int) (any, *table.Fault) {
	raw = bytes.TrimSpace(raw)
	if len(raw) == 0 {
		return nil, nil
	}
	switch raw[0] {
	case 'n':
		return nil, nil
	case '"':
		var x string
		if err := json.Unmarshal(raw, &x); err != nil {
			return nil, &table.Fault{Code: table.Value, Message: err.Error()}
		}
		return x, nil
	case '[':
		if depth == 0 {
			return nil, &table.Fault{Code: table.Value, Message: "lists too deep"}
		}
		var items []json.RawMessage
		if err := json.Unmarshal(raw, &items); err != nil {
			return nil, &table.Fault{Code: table.Value, Message: err.Error()}
		}
		return list(items, depth)
	case 't', 'f', '{':
		return nil, &table.Fault{Code: table.Value, Message: "a number, a text or a list of rows is wanted"}
	}
	x, err := strconv.ParseFloat(string(raw), 64)
	if err != nil || math.IsInf(x, 0) {
		return nil, &table.Fault{Code: table.Num, Message: "number too large"}
	}
	return x, nil
}

func list(items []json.RawMessage, depth int) (any, *table.Fault) {
	if depth == 1 {
		cells := make([]any, len(items))
		for i, raw := range items {
			v, bad := value(raw, 0)
			if bad != nil {
				return nil, bad
			}
			cells[i] = v
		}
		return cells, nil
	}
	rows := make([][]any, len(items))
	for i, raw := range items {
		v, bad := value(raw, 1)
		if bad != nil {
			return nil, bad
		}
		cells, ok := v.([]any)
		if !ok {
			return nil, &table.Fault{Code: table.Value, Message: "a range is a list of rows"}
		}
		rows[i] = cells
	}
	return rows, nil
}
