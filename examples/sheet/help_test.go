package main

import (
	"bytes"
	"flag"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHelpNamesEveryCommand(t *testing.T) {
	for _, ask := range []string{"-h", "--help", "-help", "help"} {
		code, out, stderr := sheet(t, "", ask)
		assert.Equal(t, exitOK, code)
		assert.Empty(t, stderr)
		for _, c := range commands() {
			assert.Contains(t, out, "\n  "+c.name+" ", ask)
			assert.Contains(t, out, " "+c.does+"\n", ask)
		}
		for _, status := range []string{"0 when", "1 when", "2 when"} {
			assert.Contains(t, out, status)
		}
	}
}

// flagsOf gives the flags of a command.
func flagsOf(t *testing.T, c command) *flag.FlagSet {
	t.Helper()
	err := c.run(t.Context(), []string{"-h"}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{})
	var asked helpWanted
	require.ErrorAs(t, err, &asked, c.name)
	return asked.flags
}

func TestHelpOfEveryCommand(t *testing.T) {
	for _, c := range commands() {
		t.Run(c.name, func(t *testing.T) {
			fs := flagsOf(t, c)
			assert.Equal(t, c.name, fs.Name())
			code, out, stderr := sheet(t, "", c.name, "-h")
			assert.Equal(t, exitOK, code)
			assert.Empty(t, stderr)
			_, same, _ := sheet(t, "", "help", c.name)
			assert.Equal(t, out, same)
			assert.Contains(t, out, c.does+".\n")
			assert.Contains(t, out, "\n\t"+c.example+"\n")
			assert.Contains(t, c.example, "sheet "+c.name)
			fs.VisitAll(func(f *flag.Flag) {
				// What a flag takes is named, and the rest is more than its name.
				takes, text := flag.UnquoteUsage(f)
				assert.NotContains(t, []string{"string", "value", "float", "int", "uint"}, takes, f.Name)
				assert.Greater(t, len(strings.Fields(text)), 2, f.Name)
				assert.Regexp(t, `(?m)^  -`+f.Name+`\b`, out)
			})
			for _, m := range regexp.MustCompile(` -([a-z]+)`).FindAllStringSubmatch(c.needs+" "+c.example, -1) {
				assert.NotNil(t, fs.Lookup(m[1]), "-%s", m[1])
			}
			for line := range strings.Lines(out) {
				assert.LessOrEqual(t, len(line), 81, line)
			}
		})
	}
}

func TestErrorsNameWhatIsWanted(t *testing.T) {
	for _, c := range []struct {
		args []string
		want []string
	}{
		{nil, []string{"quote", "addin", "sheet -h"}},
		{[]string{"dance"}, []string{"dance", "quote", "serve", "sheet -h"}},
		{[]string{"help", "dance"}, []string{"dance", "quote"}},
		{[]string{"quote", "-x"}, []string{"-x", "sheet quote -h"}},
		{[]string{"quote", "job.json"}, []string{"job.json", "sheet quote -h"}},
		{[]string{"quote"}, []string{"-out", ".xlsx"}},
		{[]string{"addin"}, []string{"-out", ".oxt"}},
		{[]string{"fill"}, []string{"-in", "-job", "-out"}},
		{[]string{"batch"}, []string{"-fn", "sheet functions"}},
	} {
		code, out, stderr := sheet(t, "", c.args...)
		assert.Equal(t, exitInput, code, c.args)
		assert.Empty(t, out)
		for _, w := range c.want {
			assert.Contains(t, stderr, w, c.args)
		}
	}
}
