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

// worded is a cell of a formula of [sheet.words], without its result: the text that stands
// as long as nothing was changed.
var worded = regexp.MustCompile(`(<f>IF\(out_of_date=1,&#34;[^<]*,&#34;([^<&]*)&#34;\)</f>)(</c>)`)

// writeTo writes the workbook, for programs that only show. The workbook library marks
// every stored result as a text; those that are numbers lose that mark. It stores none that
// are texts; those are put in.
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
	_, err = w.Write(worded.ReplaceAll(numeric.ReplaceAll(text, []byte("$1")), []byte("$1<v>$2</v>$3")))
	return err
}
