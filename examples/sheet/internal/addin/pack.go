package addin

import (
	"archive/zip"
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"time"

	"github.com/coverwright/coverwright/examples/sheet/internal/notices"
)

//go:embed generated
var generated embed.FS

// packed is a generated file with its name in the add-in.
type packed struct{ name, from string }

// files lists the generated files of the add-in, the manifest first.
func files() []packed {
	return []packed{
		{"META-INF/manifest.xml", manifestFile}, {"description.xml", describeFile}, {rdbFile, rdbFile}, {shimFile, shimFile},
		{registryFile, registryFile}, {referenceFile, referenceFile},
	}
}

// programName gives the place of a program in the add-in, as the shim looks
// for it.
func (p Platform) programName() string {
	name := "lib/sheet-" + p.OS + "-" + p.Arch
	if p.OS == "windows" {
		name += ".exe"
	}
	return name
}

// Pack makes the add-in of one program for each platform, with the notices of
// what is in them. The same programs in any order give the same bytes.
func Pack(programs []Program) ([]byte, error) {
	if len(programs) == 0 {
		return nil, errors.New("an add-in without a program")
	}
	programs = slices.Clone(programs)
	slices.SortFunc(programs, func(a, b Program) int { return strings.Compare(a.Platform.String(), b.Platform.String()) })
	revision := ""
	for i, p := range programs {
		if i > 0 && p.Platform == programs[i-1].Platform {
			return nil, fmt.Errorf("two programs for %v", p.Platform)
		}
		if p.Revision == "" {
			continue
		}
		if revision != "" && revision != p.Revision {
			return nil, fmt.Errorf("the programs are made from different sources: revisions %s and %s", revision, p.Revision)
		}
		revision = p.Revision
	}
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
	for _, f := range files() {
		data, err := generated.ReadFile("generated/" + f.from)
		if err != nil {
			return nil, err
		}
		if err := add(f.name, data, 0o644); err != nil {
			return nil, err
		}
	}
	if err := errors.Join(add("LICENSE", []byte(notices.Own()), 0o644), add("THIRD-PARTY.txt", []byte(notices.ThirdParties()), 0o644)); err != nil {
		return nil, err
	}
	for _, p := range programs {
		if err := add(p.Platform.programName(), p.Data, 0o755); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
