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

func TestNoticesAreFresh(t *testing.T) {
	licence, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "LICENSE"))
	require.NoError(t, err)
	for name, want := range map[string]string{ownFile: string(licence), thirdFile: thirdParties(t)} {
		if *update {
			require.NoError(t, os.WriteFile(name, []byte(want), 0o600))
			continue
		}
		got, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.True(t, want == string(got), "%s is stale: run go -C examples generate ./...", name)
	}
}

// linked is a package of the program as the go command lists it.
type linked struct {
	Dir    string
	Module *struct {
		Path, Version, Dir string
		Replace            *struct{ Path string }
		Main               bool
	}
}

// thirdParties writes the notices out of the folders of the linked packages,
// for every platform the add-in knows.
func thirdParties(t *testing.T) string {
	t.Helper()
	texts := map[string]map[string]bool{} // the files of each module
	for _, platform := range []string{"darwin/amd64", "darwin/arm64", "linux/amd64", "linux/arm64", "windows/amd64", "windows/arm64"} {
		for _, p := range list(t, platform) {
			if p.Module == nil || p.Module.Main || p.Module.Replace != nil {
				continue // the library of Go, and the project itself
			}
			title := p.Module.Path + " " + p.Module.Version
			if texts[title] == nil {
				texts[title] = map[string]bool{}
			}
			// From the package up to its module: a part may have its own terms.
			for dir := p.Dir; ; dir = filepath.Dir(dir) {
				for _, file := range terms(t, dir) {
					texts[title][file] = true
				}
				if dir == p.Module.Dir {
					break
				}
			}
		}
	}
	root, err := exec.CommandContext(t.Context(), "go", "env", "GOROOT").Output()
	require.NoError(t, err)
	golang := map[string]bool{}
	for _, file := range terms(t, strings.TrimSpace(string(root))) {
		golang[file] = true
	}
	var b strings.Builder
	b.WriteString("The program sheet has in it, besides its own code, the Go runtime with its\nstandard library, and these modules. Their terms follow word for word.\n\n")
	titles := slices.Sorted(maps.Keys(texts))
	module, err := os.ReadFile(filepath.Join("..", "..", "..", "go.mod"))
	require.NoError(t, err)
	for _, title := range titles {
		require.Contains(t, string(module), "\t"+title)
		b.WriteString("  " + title + "\n")
	}
	write := func(title string, files map[string]bool) {
		require.NotEmpty(t, files, "%s has no terms", title)
		fmt.Fprintf(&b, "\n%s\n%s\n", strings.Repeat("=", 72), title)
		for _, file := range slices.Sorted(maps.Keys(files)) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			fmt.Fprintf(&b, "%s: %s\n\n%s\n", strings.Repeat("-", 8), filepath.Base(file), bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
		}
	}
	write("The Go runtime and standard library", golang)
	for _, title := range titles {
		write(title, texts[title])
	}
	return b.String()
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

func list(t *testing.T, platform string) []linked {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "go", "list", "-deps", "-json=Dir,Module", "../..")
	system, arch, _ := strings.Cut(platform, "/")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+arch)
	out, err := cmd.Output()
	require.NoError(t, err)
	var all []linked
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p linked
		err := d.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		all = append(all, p)
	}
}
