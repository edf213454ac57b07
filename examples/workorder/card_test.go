package main

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"html"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/unit/caution"
)

// printed runs the program with some arguments.
func printed(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	require.Equal(t, want, run(context.Background(), args, &out, &errs), errs.String())
	return out.String(), errs.String()
}

var pictures = regexp.MustCompile(`(?s)<svg.*?</svg>`)

// The card of every kind has every measure with where the tape goes, and the
// measures that size a panel stand on its drawing. Some kinds are enough here;
// TestCardOfEveryKindInFull takes them all.
func TestCardOfEveryKind(t *testing.T) { cardOfKinds(t, 3) }

// cardOfKinds reads the cards of one kind of so many.
func cardOfKinds(t *testing.T, of int) {
	t.Helper()
	list, _ := printed(t, exitOK, "-format", "measure")
	for i, k := range kind.All() {
		assert.Contains(t, list, "- "+k.Name+":")
		if i%of > 0 {
			continue
		}
		card, _ := printed(t, exitOK, "-format", "measure", "-from", k.Name)
		text := html.UnescapeString(card)
		assert.Equal(t, 1, strings.Count(text, caution.Pointer))
		for _, m := range k.Measures {
			assert.Contains(t, text, m.Name+"</span>: "+m.Tape, k.Name)
		}
		for _, list := range [][]string{k.Photos, k.Cautions, k.Tasks, accessLines, labelLines} {
			for _, x := range list {
				assert.Contains(t, text, x, k.Name)
			}
		}
		assert.Equal(t, !k.Loose, strings.Contains(text, "Springs"), k.Name)
		var letters strings.Builder
		for _, p := range pictures.FindAllString(card, -1) {
			d := xml.NewDecoder(strings.NewReader(p))
			for {
				tok, err := d.Token()
				if err == io.EOF { //nolint:errorlint // as it comes
					break
				}
				require.NoError(t, err, k.Name)
				if c, ok := tok.(xml.CharData); ok {
					letters.WriteString(" " + string(c))
				}
			}
		}
		drawn := strings.Fields(letters.String())
		for i, m := range k.Measures {
			switch {
			case m.Name == "thickness", m.Name == "skirt drop" && k.Name == "three-seat sofa": // of strips that are made up to fit
			case m.Usual == "":
				assert.Contains(t, drawn, strings.ToUpper(letter(i)), "%s: %s", k.Name, m.Name)
			}
		}
	}
}

// What the card shows of a job file is one, once it is filled in.
func TestCardFile(t *testing.T) {
	for _, k := range kind.All() {
		var p job.Furniture
		text := regexp.MustCompile(`(measures": \{[^}]*)""`)
		file := cardFile(k)
		for text.MatchString(file) {
			file = text.ReplaceAllString(file, `$1"10 in"`)
		}
		require.NoError(t, json.Unmarshal([]byte(file), &p), file)
		assert.Equal(t, k.Name, p.From)
		assert.Len(t, p.Measures, len(k.Likely()))
	}
}

// The card is of a kind, and a job is not.
func TestCardRefusals(t *testing.T) {
	_, errs := printed(t, exitInput, "-format", "measure", "-from", "throne")
	assert.Contains(t, errs, "wing chair")
	_, errs = printed(t, exitInput, "-format", "measure", "-job", "testdata/stool.json")
	assert.Contains(t, errs, "-job")
	_, errs = printed(t, exitInput, "-from", "three-seat sofa")
	assert.Contains(t, errs, "-format measure")
	metric, _ := printed(t, exitOK, "-format", "measure", "-from", "ottoman", "-units", "metric")
	assert.Contains(t, metric, "reads, mm")
	assert.Contains(t, metric, "31.8 mm")
}
