package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// skeleton is a job file that can be cut as it is.
type skeleton struct {
	Schema   string  `json:"schema"`
	Name     string  `json:"name"`
	Currency string  `json:"currency"`
	Goods    []goods `json:"goods"`
	Pieces   []piece `json:"pieces"`
	Quote    quote   `json:"quote"`
}

type goods struct {
	ID       string `json:"id"`
	Kind     string `json:"kind"`
	Name     string `json:"name"`
	Material string `json:"material"`
	Price    string `json:"price"`
	Width    string `json:"width"`
}

type quote struct {
	LabourRate string `json:"labour_rate"`
}

// jobFile makes a job file of a folder of photos and drawings, in the order of
// their names.
func (c command) jobFile(stderr io.Writer) ([]byte, error) {
	entries, err := os.ReadDir(c.job)
	if err != nil {
		return nil, err
	}
	whole, err := filepath.Abs(c.job)
	if err != nil {
		return nil, err
	}
	title := filepath.Base(whole)
	p := piece{Name: title}
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		panels, err := c.panelsOfFile(e.Name(), stderr)
		if err != nil {
			return nil, err
		}
		p.Panels = append(p.Panels, panels...)
	}
	if len(p.Panels) == 0 {
		return nil, fmt.Errorf("%s: no photo (.jpg, .jpeg, .png) and no drawing (.svg, .dxf) in it", c.job)
	}
	seen := map[string]bool{}
	for i, q := range p.Panels {
		if seen[q.Name] {
			return nil, fmt.Errorf("two panels are called %q: give the files other names", q.Name)
		}
		seen[q.Name] = true
		p.Panels[i] = q
	}
	return encoded(skeleton{
		Schema: "coverwright/job/1", Name: title, Currency: "USD",
		Goods: []goods{{
			ID: c.goods, Kind: "roll", Name: "fill in: goods, material, price and width", Material: "woven", Price: "1.00 USD/yd", Width: "54 in",
		}},
		Pieces: []piece{p},
		Quote:  quote{LabourRate: "1.00 USD/h"},
	})
}

// panelsOfFile reads a photo or a drawing; other files are told of.
func (c command) panelsOfFile(file string, stderr io.Writer) ([]panelSpec, error) {
	path := filepath.Join(c.job, file)
	ext := strings.ToLower(filepath.Ext(file))
	// Dots part panels from edges in job files.
	name := strings.TrimSpace(strings.ReplaceAll(strings.TrimSuffix(file, filepath.Ext(file)), ".", " "))
	if name == "" {
		return nil, fmt.Errorf("%s: a file name that can name a panel", path)
	}
	switch {
	case slices.Contains([]string{".jpg", ".jpeg", ".png"}, ext):
		draw := ""
		if c.overlay != "" {
			if err := os.Mkdir(c.overlay, 0o750); err != nil && !errors.Is(err, os.ErrExist) {
				return nil, err
			}
			draw = filepath.Join(c.overlay, file+".svg")
		}
		r, err := c.read(path, draw)
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(stderr, "%s:\n", path)
		r.tell(stderr)
		return panelsOf(r, name, c.goods)
	case ext == ".svg", ext == ".dxf":
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close() //nolint:errcheck // only read
		found, err := c.drawings.read(f, ext == ".dxf")
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		return c.drawn(found, name, path, stderr)
	}
	fmt.Fprintf(stderr, "note: %s is no photo (.jpg, .jpeg, .png) and no drawing (.svg, .dxf); it was left out\n", path)
	return nil, nil
}

// drawn gives the panels of a drawing and tells of them.
func (c command) drawn(found drawn, name, path string, stderr io.Writer) ([]panelSpec, error) {
	fmt.Fprintf(stderr, "%s:\n", path)
	var out []panelSpec
	for i, o := range found.outlines {
		called := name
		if len(found.outlines) > 1 {
			called = fmt.Sprintf("%s %d", name, i+1)
		}
		wide, tall := o.Size()
		fmt.Fprintf(stderr, "%s: %s x %s mm, %s, as drawn\n", called, tenths(wide), tenths(tall), plural(len(o.Edges()), "side", "sides"))
		out = append(out, panelSpec{called, c.goods, o.Shape()})
	}
	for _, n := range found.notes {
		fmt.Fprintln(stderr, "note:", n)
	}
	return out, nil
}
