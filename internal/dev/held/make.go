package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
)

// makeAll builds the changes into the packages, makes each and gives what
// noticed it.
func makeAll(b bench, finders []*finder, changes []change) ([]result, error) {
	dir, err := os.MkdirTemp("", "held")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // a folder of the system for such
	ids := map[*figure]map[string]int{}
	for i := range changes {
		c := &changes[i]
		if c.id = 2*(i+1) + c.second; c.figure == nil {
			continue
		}
		if ids[c.figure] == nil {
			ids[c.figure] = map[string]int{}
		}
		ids[c.figure][c.what] = c.id
	}
	lay := &overlay{dir: dir, files: map[string]string{}}
	var sources []*source
	for _, f := range finders {
		if !slices.ContainsFunc(changes, func(c change) bool { return c.src == f.src }) {
			continue
		}
		sources = append(sources, f.src)
		w := &switches{pkg: f.src.pkg}
		edits := figureEdits(f, w, ids)
		for file, e := range codeEdits(f.src, changes) {
			edits[file] = append(edits[file], e...)
		}
		if err := lay.source(f.src, w, edits); err != nil {
			return nil, err
		}
	}
	b.dir = dir
	if err := setUp(&b, lay, sources); err != nil {
		return nil, err
	}
	return b.all(changes), nil
}

// source lays the edited files of a package over its own, with the switches.
func (o *overlay) source(s *source, w *switches, edits map[int][]edit) error {
	for i, f := range s.files {
		if len(edits[i]) == 0 {
			continue
		}
		if err := o.put(filepath.Join(s.dir, f.name), edited(s, f, edits[i])); err != nil {
			return err
		}
	}
	return o.put(filepath.Join(s.dir, "held_switches.go"), w.text())
}

// report says what was not noticed, and fails where the list says otherwise.
func report(results []result, known map[string]string) error {
	noticed, bad := map[*source]int{}, 0
	total := map[*source]int{}
	var order []*source
	for _, r := range results {
		if total[r.src]++; total[r.src] == 1 {
			order = append(order, r.src)
		}
		_, listed := known[r.key()]
		if r.by != "" {
			noticed[r.src]++
		}
		switch {
		case r.by == "" && !listed:
			bad++
			fmt.Println("nothing notices", r.key())
		case r.by != "" && listed:
			bad++
			fmt.Println("stands among the survivors and is noticed by", r.by+":", r.key())
		}
	}
	for _, s := range order {
		fmt.Printf("%s: %d of %d changes noticed\n", s.path, noticed[s], total[s])
	}
	if bad > 0 && !slices.ContainsFunc(results, func(r result) bool { return r.mutant != nil }) {
		return fmt.Errorf("%d changes are not as survivors.csv says", bad)
	}
	return nil
}
