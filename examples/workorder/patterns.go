package main

import (
	"fmt"
	"path"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
)

// renderPatterns writes the folder of -format patterns.
func renderPatterns(o job.WorkOrder, set settings) error {
	files, err := patternFiles(o, set.metric, set.paper, set.all)
	if err != nil {
		return err
	}
	return writeFolder(set.out, files, set.force, isPatternFile)
}

// patternFiles draws the patterns of a job: one PDF of full-size pages, and
// each piece as SVG and DXF.
func patternFiles(o job.WorkOrder, metric bool, on paper, all bool) ([]outFile, error) {
	s := &sheet{metric: metric}
	patterns := patternsOf(o)
	book, err := s.patternPDF(o, patterns, on, all)
	if err != nil {
		return nil, err
	}
	files := []outFile{{"patterns.pdf", book}}
	for _, p := range patterns {
		name := slug(p.number, p.name())
		files = append(files, outFile{"svg/" + name + ".svg", []byte(s.patternSVG(p))}, outFile{"dxf/" + name + ".dxf", []byte(s.patternDXF(p))})
	}
	return files, nil
}

// isPatternFile tells which files of a folder this format writes.
func isPatternFile(name string) bool {
	switch name {
	case "patterns.pdf", "svg/", "dxf/":
		return true
	}
	dir, file := path.Split(name)
	return dir == "svg/" && strings.HasSuffix(file, ".svg") || dir == "dxf/" && strings.HasSuffix(file, ".dxf")
}

// paperNamed finds a paper.
func paperNamed(name string) (paper, error) {
	var names []string
	for _, p := range papers {
		if p.name == name {
			return p, nil
		}
		names = append(names, p.name)
	}
	return paper{}, fmt.Errorf("-paper %q: want %s", name, strings.Join(names, " or "))
}
