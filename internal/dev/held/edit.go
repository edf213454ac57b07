package main

import (
	"bytes"
	"go/token"
	"slices"
	"strings"
)

// edit writes a piece of a file anew. What it keeps of the old text it takes
// from old, which carries the edits inside.
type edit struct {
	from, to token.Pos
	text     func(old func(from, to token.Pos) string) string
}

// edited gives the text of a file with its edits, which lie inside one another
// or apart.
func edited(s *source, f file, edits []edit) []byte {
	offset := func(p token.Pos) int { return s.fset.Position(p).Offset }
	slices.SortStableFunc(edits, func(a, b edit) int {
		if a.from != b.from {
			return int(a.from - b.from)
		}
		return int(b.to - a.to)
	})
	var old func(from, to token.Pos) string
	done := map[int]bool{}
	old = func(from, to token.Pos) string {
		var out strings.Builder
		for i, e := range edits {
			if done[i] || e.from < from || e.to > to {
				continue
			}
			done[i] = true
			out.Write(f.text[offset(from):offset(e.from)])
			out.WriteString(e.text(old))
			from = e.to
		}
		out.Write(f.text[offset(from):offset(to)])
		return out.String()
	}
	var all bytes.Buffer
	all.WriteString(old(f.tree.FileStart, f.tree.FileEnd))
	return all.Bytes()
}
