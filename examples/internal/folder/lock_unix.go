//go:build unix && !solaris && !aix

package folder

import (
	"errors"
	"os"
	"syscall"
)

// claim locks the folder. The lock ends with the run, however that ends.
func claim(root *os.Root) (release func() error, err error) {
	f, err := root.OpenFile(lockFile, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		err = ErrBusy
	}
	if err == nil && !inPlace(root, f) {
		err = ErrBusy // a run that has just ended took the file away
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return func() error { return errors.Join(root.Remove(lockFile), f.Close()) }, nil
}

func inPlace(root *os.Root, f *os.File) bool {
	held, err1 := f.Stat()
	there, err2 := root.Lstat(lockFile)
	return err1 == nil && err2 == nil && os.SameFile(held, there)
}
