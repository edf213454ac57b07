package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/addin"
	"github.com/coverwright/coverwright/examples/sheet/internal/notices"
)

// binaries are the files of -binary, each with what it is said to be for.
type binaries []struct {
	file  string
	claim addin.Platform // the zero value is none
}

// add reads FILE or PLATFORM=FILE.
func (b *binaries) add(text string) error {
	file, claim := text, addin.Platform{}
	if name, rest, ok := strings.Cut(text, "="); ok {
		var err error
		if claim, err = addin.ParsePlatform(name); err != nil {
			return err
		}
		file = rest
	}
	*b = append(*b, struct {
		file  string
		claim addin.Platform
	}{file, claim})
	return nil
}

func writeAddIn(_ context.Context, args []string, _ io.Reader, _, stderr io.Writer) error {
	fs := flag.NewFlagSet("addin", flag.ContinueOnError)
	out := fs.String("out", "", "add-in to write, `FILE.oxt`")
	var others binaries
	fs.Func("binary", "`[PLATFORM=]FILE`, this program as it is made for another platform; once for each. The head of the file says which one; with PLATFORM that must be the one: "+
		addin.PlatformNames(), others.add)
	if err := parse(fs, args); err != nil {
		return err
	}
	if !strings.HasSuffix(*out, ".oxt") {
		return usage("-out %q: a file that ends in .oxt is wanted", *out)
	}
	programs, err := readPrograms(others)
	if err != nil {
		return usageError{err}
	}
	data, err := addin.Pack(programs)
	if err != nil {
		return usageError{err}
	}
	if err := writeFile(*out, data); err != nil {
		return err
	}
	var names []string
	for _, p := range programs {
		names = append(names, p.Platform.String())
	}
	fmt.Fprintf(stderr, "%s: %.1f MB, for %s\n", *out, float64(len(data))/1e6, strings.Join(names, ", "))
	return nil
}

// readPrograms reads the running program and the others. One that is given for
// the platform of the running one takes its place.
func readPrograms(others binaries) ([]addin.Program, error) {
	var programs []addin.Program
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	running, err := addin.ReadProgram(self)
	if err != nil {
		return nil, err
	}
	own := true
	for _, o := range others {
		p, err := addin.ReadProgram(o.file)
		if err != nil {
			return nil, fmt.Errorf("-binary %w", err)
		}
		if o.claim != (addin.Platform{}) && o.claim != p.Platform {
			return nil, fmt.Errorf("-binary %v=%s: it is made for %v", o.claim, o.file, p.Platform)
		}
		programs, own = append(programs, p), own && p.Platform != running.Platform
	}
	if own {
		programs = append([]addin.Program{running}, programs...)
	}
	return programs, nil
}

func printLicences(_ context.Context, args []string, _ io.Reader, stdout, _ io.Writer) error {
	if err := parse(flag.NewFlagSet("licences", flag.ContinueOnError), args); err != nil {
		return err
	}
	_, err := io.WriteString(stdout, notices.Own()+"\n"+notices.ThirdParties())
	return err
}
