package addin

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/notices"
	"github.com/coverwright/coverwright/unit/caution"
)

const sumFile = "XShop.sha256"

var update = flag.Bool("update", false, "write the generated files")

// The list of functions points to where the cautions of a job stand.
func TestReferencePointsToCautions(t *testing.T) {
	for _, s := range []string{caution.Deference, caution.SafetySeams, caution.Pointer} {
		assert.Equal(t, 1, strings.Count(Reference(), s), s)
	}
}

func TestGeneratedFilesAreFresh(t *testing.T) {
	want := Generate()
	for _, name := range slices.Sorted(maps.Keys(want)) {
		file := filepath.Join("generated", name)
		if *update {
			require.NoError(t, os.WriteFile(file, want[name], 0o600))
			continue
		}
		got, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want[name], got), "%s is stale: run go -C examples generate ./...", file)
	}
	entries, err := os.ReadDir("generated")
	require.NoError(t, err)
	for _, e := range entries {
		assert.True(t, want[e.Name()] != nil || e.Name() == rdbFile || e.Name() == sumFile, "%s is not generated", e.Name())
	}
}

// The type library is compiled by a program that may not be there: beside it
// stands the sum of the description it was compiled from. The tests with the
// tag libreoffice compile it again and compare the bytes.
func TestTypeLibraryIsFresh(t *testing.T) {
	if _, err := exec.LookPath("soffice"); err != nil {
		t.Log("NOT RUN: LibreOffice is not installed, so it computed neither the add-in nor the workbook (go test -tags libreoffice)")
	}
	got, err := os.ReadFile(filepath.Join("generated", sumFile))
	require.NoError(t, err)
	rdb, err := os.ReadFile(filepath.Join("generated", rdbFile))
	require.NoError(t, err)
	assert.Equal(t, sums(rdb), string(got), "%s is stale: run go -C examples/sheet test -tags libreoffice -run TestTypeLibraryCompiles ./internal/addin -update", rdbFile)
}

// sums names the description and the library made from it.
func sums(rdb []byte) string {
	return fmt.Sprintf("%x  %s\n%x  %s\n", sha256.Sum256([]byte(idl())), idlFile, sha256.Sum256(rdb), rdbFile)
}

func TestXMLIsWellFormed(t *testing.T) {
	for _, name := range []string{registryFile, manifestFile, describeFile} {
		d := xml.NewDecoder(bytes.NewReader(Generate()[name]))
		for {
			_, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, name)
		}
	}
}

func TestPackGivesTheSameBytes(t *testing.T) {
	one, two := Program{Platform: Platform{"linux", "amd64"}, Data: []byte("one")}, Program{Platform: Platform{"windows", "arm64"}, Data: []byte("two")}
	a, err := Pack([]Program{one, two})
	require.NoError(t, err)
	b, err := Pack([]Program{two, one})
	require.NoError(t, err)
	assert.True(t, bytes.Equal(a, b))
	z, err := zip.NewReader(bytes.NewReader(a), int64(len(a)))
	require.NoError(t, err)
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
		mode := os.FileMode(0o644)
		if strings.HasPrefix(f.Name, "lib/") {
			mode = 0o755
		}
		assert.Equal(t, mode, f.Mode(), f.Name)
	}
	assert.Equal(t, []string{"META-INF/manifest.xml", "description.xml", "XShop.rdb", "shop_addin.py", "CalcAddIns.xcu", "FUNCTIONS.md", "LICENSE", "THIRD-PARTY.txt", "lib/sheet-linux-amd64", "lib/sheet-windows-arm64.exe"}, names)
	assert.Equal(t, notices.Own(), contents(t, z.File[6]))
	assert.Equal(t, notices.ThirdParties(), contents(t, z.File[7]))
	assert.Equal(t, "two", contents(t, z.File[9]))
}

func TestPackRefuses(t *testing.T) {
	linux, mac := Platform{"linux", "amd64"}, Platform{"darwin", "arm64"}
	_, err := Pack(nil)
	require.ErrorContains(t, err, "without a program")
	_, err = Pack([]Program{{Platform: linux}, {Platform: mac}, {Platform: linux}})
	require.ErrorContains(t, err, "two programs for linux/amd64")
	_, err = Pack([]Program{{Platform: linux, Revision: "1f"}, {Platform: mac, Revision: "2e"}})
	require.ErrorContains(t, err, "different sources: revisions 2e and 1f")
	_, err = Pack([]Program{{Platform: linux, Revision: "1f"}, {Platform: mac}})
	assert.NoError(t, err)
}

func contents(t *testing.T, f *zip.File) string {
	t.Helper()
	r, err := f.Open()
	require.NoError(t, err)
	defer r.Close()
	b, err := io.ReadAll(r)
	require.NoError(t, err)
	return string(b)
}

func TestParsePlatform(t *testing.T) {
	p, err := ParsePlatform("linux/arm64")
	require.NoError(t, err)
	assert.Equal(t, Platform{"linux", "arm64"}, p)
	_, err = ParsePlatform("plan9/amd64")
	assert.ErrorContains(t, err, "linux/amd64")
	assert.Len(t, Platforms(), 6)
}

// The shim looks for a program under the name that it is packed with.
func TestShimFindsThePrograms(t *testing.T) {
	assert.Contains(t, shimText, `"sheet-%s-%s%s" % (system, machine, ".exe" if system == "windows" else "")`)
	for _, p := range Platforms() {
		name := strings.TrimSuffix(strings.TrimPrefix(p.programName(), "lib/sheet-"), ".exe")
		system, machine, _ := strings.Cut(name, "-")
		assert.Contains(t, shimText, `: "`+system+`"`)
		assert.Contains(t, shimText, `: "`+machine+`"`)
	}
}
