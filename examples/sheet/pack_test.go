package main

import (
	"archive/zip"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/examples/sheet/internal/addin"
)

// known tells whether the add-in can hold a program of the platform of the tests; else it
// refuses the program, and says why.
func known(t *testing.T, out, self string) bool {
	if strings.Contains(addin.PlatformNames(), runtime.GOOS+"/"+runtime.GOARCH) {
		return true
	}
	code, _, stderr := sheet(t, "", "addin", "-out", out)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, stderr, self+": for a processor that the add-in does not know")
	assert.NoFileExists(t, out)
	return false
}

// The add-in holds whichever program runs, here the one of the tests.
func TestTheRunningProgramIsPacked(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	want, err := os.Stat(self)
	require.NoError(t, err)
	out := filepath.Join(t.TempDir(), "shop.oxt")
	if !known(t, out, self) {
		return
	}
	for _, given := range [][]string{nil, {"-binary", self}, {"-binary", runtime.GOOS + "/" + runtime.GOARCH + "=" + self}} {
		code, _, stderr := sheet(t, "", append([]string{"addin", "-out", out}, given...)...)
		require.Equal(t, exitOK, code, stderr)
		assert.Contains(t, stderr, "for "+runtime.GOOS+"/"+runtime.GOARCH+"\n")
		z, err := zip.OpenReader(out)
		require.NoError(t, err)
		last := z.File[len(z.File)-1]
		assert.Contains(t, last.Name, "lib/sheet-"+runtime.GOOS+"-"+runtime.GOARCH)
		assert.Equal(t, uint64(want.Size()), last.UncompressedSize64)
		require.NoError(t, z.Close())
	}
}

func TestAProgramForAnotherPlatformThanSaidIsRefused(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	other := "windows/arm64"
	if runtime.GOOS+"/"+runtime.GOARCH == other {
		other = "linux/amd64"
	}
	out := filepath.Join(t.TempDir(), "shop.oxt")
	if !known(t, out, self) {
		return
	}
	code, _, stderr := sheet(t, "", "addin", "-out", out, "-binary", other+"="+self)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, stderr, other)
	assert.Contains(t, stderr, "made for "+runtime.GOOS+"/"+runtime.GOARCH)
	code, _, stderr = sheet(t, "", "addin", "-out", out, "-binary", self, "-binary", self)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, stderr, "two programs for")
	_, err = os.Stat(out)
	assert.ErrorIs(t, err, os.ErrNotExist)
}
