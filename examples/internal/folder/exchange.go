package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"strings"
)

// exchange is the change of a folder from one set of files to another.
type exchange struct {
	root *os.Root
	// step is asked before each change on disk. Tests end the run there.
	step func(what string) error
}

// replace puts files in the place of old ones.
func (x exchange) replace(files []File, list, old manifest) error {
	err := x.stage(files, list)
	if err == nil {
		err = x.takeOut(old)
	}
	if err == nil {
		err = x.rename(newIn, inIn) // from here on the new files are those of the folder
	}
	if err != nil {
		return unfinished(err, x.back())
	}
	return unfinished(nil, x.forward())
}

// mend ends the exchange of a run that was killed.
func (x exchange) mend() error {
	info, err := x.root.Lstat(work)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return refusal("in the way and not written here", []string{work})
	}
	if _, err = x.root.Lstat(inIn); err == nil {
		return unfinished(nil, x.forward())
	}
	return unfinished(nil, x.back())
}

// unfinished adds to a fault that the exchange could not be ended either way.
func unfinished(err, end error) error {
	if end != nil {
		end = fmt.Errorf("the exchange of the files is not finished, %s has the rest; the next run finishes it: %w", work, end)
	}
	return errors.Join(err, end)
}

// stage writes the new files aside. Each has the mode of the one it replaces.
func (x exchange) stage(files []File, list manifest) error {
	text, err := list.bytes()
	if err != nil {
		return err
	}
	for _, f := range append(slices.Clone(files), File{Manifest, text}) {
		if err := x.put(path.Join(newIn, f.Name), f); err != nil {
			return err
		}
	}
	return x.sync(newIn, list)
}

// put writes one new file.
func (x exchange) put(name string, f File) error {
	if err := x.folder(path.Dir(name)); err != nil {
		return err
	}
	if err := x.step("write " + name); err != nil {
		return err
	}
	file, err := x.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = file.Write(f.Data)
	if was, none := x.root.Lstat(f.Name); err == nil && none == nil {
		err = file.Chmod(was.Mode().Perm())
	}
	return errors.Join(err, file.Sync(), file.Close())
}

// takeOut moves the old files aside, those that are still there. They are looked at
// once more there, where nobody changes them.
func (x exchange) takeOut(old manifest) error {
	if old.Schema == "" {
		return nil
	}
	for _, e := range old.Files {
		aside := path.Join(oldIn, e.Name)
		if err := x.shift(e.Name, aside); errors.Is(err, fs.ErrNotExist) {
			continue
		} else if err != nil {
			return err
		}
		if same, err := x.unchanged(oldIn, e); err != nil {
			return err
		} else if !same {
			return refusal("changed since it was written", []string{e.Name})
		}
	}
	if err := x.shift(Manifest, path.Join(oldIn, Manifest)); err != nil {
		return err
	}
	return errors.Join(x.sync(oldIn, old), x.sync(".", old))
}

// forward moves in the new files that are not there yet, and clears up.
func (x exchange) forward() error {
	if err := x.syncFolder(work); err != nil {
		return err
	}
	if err := x.moveAll(inIn); err != nil {
		return err
	}
	// Folders that the old files leave empty go with them, inner ones first.
	_, emptied, err := x.under(oldIn)
	if err != nil {
		return err
	}
	for _, d := range slices.Backward(emptied) {
		if left, err := fs.ReadDir(x.root.FS(), d); err != nil || len(left) > 0 {
			continue // somebody's files, or new ones
		}
		if err := x.step("remove " + d); err != nil {
			return err
		}
		if err := x.root.Remove(d); err != nil {
			return err
		}
	}
	// Old files go before the folder of the new ones, without which they would be moved back.
	if err := x.removeAll(oldIn); err != nil {
		return err
	}
	if err := x.syncFolder(work); err != nil {
		return err
	}
	return x.clear()
}

// back moves the old files back that are not there any more, and clears up.
func (x exchange) back() error {
	if err := x.moveAll(oldIn); err != nil {
		return err
	}
	return x.clear()
}

func (x exchange) clear() error {
	if err := x.removeAll(work); err != nil {
		return err
	}
	return x.syncFolder(".")
}

// moveAll moves the files under a folder to their places, the manifest last.
func (x exchange) moveAll(from string) error {
	names, _, err := x.under(from)
	if err != nil {
		return err
	}
	var moved manifest
	for _, name := range names {
		if _, err := x.root.Lstat(name); !errors.Is(err, fs.ErrNotExist) {
			return errors.Join(err, fmt.Errorf("%s has come up where %s/%s is to go", name, from, name))
		}
		if err := x.shift(path.Join(from, name), name); err != nil {
			return err
		}
		moved.Files = append(moved.Files, entry{Name: name})
	}
	return x.sync(".", moved)
}

// under lists files and folders under a folder, by their paths from it.
func (x exchange) under(from string) (files, folders []string, err error) {
	err = fs.WalkDir(x.root.FS(), from, func(name string, e fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) && name == from {
			return nil
		}
		if err != nil || name == from {
			return err
		}
		name = strings.TrimPrefix(name, from+"/")
		switch {
		case e.IsDir():
			folders = append(folders, name)
		case name != Manifest:
			files = append(files, name)
		}
		return nil
	})
	if _, none := x.root.Lstat(path.Join(from, Manifest)); none == nil {
		files = append(files, Manifest)
	}
	return files, folders, err
}

// unchanged tells whether a file is as it was written; one that is gone is.
func (x exchange) unchanged(in string, e entry) (bool, error) {
	name := path.Join(in, e.Name)
	info, err := x.root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if err != nil || !info.Mode().IsRegular() || info.Size() != e.Size {
		return false, err
	}
	f, err := x.root.Open(name)
	if err != nil {
		return false, err
	}
	sum := sha256.New()
	_, err = io.Copy(sum, f)
	return hex.EncodeToString(sum.Sum(nil)) == e.SHA256, errors.Join(err, f.Close())
}

// shift moves a file, and makes the folder it goes to.
func (x exchange) shift(from, to string) error {
	if err := x.folder(path.Dir(to)); err != nil {
		return err
	}
	return x.rename(from, to)
}

func (x exchange) rename(from, to string) error {
	if err := x.step("move " + from + " to " + to); err != nil {
		return err
	}
	return x.root.Rename(from, to)
}

func (x exchange) folder(name string) error {
	if _, err := x.root.Lstat(name); err == nil {
		return nil
	}
	if err := x.step("make " + name); err != nil {
		return err
	}
	return x.root.MkdirAll(name, 0o755)
}

func (x exchange) removeAll(name string) error {
	if err := x.step("remove " + name); err != nil {
		return err
	}
	return x.root.RemoveAll(name)
}

// sync makes sure that names in the folders of a list are on disk before the next
// names are touched.
func (x exchange) sync(in string, list manifest) error {
	err := x.syncFolder(in)
	for _, d := range list.folders() {
		err = errors.Join(err, x.syncFolder(path.Join(in, d)))
	}
	return err
}

func (x exchange) syncFolder(name string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced there
	}
	f, err := x.root.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, errors.ErrUnsupported) || errors.Is(err, fs.ErrInvalid) {
		err = nil // some file systems do not sync folders
	}
	return errors.Join(err, f.Close())
}
