package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
)

// numeric is a cell of a formula whose stored number is marked as a text.
var numeric = regexp.MustCompile(` t="str"(><f>[^<]*</f><v>-?[0-9.]+(?:[Ee][+-]?[0-9]+)?</v>)`)

// writeTo writes the workbook. The workbook library marks every stored result as a text;
// those that are numbers lose that mark, for programs that only show.
func (b *book) writeTo(w io.Writer) error {
	var raw bytes.Buffer
	if err := b.f.Write(&raw); err != nil {
		return err
	}
	in, err := zip.NewReader(bytes.NewReader(raw.Bytes()), int64(raw.Len()))
	if err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, f := range in.File {
		if err := copied(out, f); err != nil {
			return err
		}
	}
	return out.Close()
}

func copied(out *zip.Writer, f *zip.File) error {
	if !strings.HasPrefix(f.Name, "xl/worksheets/sheet") {
		return out.Copy(f)
	}
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close() //nolint:errcheck // read to its end
	text, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	w, err := out.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	_, err = w.Write(numeric.ReplaceAll(text, []byte("$1")))
	return err
}
