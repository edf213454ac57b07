package xlsx

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
)

// scanner reads the tokens of a part together with the bytes they stand in.
type scanner struct {
	part  string
	in    *window
	d     *xml.Decoder
	open  []string // names of the elements that are open, with their prefixes
	start int64
}

func newScanner(part string, r io.Reader) *scanner {
	w := &window{r: r}
	return &scanner{part: part, in: w, d: xml.NewDecoder(w)}
}

// next gives a token and the bytes of it, which hold until the next call; the
// token of an element that closes itself comes twice, at its end without bytes.
func (s *scanner) next() (xml.Token, []byte, error) {
	s.in.drop(s.start)
	t, err := s.d.RawToken()
	if err != nil {
		if errors.Is(err, io.EOF) && len(s.open) == 0 {
			return nil, nil, io.EOF
		}
		if errors.Is(err, ErrDamaged) {
			return nil, nil, err
		}
		return nil, nil, damaged("%s: %v", s.part, err)
	}
	end := s.d.InputOffset()
	raw := s.in.bytes(s.start, end)
	s.start = end
	switch x := t.(type) {
	case xml.StartElement:
		if len(s.open) == mostDepth {
			return nil, nil, tooLarge("%s: elements lie more than %d deep", s.part, mostDepth)
		}
		s.open = append(s.open, full(x.Name))
	case xml.EndElement:
		if len(s.open) == 0 || s.open[len(s.open)-1] != full(x.Name) {
			return nil, nil, damaged("%s: an element ends that was not begun", s.part)
		}
		s.open = s.open[:len(s.open)-1]
	}
	return t, raw, nil
}

// skip reads past the rest of the element that was begun last.
func (s *scanner) skip() error {
	for depth := len(s.open); len(s.open) >= depth; {
		if _, _, err := s.next(); err != nil {
			return err
		}
	}
	return nil
}

// text gives the texts directly within the element that was begun last, to its end.
func (s *scanner) text() (string, error) {
	var b strings.Builder
	for depth := len(s.open); len(s.open) >= depth; {
		t, _, err := s.next()
		if err != nil {
			return "", err
		}
		if c, ok := t.(xml.CharData); ok && len(s.open) == depth {
			b.Write(c)
		}
		if b.Len() > mostElement {
			return "", tooLarge("%s: a text is longer than 1 MiB", s.part)
		}
	}
	return b.String(), nil
}

// full gives a name with its prefix, as it stands in the file.
func full(n xml.Name) string {
	if n.Space == "" {
		return n.Local
	}
	return n.Space + ":" + n.Local
}

// attr gives an attribute without a prefix.
func attr(e xml.StartElement, name string) (string, bool) {
	for _, a := range e.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

// window keeps the bytes of a stream from where the last token began.
type window struct {
	r    io.Reader
	kept []byte
	from int64 // place of the first byte that is kept
	used int64 // end of what was dropped last
}

// Read refuses to run on far beyond a token that has not ended.
func (w *window) Read(p []byte) (int, error) {
	if w.from+int64(len(w.kept))-w.used > mostElement {
		return 0, tooLarge("an element is longer than 1 MiB")
	}
	n, err := w.r.Read(p)
	w.kept = append(w.kept, p[:n]...)
	return n, err
}

func (w *window) bytes(start, end int64) []byte { return w.kept[start-w.from : end-w.from] }

// drop forgets what lies before a place.
func (w *window) drop(at int64) {
	w.used = at
	if n := at - w.from; n > 1<<16 {
		w.kept = append(w.kept[:0], w.kept[n:]...)
		w.from = at
	}
}
