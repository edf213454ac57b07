//go:build jsonschema

package job_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/schema"
)

func compiled(t testing.TB, text []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("schema.json", doc))
	s, err := c.Compile("schema.json")
	require.NoError(t, err)
	return s
}

func validate(t testing.TB, s *jsonschema.Schema, text string) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	require.NoError(t, err)
	return s.Validate(doc)
}

func readAny(text string) (job.WorkOrder, error) {
	return job.Read(context.Background(), strings.NewReader(text), job.Options{Effort: 0.001})
}

func file(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(text)
}

// A job written from the schema alone builds, its order validates, and job and
// order read back from their JSON.
func TestSpecsAndOrdersValidate(t *testing.T) {
	shop := file(t, "../../examples/workorder/larkfield-shop.json")
	require.NoError(t, validate(t, compiled(t, schema.Shop()), shop))
	specAndOrderValidate(t, file(t, "testdata/larkfield-plain.json"), job.DemoOrder)
	specAndOrderValidate(t, file(t, "testdata/larkfield-second.json"), job.SecondOrder)
	program := programsJob(t)
	specAndOrderValidate(t, program, func() (job.WorkOrder, error) { return readAny(program) })
}

// programsJob is the job of the program on top of its shop file, in one.
func programsJob(t testing.TB) string {
	t.Helper()
	s, err := job.ReadShop(strings.NewReader(file(t, "../../examples/workorder/larkfield-shop.json")))
	require.NoError(t, err)
	whole, err := s.ReadSpec(strings.NewReader(file(t, "../../examples/workorder/larkfield.json")))
	require.NoError(t, err)
	text, err := json.Marshal(whole)
	require.NoError(t, err)
	return string(text)
}

func specAndOrderValidate(t *testing.T, text string, of func() (job.WorkOrder, error)) {
	t.Helper()
	spec, order := compiled(t, schema.Job()), compiled(t, schema.Order())
	require.NoError(t, validate(t, spec, text))
	o, err := of()
	require.NoError(t, err)
	out, err := json.Marshal(o)
	require.NoError(t, err)
	require.NoError(t, validate(t, order, string(out)))

	var back job.WorkOrder
	require.NoError(t, json.Unmarshal(out, &back))
	again, err := json.Marshal(back)
	require.NoError(t, err)
	require.Equal(t, string(out), string(again))

	s, err := job.ReadSpec(strings.NewReader(text))
	require.NoError(t, err)
	written, err := json.Marshal(s)
	require.NoError(t, err)
	require.NoError(t, validate(t, spec, string(written)))
	var same job.Spec
	require.NoError(t, json.Unmarshal(written, &same))
	require.Equal(t, s, same)
	strict, err := job.ReadSpec(bytes.NewReader(written))
	require.NoError(t, err)
	require.Equal(t, s, strict)
}

// Every job file of the examples is one by the schema.
func TestExampleJobsValidate(t *testing.T) {
	spec := compiled(t, schema.Job())
	files, err := filepath.Glob("../../examples/workorder/testdata/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		assert.NoError(t, validate(t, spec, file(t, name)), name)
	}
}

// What the schema refuses, the reader refuses too.
func TestSchemaAndReaderRefuse(t *testing.T) {
	spec := compiled(t, schema.Job())
	good := file(t, "testdata/larkfield-second.json")
	for _, c := range [][2]string{
		{`"name": "inside back"`, `"name": "inside back", "colour": "red"`},
		{`"width": "160 cm"`, `"width": "160"`},
		{`"width": "160 cm"`, `"width": 160`},
		{`"width": "160 cm"`, `"width": "160 kg"`},
		{`"width": "160 cm"`, `"width": "1,6 m"`},
		{`"width": "160 cm", `, ``},
		{`"width": "160 cm", `, `"width": "160 cm", "outline": {"circle": {"diameter": "1 m"}}, `},
		{`"kind": "hide"`, `"kind": "fleece"`},
		{`"material": "leather"`, `"material": "denim"`},
		{`"edges": "pull-over 4 cm"`, `"edges": "glued 4 cm"`},
		{`"edges": "pull-over 4 cm"`, `"edges": "pull-over 4"`},
		{`"drop": "1/2"`, `"drop": "half"`},
		{`"price": "98.00 EUR/m2"`, `"price": "98.00 EUR"`},
		{`"price": "98.00 EUR/m2"`, `"price": "98 euro a hide"`},
		{`"kind": "brand"`, `"kind": "tattoo"`},
		{`"grade": "fair"`, `"grade": "third"`},
		{`"at": "0.7 m, 1.1 m"`, `"at": "0.7 m"`},
		{`"at": "0.7 m, 1.1 m"`, `"at": ["0.7 m", "1.1 m"]`},
		{`{"circle": {"diameter": "6 cm"}, "at"`, `{"circle": {"diameter": "6 cm"}, "ellipse": {"width": "6 cm", "height": "3 cm"}, "at"`},
		{`{"circle": {"diameter": "6 cm"}, "at"`, `{"at"`},
		{`{"circle": {"diameter": "6 cm"}, "at"`, `{"circle": {"radius": "6 cm"}, "at"`},
		{`"pleat": "box pleat"`, `"pleat": "accordion"`},
		{`"rule": "twice the depth"`, `"rule": "by eye"`},
		{`"stitch": 301`, `"stitch": "lockstitch"`},
		{`"bias": true`, `"bias": "yes"`},
		{`"time": "11 h"`, `"time": "11"`},
		{`"deposit": "40 %"`, `"deposit": "a lot"`},
		{`"issued": "2027-03-01"`, `"issued": "1 March"`},
		{`"currency": "EUR"`, `"currency": "euro"`},
		{`"schema": "coverwright/job/1"`, `"schema": "coverwright/job/3"`},
		{`"labour_rate": "52.00 EUR/h", `, ``},
		{`"labour_rate": "52.00 EUR/h"`, `"labour_rate": "52.00 EUR/m"`},
		{`"on": ["goods", "foam", "labour"]`, `"on": ["everything"]`},
		{`"grain": "any way"`, `"grain": "sideways"`},
		{`"count": 6`, `"count": 6.5`},
		{`"duty": "heavy"`, `"duty": "rough"`},
		{`"fit": "snug fit"`, `"fit": "tight"`},
		{`"pieces": [{"to": "135 cm, 45 cm"}]`, `"pieces": [{"by": ["135 cm, 45 cm"]}]`},
	} {
		bad := strings.Replace(good, c[0], c[1], 1)
		require.NotEqual(t, good, bad, c[0])
		assert.Error(t, validate(t, spec, bad), "schema takes %s", c[1])
		_, err := readAny(bad)
		assert.Error(t, err, "reader takes %s", c[1])
	}
}

// What the reader takes, the schema takes, however it is written.
func TestSchemaTakesWhatTheReaderTakes(t *testing.T) {
	spec := compiled(t, schema.Job())
	good := file(t, "testdata/larkfield-second.json")
	for _, c := range [][2]string{
		{`"width": "160 cm"`, `"width": "1.6 m"`},
		{`"width": "160 cm"`, `"width": "5' 3\""`},
		{`"width": "160 cm"`, `"width": "5 ft 3-1/8 in"`},
		{`"width": "160 cm"`, `"width": "63½″"`},
		{`"width": "160 cm"`, `"width": "  1600MM "`},
		{`"width": "160 cm"`, `"width": "1.6e3 millimetres"`},
		{`"thickness": "3 oz"`, `"thickness": "1/16 in"`},
		{`"hide_area": "4.4 m2"`, `"hide_area": "47 sq ft"`},
		{`"hide_area": "4.4 m2"`, `"hide_area": "4.4 square metres"`},
		{`"shrinkage": "2 %"`, `"shrinkage": 0.02`},
		{`"shrinkage": "2 %"`, `"shrinkage": "0.02"`},
		{`"shrinkage": "2 %"`, `"shrinkage": "2 percent"`},
		{`"x": "20 cm"`, `"x": "0"`},
		{`"along": "0 cm"`, `"along": "0"`},
		{`"time": "11 h"`, `"time": "10 h 59 min"`},
		{`"edges": "pull-over 4 cm"`, `"edges": "pull-over"`},
		{`"edges": "pull-over 4 cm"`, `"edges": "pull-over + 3/4 in"`},
		{`"price": "850 EUR/m3"`, `"price": "2 EUR/bd ft"`},
		{`"price": "46.00 EUR/m"`, `"price": "46 EUR / 100 cm"`},
		{`"at": "0.7 m, 1.1 m"`, `"at": "27 1/2\",43 in"`},
		{`"grain": "any way"`, `"grain": "one way within 0.1 rad"`},
	} {
		other := strings.Replace(good, c[0], c[1], 1)
		require.NotEqual(t, good, other, c[0])
		_, err := job.ReadSpec(strings.NewReader(other))
		require.NoError(t, err, "reader refuses %s", c[1])
		assert.NoError(t, validate(t, spec, other), "schema refuses %s", c[1])
	}
}
