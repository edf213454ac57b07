package notices

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the notices")

// The folder of the programs, from here.
var programs = filepath.Join("..", "..", "..")

func TestNoticesAreFresh(t *testing.T) {
	licence, err := os.ReadFile(filepath.Join(programs, "..", "LICENSE"))
	require.NoError(t, err)
	all := linked(t)
	for name, want := range map[string]string{
		ownFile:                               string(licence),
		thirdFile:                             ofSheet(t, all),
		filepath.Join(programs, "NOTICES.md"): ofAll(t, all),
	} {
		if *update {
			require.NoError(t, os.WriteFile(name, []byte(want), 0o600))
			continue
		}
		got, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.True(t, want == string(got), "%s is stale: run go -C examples generate ./...", name)
	}
}

// module is code of others with its terms.
type module struct {
	title    string          // path and version
	files    map[string]bool // of its terms
	programs map[string]bool // it is linked into
}

// golang is the runtime and library of Go, which every program has in it.
const golang = "The Go runtime and standard library"

// linked lists the modules that are linked into a program on any platform the
// add-in knows, by their titles, with Go first.
func linked(t *testing.T) []module {
	t.Helper()
	root, err := exec.CommandContext(t.Context(), "go", "env", "GOROOT").Output()
	require.NoError(t, err)
	first := module{golang, map[string]bool{}, map[string]bool{}}
	for _, file := range terms(t, strings.TrimSpace(string(root))) {
		first.files[file] = true
	}
	found := map[string]module{}
	for _, platform := range []string{"darwin/amd64", "darwin/arm64", "linux/amd64", "linux/arm64", "windows/amd64", "windows/arm64"} {
		packages := list(t, platform)
		for _, program := range packages {
			if program.Name != "main" {
				continue
			}
			name := filepath.Base(program.Dir)
			first.programs[name] = true
			for _, path := range program.Deps {
				p := packages[path]
				if p.Module == nil || p.Module.Main || p.Module.Replace != nil {
					continue // the library of Go, and the project itself
				}
				title := p.Module.Path + " " + p.Module.Version
				if found[title].files == nil {
					found[title] = module{title, map[string]bool{}, map[string]bool{}}
				}
				found[title].programs[name] = true
				// From the package up to its module: a part may have its own terms.
				for dir := p.Dir; ; dir = filepath.Dir(dir) {
					for _, file := range terms(t, dir) {
						found[title].files[file] = true
					}
					if dir == p.Module.Dir {
						break
					}
				}
			}
		}
	}
	required, err := os.ReadFile(filepath.Join(programs, "go.mod"))
	require.NoError(t, err)
	all := []module{first}
	for _, title := range slices.Sorted(maps.Keys(found)) {
		require.Contains(t, string(required), "\t"+title)
		all = append(all, found[title])
	}
	for _, m := range all {
		require.NotEmpty(t, m.files, "%s has no terms", m.title)
	}
	return all
}

// ofSheet writes what the program sheet passes on.
func ofSheet(t *testing.T, all []module) string {
	t.Helper()
	all = slices.DeleteFunc(slices.Clone(all), func(m module) bool { return !m.programs["sheet"] })
	var b strings.Builder
	b.WriteString("The program sheet has in it, besides its own code, the Go runtime with its\nstandard library, and these modules. Their terms follow word for word.\n\n")
	for _, m := range all[1:] {
		b.WriteString("  " + m.title + "\n")
	}
	for _, m := range all {
		fmt.Fprintf(&b, "\n%s\n%s\n", strings.Repeat("=", 72), m.title)
		for _, file := range slices.Sorted(maps.Keys(m.files)) {
			fmt.Fprintf(&b, "%s: %s\n\n%s\n", strings.Repeat("-", 8), filepath.Base(file), text(t, file))
		}
	}
	return b.String()
}

// ofAll writes the notices of all programs, as a page.
func ofAll(t *testing.T, all []module) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("# Notices\n\nThe programs in this folder are linked with code of others. It stays on the terms of its makers, which stand below word for word; whoever passes\n" +
		"a program on passes them on with it. `sheet licences` prints those of `sheet`, which are in its add-in too. This page is written by\n" +
		"`go -C examples generate ./...` from what is linked on Linux, macOS and Windows; a test fails when it is stale.\n\n" +
		"| code | terms | in the programs |\n|---|---|---|\n")
	for _, m := range all {
		kinds := map[string]bool{}
		for file := range m.files {
			kinds[kind(t, file)] = true
		}
		in := strings.Join(slices.Sorted(maps.Keys(m.programs)), ", ")
		if len(m.programs) == len(all[0].programs) {
			in = "all"
		}
		fmt.Fprintf(&b, "| %s | %s | %s |\n", m.title, strings.Join(slices.Sorted(maps.Keys(kinds)), ", "), in)
	}
	for _, m := range all {
		fmt.Fprintf(&b, "\n## %s\n", m.title)
		for _, file := range slices.Sorted(maps.Keys(m.files)) {
			fmt.Fprintf(&b, "\n%s:\n\n```text\n%s\n```\n", filepath.Base(file), text(t, file))
		}
	}
	return b.String()
}

// text reads a file of terms.
func text(t *testing.T, file string) string {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(bytes.TrimSpace(bytes.ReplaceAll(raw, []byte("\r\n"), []byte("\n"))))
}

// kind names the terms in a file as SPDX does. Others than these are looked at
// by a person before they come in.
func kind(t *testing.T, file string) string {
	t.Helper()
	words := strings.Join(strings.Fields(text(t, file)), " ")
	for _, k := range []struct{ name, says string }{
		{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy"},
		{"BSD-3-Clause", "Neither the name of"},
		{"Apache-2.0", "Apache License, Version 2.0"},
		{"a patent grant", "Additional IP Rights Grant (Patents)"},
	} {
		if strings.Contains(words, k.says) {
			return k.name
		}
	}
	require.Fail(t, "unknown terms", "%s", file)
	return ""
}

// terms lists the files of a folder that say on what terms it may be passed on.
func terms(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	named := regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|patents)(\.(txt|md))?$`)
	var out []string
	for _, e := range entries {
		if e.Type().IsRegular() && named.MatchString(e.Name()) {
			out = append(out, filepath.Join(dir, e.Name()))
		}
	}
	return out
}

// listed is a package as the go command lists it.
type listed struct {
	ImportPath, Name, Dir string
	Deps                  []string
	Module                *struct {
		Path, Version, Dir string
		Replace            *struct{ Path string }
		Main               bool
	}
}

// list gives the packages of all programs, by their paths.
func list(t *testing.T, platform string) map[string]listed {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", "list", "-deps", "-json=ImportPath,Name,Dir,Deps,Module", "./...")
	cmd.Dir = programs
	system, arch, _ := strings.Cut(platform, "/")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+arch)
	out, err := cmd.Output()
	require.NoError(t, err)
	all := map[string]listed{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		err := d.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		all[p.ImportPath] = p
	}
}
