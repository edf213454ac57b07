package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/internal/dev/generate/jobs"
)

// drawer draws jobs by number.
type drawer struct {
	jobs.Drawing
	texts [][]byte // the jobs of the repository, to grow from
	steps int      // tries to make a job grow
}

// draw prints jobs of two sorts by turns: of a kind of furniture, and grown from a job
// of the repository, step by step, by all that can still be built.
func (d drawer) draw(ctx context.Context, n int, out io.Writer) error {
	for i := range n {
		one := d.kind
		if i%2 == 1 {
			one = d.grown
		}
		text, err := one(ctx, i)
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(out, "%s\n", text); err != nil {
			return err
		}
	}
	return nil
}

func (d drawer) kind(ctx context.Context, number int) (text []byte, err error) {
	for seed := number << 12; err == nil && !builds(ctx, text); seed++ {
		text, err = json.Marshal(rapid.Custom(func(t *rapid.T) map[string]any { return d.Kind(t, number/2) }).Example(seed))
	}
	return text, err
}

func (d drawer) grown(ctx context.Context, number int) ([]byte, error) {
	text := d.texts[number/2%len(d.texts)]
	for i := range d.steps {
		more, err := json.Marshal(rapid.Custom(func(t *rapid.T) map[string]any { return d.Grown(t, text) }).Example(number<<12 + i))
		if err != nil {
			return nil, err
		}
		if builds(ctx, more) {
			text = more
		}
	}
	return text, nil
}

func builds(ctx context.Context, text []byte) bool {
	_, err := job.Read(ctx, bytes.NewReader(text), job.Options{Effort: 0.0001, NoMatching: true})
	return err == nil
}

// fromFiles draws from the job files of the repository.
func fromFiles(root string, steps int) (drawer, error) {
	shopText, err := os.ReadFile(filepath.Join(root, "examples/workorder/larkfield-shop.json")) //nolint:gosec // as asked for
	if err != nil {
		return drawer{}, err
	}
	shop, err := job.ReadShop(bytes.NewReader(shopText))
	if err != nil {
		return drawer{}, err
	}
	d := drawer{steps: steps}
	for _, pattern := range []string{"examples/workorder/*.json", "cost/job/testdata/*.json", "cost/job/testdata/anatomy/*.json"} {
		names, err := filepath.Glob(filepath.Join(root, filepath.FromSlash(pattern)))
		if err != nil {
			return drawer{}, err
		}
		for _, name := range names {
			if strings.HasSuffix(name, "-shop.json") {
				continue
			}
			text, err := whole(name, shop)
			if err != nil {
				return drawer{}, fmt.Errorf("%s: %w", name, err)
			}
			d.texts = append(d.texts, text)
		}
	}
	d.Drawing, err = jobs.New(d.texts...)
	return d, err
}

// whole gives a job with what it has of the shop, where it has not all itself.
func whole(name string, shop job.Shop) ([]byte, error) {
	text, err := os.ReadFile(name) //nolint:gosec // of the repository
	if err != nil {
		return nil, err
	}
	spec, err := job.ReadSpec(bytes.NewReader(text))
	if err != nil {
		spec, err = shop.ReadSpec(bytes.NewReader(text))
	}
	if err != nil {
		return nil, err
	}
	return json.Marshal(spec)
}
