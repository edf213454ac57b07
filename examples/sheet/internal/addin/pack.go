package addin

import (
	"archive/zip"
	"bytes"
	"context"
	"embed"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

//go:embed generated
var generated embed.FS

// Platform is a system and processor the child is built for.
type Platform struct{ OS, Arch string }

// String gives the platform, such as linux/amd64.
func (p Platform) String() string { return p.OS + "/" + p.Arch }

// Platforms lists every platform an add-in is built for.
func Platforms() []Platform {
	var out []Platform
	for _, system := range []string{"darwin", "linux", "windows"} {
		for _, arch := range []string{"amd64", "arm64"} {
			out = append(out, Platform{system, arch})
		}
	}
	return out
}

// ParsePlatforms reads a list such as "linux/amd64,windows/amd64".
func ParsePlatforms(list string) ([]Platform, error) {
	var out []Platform
	for _, name := range strings.Split(list, ",") {
		known := false
		for _, p := range Platforms() {
			if p.String() == strings.TrimSpace(name) {
				out, known = append(out, p), true
			}
		}
		if !known {
			return nil, fmt.Errorf("platform %q: one of %v is wanted", name, Platforms())
		}
	}
	return out, nil
}

const childPackage = "github.com/coverwright/coverwright/examples/sheet/internal/child"

// child builds the filter for a platform with the go command, from the module
// the program is run in. The bytes do not depend on folder or time.
func child(ctx context.Context, p Platform, dir string) ([]byte, error) {
	file := filepath.Join(dir, "child-"+p.OS+"-"+p.Arch)
	cmd := exec.CommandContext(ctx, "go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", file, childPackage) //nolint:gosec // fixed words but for the platform, which comes from the list
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+p.OS, "GOARCH="+p.Arch, "GOAMD64=v1", "GOARM64=v8.0", "GOFLAGS=")
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building for %v: %w\n%s", p, err, out)
	}
	return os.ReadFile(file)
}

// Build packs the add-in for platforms. The same source and Go version give
// the same bytes.
func Build(ctx context.Context, platforms []Platform, progress func(string)) ([]byte, error) {
	dir, err := os.MkdirTemp("", "sheet-addin-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // left to the system's cleaning
	children := map[string][]byte{}
	for _, p := range platforms {
		progress("building for " + p.String())
		b, err := child(ctx, p, dir)
		if err != nil {
			return nil, err
		}
		name := "lib/child-" + p.OS + "-" + p.Arch
		if p.OS == "windows" {
			name += ".exe"
		}
		children[name] = b
	}
	return pack(platforms, children)
}

// pack writes the archive, the manifest first.
func pack(platforms []Platform, children map[string][]byte) ([]byte, error) {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	add := func(name string, data []byte, mode fs.FileMode) error {
		// A fixed time: the first a zip archive can hold.
		h := &zip.FileHeader{Name: name, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)}
		h.SetMode(mode)
		w, err := z.CreateHeader(h)
		if err == nil {
			_, err = w.Write(data)
		}
		return err
	}
	for _, f := range []struct{ name, from string }{
		{"META-INF/manifest.xml", manifestFile}, {"description.xml", describeFile}, {rdbFile, rdbFile}, {shimFile, shimFile},
		{registryFile, registryFile}, {referenceFile, referenceFile},
	} {
		data, err := generated.ReadFile("generated/" + f.from)
		if err != nil {
			return nil, err
		}
		if err := add(f.name, data, 0o644); err != nil {
			return nil, err
		}
	}
	for _, p := range platforms {
		name := "lib/child-" + p.OS + "-" + p.Arch
		if p.OS == "windows" {
			name += ".exe"
		}
		if err := add(name, children[name], 0o755); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
