package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
)

// survivors reads the list of changes that nothing need notice, each with its
// reason. Stars for number, literal and change stand for all figures of a
// declaration, which then are not changed at all.
func survivors(path string) (map[string]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // read only
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	list := map[string]string{}
	for i, l := range lines {
		key := strings.Join(l[:len(l)-1], ",")
		switch {
		case i == 0 && key != "file,declaration,n,literal,change":
			return nil, fmt.Errorf("%s: its head is %q", path, key)
		case i == 0:
			continue
		case strings.TrimSpace(l[len(l)-1]) == "":
			return nil, fmt.Errorf("%s:%d: no reason", path, i+1)
		case list[key] != "":
			return nil, fmt.Errorf("%s:%d: stands twice", path, i+1)
		}
		list[key] = l[len(l)-1]
	}
	return list, nil
}

// free tells whether the list frees the whole declaration of a figure.
func free(list map[string]string, c change) bool { return list[c.whole()] != "" }

// whole names all changes of a declaration.
func (c change) whole() string {
	if c.figure == nil {
		return ""
	}
	return c.figure.file + "," + c.figure.declaration + ",*,*,*"
}

// gone refuses a list that names changes which there are not.
func gone(list map[string]string, changes []change) error {
	rest := maps.Clone(list)
	for _, c := range changes {
		delete(rest, c.key())
		delete(rest, c.whole())
	}
	var errs []error
	for _, key := range slices.Sorted(maps.Keys(rest)) {
		errs = append(errs, fmt.Errorf("survivors.csv: there is no %s", key))
	}
	return errors.Join(errs...)
}
