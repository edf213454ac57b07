package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// outFile is a file of an output folder; name is a slash-separated path of
// letters that this program chose.
type outFile struct {
	name string
	data []byte
}

// errExists says the output folder is there already.
var errExists = errors.New("the folder exists already; -force replaces it")

// writeFolder writes files into a new folder, all of them or none: they are
// written and synced into a folder beside it, which then takes its name. A
// folder that exists is replaced only with force, and only when it holds
// nothing but what this format writes, which mine tells by its path.
func writeFolder(dir string, files []outFile, force bool, mine func(name string) bool) (err error) {
	dir, err = filepath.Abs(dir)
	if err != nil {
		return err
	}
	exists, err := mayReplace(dir, force, mine)
	if err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	tmp, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-new-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(tmp))
		}
	}()
	if err := fill(tmp, files); err != nil {
		return err
	}
	if !exists {
		// Renaming a folder onto one that has come up meanwhile fails unless
		// that one is empty.
		if err := os.Rename(tmp, dir); err != nil {
			return err
		}
		return syncFolder(parent)
	}
	old, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-old-*")
	if err != nil {
		return err
	}
	kept := filepath.Join(old, "folder")
	if err := os.Rename(dir, kept); err != nil {
		return errors.Join(err, os.Remove(old))
	}
	if err := os.Rename(tmp, dir); err != nil {
		return errors.Join(err, os.Rename(kept, dir), os.Remove(old))
	}
	return errors.Join(syncFolder(parent), os.RemoveAll(old))
}

// mayReplace tells whether dir exists, or why it must be let alone.
func mayReplace(dir string, force bool, mine func(string) bool) (exists bool, err error) {
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, err
	case !info.IsDir():
		return true, &fs.PathError{Op: "replace", Path: dir, Err: errors.New("not a folder")}
	case !force:
		return true, &fs.PathError{Op: "write", Path: dir, Err: errExists}
	}
	return true, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if e.IsDir() {
			name += "/"
		}
		if !e.IsDir() && !e.Type().IsRegular() || !mine(name) {
			return &fs.PathError{Op: "replace", Path: dir, Err: fmt.Errorf("it holds %q, which this format does not write; choose another folder", name)}
		}
		return nil
	})
}

// fill writes the files and syncs them and their folders.
func fill(root string, files []outFile) error {
	if err := os.Chmod(root, 0o755); err != nil { //nolint:gosec // a folder to be read by others
		return err
	}
	folders := []string{root}
	for _, f := range files {
		path := filepath.Join(root, filepath.FromSlash(f.name))
		if !filepath.IsLocal(filepath.FromSlash(f.name)) {
			return &fs.PathError{Op: "write", Path: f.name, Err: fs.ErrInvalid}
		}
		if folder := filepath.Dir(path); !slices.Contains(folders, folder) {
			if err := os.MkdirAll(folder, 0o755); err != nil { //nolint:gosec // as above
				return err
			}
			folders = append(folders, folder)
		}
		if err := writeSynced(path, f.data); err != nil {
			return err
		}
	}
	slices.SortStableFunc(folders, func(a, b string) int {
		return strings.Count(b, string(filepath.Separator)) - strings.Count(a, string(filepath.Separator))
	})
	for _, f := range folders {
		if err := syncFolder(f); err != nil {
			return err
		}
	}
	return nil
}

func writeSynced(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644) //nolint:gosec // as above
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}

func syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, errors.ErrUnsupported) || errors.Is(err, fs.ErrInvalid) {
		err = nil // some file systems do not sync folders
	}
	return errors.Join(err, f.Close())
}
