//go:build !unix || solaris || aix

package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// claim locks the folder. The standard library has no lock here that ends with the
// run, so that of a run that was killed must be taken away by hand.
func claim(root *os.Root) (release func() error, err error) {
	f, err := root.OpenFile(lockFile, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil, fmt.Errorf("%w, or was killed: delete %s when no run is on", ErrBusy, lockFile)
	}
	if err != nil {
		return nil, err
	}
	return func() error { return errors.Join(f.Close(), root.Remove(lockFile)) }, nil
}
