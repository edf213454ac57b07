package main

import (
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"
)

// result is a change with what noticed it, empty for nothing.
type result struct {
	change
	by string
}

// bench builds what notices the changes of one run, and makes them.
type bench struct {
	root, dir string
	workers   int
	each      func(result) // told as they come
	rows      program
	tests     map[*source]program
}

// table is the check table of a package.
func table(s *source) string {
	switch first, _, _ := strings.Cut(s.path, "/"); {
	case s.path == "material/findings":
		return "findings"
	case strings.HasPrefix(s.path, "cost/job"):
		return "job"
	default:
		return first
	}
}

// setUpLimit is how long a program may take whose time is not known yet.
const setUpLimit = 5 * time.Minute

const rowsPath = "./internal/dev/held/rows"

// setUp builds the tests of every package and the check table, and runs them
// without a change: they must hold.
func setUp(b *bench, lay *overlay, sources []*source) error {
	b.tests = map[*source]program{}
	b.rows = program{name: "rows", file: filepath.Join(b.dir, "rows"), dir: b.root, limit: setUpLimit}
	if err := lay.build(b.root, b.rows.file, "build", rowsPath); err != nil {
		return err
	}
	all := []*program{&b.rows}
	for _, s := range sources {
		p := &program{name: "tests", file: filepath.Join(b.dir, strings.ReplaceAll(s.path, "/", "_")+".test"), dir: s.dir,
			limit: setUpLimit, args: []string{"-test.failfast", "-test.skip=" + unheard}}
		if s.rapid {
			p.args = append(p.args, "-rapid.nofailfile", "-rapid.checks=20", "-rapid.seed=1") // the same draws each time
		}
		if err := lay.build(b.root, p.file, "test", "./"+s.path); err != nil {
			return err
		}
		all = append(all, p)
	}
	for i, p := range all {
		if err := p.measure(); err != nil {
			return err
		}
		if i > 0 {
			b.tests[sources[i-1]] = *p
		}
	}
	return nil
}

// all makes every change and says what noticed it.
func (b *bench) all(changes []change) []result {
	results := make([]result, len(changes))
	next := make(chan int)
	var wg sync.WaitGroup
	for range b.workers {
		wg.Go(func() {
			for i := range next {
				results[i] = result{changes[i], b.notices(changes[i])}
				if b.each != nil {
					b.each(results[i])
				}
			}
		})
	}
	for i := range changes {
		next <- i
	}
	close(next)
	wg.Wait()
	return results
}

// notices runs rows and tests, the quick ones first.
func (b *bench) notices(c change) string {
	rows, tests := b.rows, b.tests[c.src]
	if c.built {
		dir, err := os.MkdirTemp(b.dir, "built")
		if err != nil {
			return ""
		}
		defer os.RemoveAll(dir) //nolint:errcheck // in a folder that goes too
		lay := &overlay{dir: dir, files: map[string]string{}}
		if by := lay.anew(c); by != "" {
			return by
		}
		tests.file = filepath.Join(dir, path.Base(tests.file))
		if err := lay.build(b.root, tests.file, "test", "./"+c.src.path); err != nil {
			return "does not build"
		}
		return tests.fails(c.id) // the check table takes too long to build for one
	}
	few := rows
	few.args = []string{table(c.src)}
	if by := few.fails(c.id); by != "" {
		return by
	}
	if by := tests.fails(c.id); by != "" {
		return by
	}
	rows.args = wide(c.src)
	return rows.fails(c.id)
}

// wide lists the tables that may notice a package beside its own. That of jobs
// takes long, and notices only what jobs take as it stands.
func wide(s *source) []string {
	tables := []string{"unit", "allowance", "material", "findings", "thread", "caution", "foam", "cost"}
	if s.path == "material/findings" || strings.HasPrefix(s.path, "cost/") {
		tables = append(tables, "job")
	}
	return tables
}

// anew lays the file with another literal over that of the tree.
func (o *overlay) anew(c change) string {
	f := c.src.fset.Position(c.figure.lit.Pos())
	text, err := os.ReadFile(f.Filename)
	if err != nil {
		return err.Error()
	}
	to := f.Offset + len(c.figure.lit.Value)
	other := rebuilt(c.figure, c.what)
	if err := o.put(f.Filename, []byte(string(text[:f.Offset])+other+string(text[to:]))); err != nil {
		return err.Error()
	}
	return ""
}

// key names a change in the list of those that nothing need notice.
func (c change) key() string {
	if c.figure == nil {
		return c.what
	}
	return strings.Join([]string{c.figure.file, c.figure.declaration, strconv.Itoa(c.figure.n), c.figure.lit.Value, c.what}, ",")
}
