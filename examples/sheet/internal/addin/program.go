package addin

import (
	"bytes"
	"debug/buildinfo"
	"errors"
	"fmt"
	"io"
	"os"
)

// Program is this program as it is made for one platform.
type Program struct {
	Platform Platform
	Data     []byte
	Revision string // of the source it was made from, where it says so
}

// mostProgram is the largest file that is taken for a program, in bytes.
const mostProgram = 512 << 20

// ReadProgram reads a program and finds out what it is for. It refuses what
// does not run on one of Platforms, is not whole, says two things about itself,
// or is no program sheet of the same functions as the one that asks.
func ReadProgram(name string) (Program, error) {
	f, err := os.Open(name) //nolint:gosec // the user's own choice
	if err != nil {
		return Program{}, err
	}
	defer f.Close() //nolint:errcheck // only read
	data, err := io.ReadAll(io.LimitReader(f, mostProgram+1))
	if err != nil {
		return Program{}, err
	}
	if len(data) > mostProgram {
		return Program{}, fmt.Errorf("%s: more than %d MiB, which no program sheet has", name, mostProgram>>20)
	}
	p, err := programOf(data)
	if err != nil {
		return Program{}, fmt.Errorf("%s: %w", name, err)
	}
	return p, nil
}

func programOf(data []byte) (Program, error) {
	p := Program{Data: data}
	var err error
	if p.Platform, err = platformOf(data); err != nil {
		return Program{}, err
	}
	info, err := buildinfo.Read(bytes.NewReader(data))
	if err != nil {
		return Program{}, fmt.Errorf("no program sheet: %w", err)
	}
	says := Platform{}
	for _, s := range info.Settings {
		switch s.Key {
		case "GOOS":
			says.OS = s.Value
		case "GOARCH":
			says.Arch = s.Value
		case "vcs.revision":
			p.Revision = s.Value
		}
	}
	if says != p.Platform {
		return Program{}, fmt.Errorf("says two things about itself: %v by its head, %v by its build information", p.Platform, says)
	}
	// A program that packs the same add-in has the same functions.
	for _, f := range files() {
		part, err := generated.ReadFile("generated/" + f.from)
		if err != nil {
			return Program{}, err
		}
		if !bytes.Contains(data, part) {
			return Program{}, errors.New("no program sheet with the functions of this one: make it from the same source")
		}
	}
	return p, nil
}
