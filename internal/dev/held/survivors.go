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
// reason.
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

// gone refuses a list that names changes which there are not.
func gone(list map[string]string, changes []change) error {
	rest := maps.Clone(list)
	for _, c := range changes {
		delete(rest, c.key())
	}
	var errs []error
	for _, key := range slices.Sorted(maps.Keys(rest)) {
		errs = append(errs, fmt.Errorf("survivors.csv: there is no %s", key))
	}
	return errors.Join(errs...)
}
