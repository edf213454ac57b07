package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// replace writes a file whole: beside its place first, then over it in one step. Where
// that fails what was there stays.
func replace(name string, write func(io.Writer) error) error {
	mode := fs.FileMode(0o644)
	if old, err := os.Stat(name); err == nil {
		mode = old.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return err
	}
	err = write(f)
	if err == nil {
		err = errors.Join(f.Chmod(mode), f.Sync())
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}
