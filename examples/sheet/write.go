package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

func writeFile(name string, data []byte) error {
	return replace(name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// replace writes a file beside the wanted one and puts it in its place when it
// is whole. A file that was there keeps its mode, and a link still leads to it.
func replace(name string, write func(io.Writer) error) (err error) {
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target
	}
	before, err := os.Stat(name)
	switch {
	case err == nil && !before.Mode().IsRegular():
		return usage("%s: no plain file, which alone can be replaced", name)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return err
	}
	f, err := besides(name)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if before != nil {
		err = f.Chmod(before.Mode().Perm())
	}
	if err := errors.Join(err, write(f), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// besides opens a new file in the folder of another. Its mode is that of any
// new file of the user.
func besides(name string) (*os.File, error) {
	for {
		temporary := fmt.Sprintf(".sheet-%08x", rand.Uint32())                                                        //nolint:gosec // a free name is wanted, not a secret
		f, err := os.OpenFile(filepath.Join(filepath.Dir(name), temporary), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666) //nolint:gosec // the user's mask takes away what it takes from other files
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
}
