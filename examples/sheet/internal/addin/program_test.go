package addin

import (
	"archive/zip"
	"bytes"
	"debug/buildinfo"
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/notices"
)

// build makes the program for a platform.
func build(t testing.TB, p Platform) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet")
	if p.OS == "windows" {
		file += ".exe"
	}
	cmd := exec.CommandContext(t.Context(), "go", "build", "-ldflags=-s", "-o", file, "../..") //nolint:gosec // the test's own words
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+p.OS, "GOARCH="+p.Arch)
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return file
}

var (
	once sync.Once
	here Program // the program for the platform of the tests
)

// built gives the program as it is made for the platform of the tests.
func built(t testing.TB) Program {
	t.Helper()
	once.Do(func() {
		var err error
		here, err = ReadProgram(build(t, Platform{runtime.GOOS, runtime.GOARCH}))
		require.NoError(t, err)
	})
	require.NotEmpty(t, here.Data, "the program was not built")
	return here
}

// The compiled program alone, away from its source and without a Go toolchain,
// makes an add-in whose program answers.
func TestTheProgramPacksItself(t *testing.T) {
	dir := t.TempDir()
	program := filepath.Join(dir, filepath.Base(Platform{runtime.GOOS, runtime.GOARCH}.programName()))
	require.NoError(t, os.WriteFile(program, built(t).Data, 0o700)) //nolint:gosec // it is run
	alone := func(stdin, name string, args ...string) string {
		cmd := exec.CommandContext(t.Context(), name, args...) //nolint:gosec // the test's own words
		cmd.Dir, cmd.Env, cmd.Stdin = dir, []string{"PATH="}, strings.NewReader(stdin)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		return string(out)
	}
	assert.Contains(t, alone("", program, "addin", "-out", "shop.oxt"), "for "+runtime.GOOS+"/"+runtime.GOARCH+"\n")
	first, err := os.ReadFile(filepath.Join(dir, "shop.oxt"))
	require.NoError(t, err)
	alone("", program, "addin", "-out", "shop.oxt", "-binary", program)
	second, err := os.ReadFile(filepath.Join(dir, "shop.oxt"))
	require.NoError(t, err)
	assert.True(t, bytes.Equal(first, second), "the same program gives the same bytes")

	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	require.NoError(t, err)
	inside := z.File[len(z.File)-1]
	out := filepath.Join(dir, "unpacked"+filepath.Ext(inside.Name))
	require.NoError(t, os.WriteFile(out, []byte(contents(t, inside)), 0o700)) //nolint:gosec // it is run
	assert.JSONEq(t, `{"id":1,"value":16}`, alone(`{"id":1,"fn":"BOARDFEET","args":[24,24,4]}`+"\n", out, "serve"))
	assert.Equal(t, notices.Own()+"\n"+notices.ThirdParties(), alone("", out, "licences"))
}

// What the compiled program says that it was linked from has its notice.
func TestNoticesNameWhatIsLinked(t *testing.T) {
	info, err := buildinfo.Read(bytes.NewReader(built(t).Data))
	require.NoError(t, err)
	list, _, _ := strings.Cut(notices.ThirdParties(), "====")
	var named, linked []string
	for line := range strings.Lines(list) {
		if name, ok := strings.CutPrefix(line, "  "); ok {
			named = append(named, strings.TrimSpace(name))
		}
	}
	for _, m := range info.Deps {
		if m.Replace == nil {
			linked = append(linked, m.Path+" "+m.Version)
		}
	}
	assert.Equal(t, slices.Sorted(slices.Values(linked)), named)
}

// swap gives a copy of data with other bytes at a place.
func swap(data []byte, at int, with string) []byte {
	data = bytes.Clone(data)
	copy(data[at:], with)
	return data
}

func TestFilesThatAreNoProgramOfOursAreRefused(t *testing.T) {
	foreign, err := os.Executable() // a program of Go, but a test
	require.NoError(t, err)
	foreignData, err := os.ReadFile(foreign)
	require.NoError(t, err)
	ours := built(t).Data
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"empty":          {nil, "no program"},
		"text":           {[]byte("#!/bin/sh\nsheet\n"), "no program"},
		"32 bit":         {elfFile(1, 3, 2), "processor"},
		"other system":   {swap(elfFile(2, 62, 2), 7, "\x09"), "ELFOSABI_FREEBSD"},
		"a library":      {elfFile(2, 62, 1), "ET_REL"},
		"no information": {elfFile(2, 62, 2), "no program sheet"},
		"several":        {[]byte("\xca\xfe\xba\xbe\x00\x00\x00\x02"), "one for each"},
		"a half":         {ours[:len(ours)/2], "cut off"},
		"other words":    {bytes.ReplaceAll(ours, []byte("Generated from the function table"), []byte("generated from the function table")), "same source"},
		"another test":   {bytes.ReplaceAll(foreignData, []byte("Generated from the function table"), []byte("generated from the function table")), "same source"},
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "other")
			require.NoError(t, os.WriteFile(file, c.data, 0o600))
			_, err := ReadProgram(file)
			require.ErrorContains(t, err, c.want)
			assert.ErrorContains(t, err, file)
		})
	}
	_, err = ReadProgram(filepath.Join(t.TempDir(), "nowhere"))
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = ReadProgram(t.TempDir())
	assert.Error(t, err)
}

// A program whose head was changed to another processor.
func TestAProgramThatLiesIsRefused(t *testing.T) {
	p := built(t)
	at, other := map[string]int{"linux": 18, "darwin": 4, "windows": 0}[runtime.GOOS], ""
	switch runtime.GOOS {
	case "linux":
		other = map[string]string{"amd64": "\xb7\x00", "arm64": "\x3e\x00"}[runtime.GOARCH]
	case "darwin":
		other = map[string]string{"amd64": "\x0c\x00\x00\x01", "arm64": "\x07\x00\x00\x01"}[runtime.GOARCH]
	case "windows":
		at = int(binary.LittleEndian.Uint32(p.Data[0x3c:])) + 4
		other = map[string]string{"amd64": "\x64\xaa", "arm64": "\x64\x86"}[runtime.GOARCH]
	}
	_, err := programOf(swap(p.Data, at, other))
	require.ErrorContains(t, err, "says two things about itself")
	assert.ErrorContains(t, err, p.Platform.String()+" by its build information")
}
