// Package office runs LibreOffice for the tests that compare with it.
package office

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// Office is an installation with a fresh profile of its own: two that share
// one would wait for each other.
type Office struct {
	soffice string
	program string // the folder of its programs
	profile string
}

// New finds LibreOffice and gives it a profile in a folder.
func New(profile string) (*Office, error) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		return nil, fmt.Errorf("LibreOffice is wanted for this test: %w", err)
	}
	program, err := filepath.EvalSymlinks(soffice)
	if err != nil {
		return nil, err
	}
	return &Office{soffice: soffice, program: filepath.Dir(program), profile: "-env:UserInstallation=file://" + profile}, nil
}

func (o *Office) run(ctx context.Context, limit time.Duration, name string, args ...string) error {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...) //nolint:gosec // the program was looked up, the arguments are the test's
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s: %w\n%s", filepath.Base(name), err, out)
	}
	return nil
}

// CompileTypes compiles an interface description to a type library.
func (o *Office) CompileTypes(ctx context.Context, idl, rdb string) error {
	return o.run(ctx, time.Minute, filepath.Join(o.program, "..", "sdk", "bin", "unoidl-write"),
		filepath.Join(o.program, "types.rdb"), filepath.Join(o.program, "types", "offapi.rdb"), idl, rdb)
}

// Install adds an extension to the profile.
func (o *Office) Install(ctx context.Context, oxt string) error {
	args := []string{"add", "-f", o.profile, oxt}
	if os.Geteuid() == 0 {
		args = append([]string{"add", "--shared"}, args[1:]...)
	}
	return o.run(ctx, 2*time.Minute, filepath.Join(o.program, "unopkg"), args...)
}

// Uninstall takes an extension out of the installation again, by its
// identifier; one added by root would stay.
func (o *Office) Uninstall(ctx context.Context, identifier string) error {
	args := []string{"remove", o.profile, identifier}
	if os.Geteuid() == 0 {
		args = []string{"remove", "--shared", o.profile, identifier}
	}
	return o.run(ctx, 2*time.Minute, filepath.Join(o.program, "unopkg"), args...)
}

// Convert writes each file in another format to a folder. The program ends
// with success whatever happens, so old files are removed first and the new
// ones looked for.
func (o *Office) Convert(ctx context.Context, format, dir string, files ...string) error {
	extension, _, _ := strings.Cut(format, ":")
	var outs []string
	for _, f := range files {
		base := filepath.Base(f)
		out := filepath.Join(dir, strings.TrimSuffix(base, filepath.Ext(base))+"."+extension)
		if err := os.Remove(out); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
		outs = append(outs, out)
	}
	args := append([]string{o.profile, "--headless", "--norestore", "--convert-to", format, "--outdir", dir}, files...)
	if err := o.run(ctx, 5*time.Minute, o.soffice, args...); err != nil {
		return err
	}
	for _, out := range outs {
		if info, err := os.Stat(out); err != nil || info.Size() == 0 {
			return fmt.Errorf("soffice wrote no %s", filepath.Base(out))
		}
	}
	return nil
}

// RecalculateAlways makes the office work out every formula of a workbook when
// it is opened, whatever values are stored beside it. It must be called before
// the profile is first used.
func RecalculateAlways(profile string) error {
	dir := filepath.Join(profile, "user")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "registrymodifications.xcu"), []byte(`<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`), 0o600)
}
