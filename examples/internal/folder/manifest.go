package folder

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Manifest is the name of the list, in every folder, of the files that were written
// into it.
const Manifest = "written.json"

const schema = "coverwright/written/1"

// manifest is what a manifest holds. It lists all files but itself, by name.
// Kind is what they are together.
type manifest struct {
	Schema string  `json:"schema"`
	Kind   string  `json:"kind"`
	Files  []entry `json:"files"`
}

// entry is a file as it was written.
type entry struct {
	Name   string `json:"name"`
	Size   int64  `json:"size"`
	SHA256 string `json:"sha256"`
}

// listOf lists files, each name once and none that this package keeps for itself.
func listOf(kind string, files []File) (manifest, error) {
	m := manifest{Schema: schema, Kind: kind, Files: []entry{}}
	for _, f := range files {
		sum := sha256.Sum256(f.Data)
		m.Files = append(m.Files, entry{Name: f.Name, Size: int64(len(f.Data)), SHA256: hex.EncodeToString(sum[:])})
	}
	slices.SortFunc(m.Files, func(a, b entry) int { return cmp.Compare(a.Name, b.Name) })
	return m, m.check()
}

// check refuses names that lie outside the folder, stand twice or are kept.
func (m manifest) check() error {
	for i, e := range m.Files {
		first, _, _ := strings.Cut(e.Name, "/")
		if !fs.ValidPath(e.Name) || slices.Contains([]string{".", Manifest, lockFile, work}, first) || i > 0 && e.Name == m.Files[i-1].Name {
			return &fs.PathError{Op: "write", Path: e.Name, Err: fs.ErrInvalid}
		}
	}
	return nil
}

func (m manifest) has(name string) bool {
	return slices.ContainsFunc(m.Files, func(e entry) bool { return e.Name == name })
}

// folders are the folders that the files lie in.
func (m manifest) folders() []string {
	var out []string
	for _, e := range m.Files {
		for d := path.Dir(e.Name); d != "." && !slices.Contains(out, d); d = path.Dir(d) {
			out = append(out, d)
		}
	}
	slices.Sort(out)
	return out
}

func (m manifest) bytes() ([]byte, error) {
	b, err := json.MarshalIndent(m, "", "  ")
	return append(b, '\n'), err
}

// parse reads a manifest.
func parse(text []byte) (manifest, error) {
	var m manifest
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&m); err != nil || m.Schema != schema {
		return m, fmt.Errorf("%s is not a list of what was written; nothing has been touched, choose another folder", Manifest)
	}
	slices.SortFunc(m.Files, func(a, b entry) int { return cmp.Compare(a.Name, b.Name) })
	return m, m.check()
}
