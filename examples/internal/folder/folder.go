// Package folder writes a set of files into a folder, and later exchanges them for
// another set. It takes away nothing but what it wrote itself and nobody has changed
// since, which a manifest in the folder tells. A foreign file stays where it is; one
// that stands where a new file is to go is named and nothing is touched. The folder is
// never moved, so that it and the folders in it keep their modes; a file keeps the mode
// of the one that it replaces.
//
// The new files are written into a folder of their own inside. Then the old ones move
// out of the way, all of them, before the first new one moves in: at no time do old and
// new files lie beside each other. A run that is killed before that leaves the old
// files to be moved back, one that is killed later the new ones to be moved in; the
// next run does that first, whatever else it is asked for.
package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
)

// File is a file to write; Name is its slash-separated path in the folder.
type File struct {
	Name string
	Data []byte
}

// ErrExists says that there is something in the folder already.
var ErrExists = errors.New("the folder exists already; -force replaces what was written into it")

// ErrBusy says that another run is at it.
var ErrBusy = errors.New("another run is writing into the folder")

// Names that this package keeps for itself, beside Manifest.
const (
	lockFile = "written.lock"
	// work holds the files of an exchange: new ones while they are written, in once
	// they are whole and the old ones are out of the way, and old.
	work  = "written.unfinished"
	newIn = work + "/new"
	inIn  = work + "/in"
	oldIn = work + "/old"
)

// Ready tells why Write would refuse a folder whatever the files are, so that it can be
// said before they are made. It mends what a killed run left.
func Ready(dir, kind string, force bool) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return within(dir, always, func(x exchange) error {
		_, err := x.written(kind, force)
		return err
	})
}

// Write writes files of a kind into a folder, which it makes when there is none, and
// takes away those that it wrote before. Into a folder with anything in it, it writes
// only with force, and never into one with files of another kind.
func Write(dir, kind string, files []File, force bool) error {
	return write(dir, kind, files, force, always)
}

// always lets every step be taken.
func always(string) error { return nil }

func write(dir, kind string, files []File, force bool, step func(what string) error) error {
	list, err := listOf(kind, files)
	if err != nil {
		return err
	}
	err = os.Mkdir(dir, 0o755) //nolint:gosec // a folder to be read by others
	made := err == nil
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	err = within(dir, step, func(x exchange) error {
		old, err := x.written(kind, force)
		if err != nil {
			return err
		}
		if err := x.free(old, list); err != nil {
			return err
		}
		return x.replace(files, list, old)
	})
	if err != nil && made && !errors.Is(err, ErrBusy) {
		return errors.Join(err, os.Remove(dir))
	}
	return err
}

// within opens and locks a folder, mends it and does something in it.
func within(dir string, step func(string) error, do func(exchange) error) (err error) {
	defer func() {
		if err != nil {
			err = &fs.PathError{Op: "write", Path: dir, Err: err}
		}
	}()
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	release, err := claim(root)
	if err != nil {
		return err
	}
	x := exchange{root: root, step: step}
	err = x.mend()
	if err == nil {
		err = do(x)
	}
	return errors.Join(err, release())
}

// written gives what the manifest says was written, or why it cannot be replaced: it
// must not without force, is of another kind, or has been changed.
func (x exchange) written(kind string, force bool) (manifest, error) {
	there, err := fs.ReadDir(x.root.FS(), ".")
	if err != nil {
		return manifest{}, err
	}
	there = slices.DeleteFunc(there, func(e fs.DirEntry) bool { return e.Name() == lockFile })
	if len(there) > 0 && !force {
		return manifest{}, ErrExists
	}
	text, err := x.root.ReadFile(Manifest)
	if errors.Is(err, fs.ErrNotExist) {
		return manifest{}, nil
	}
	if err != nil {
		return manifest{}, err
	}
	old, err := parse(text)
	if err != nil {
		return manifest{}, err
	}
	if old.Kind != kind {
		return manifest{}, fmt.Errorf("it holds files of kind %q, not %q; nothing has been touched, choose another folder", old.Kind, kind)
	}
	var changed []string
	for _, e := range old.Files {
		same, err := x.unchanged(".", e)
		if err != nil {
			return manifest{}, err
		}
		if !same {
			changed = append(changed, e.Name)
		}
	}
	if changed != nil {
		return manifest{}, refusal("changed since it was written", changed)
	}
	return old, nil
}

// free tells whether every new file finds its place empty, or taken by one that was
// written before.
func (x exchange) free(old, list manifest) error {
	var taken []string
	stands := func(name string, folder bool) error {
		info, err := x.root.Lstat(name)
		switch {
		case old.has(name), errors.Is(err, fs.ErrNotExist):
			return nil
		case err != nil:
			return err
		case !folder || !info.IsDir():
			taken = append(taken, name)
		}
		return nil
	}
	for _, d := range list.folders() {
		if err := stands(d, true); err != nil {
			return err
		}
	}
	if len(taken) > 0 {
		return refusal("in the way and not written here", taken)
	}
	for _, e := range list.Files {
		if err := stands(e.Name, false); err != nil {
			return err
		}
	}
	if len(taken) > 0 {
		return refusal("in the way and not written here", taken)
	}
	return nil
}

func refusal(why string, names []string) error {
	return errors.New(why + ": " + strings.Join(names, ", ") + "; nothing has been touched, move it away or choose another folder")
}
