package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
)

// command is one of the things that the program does.
type command struct {
	name, does string
	needs      string // the flags that must be given
	more       string // what else there is to know, in lines
	example    string
	run        func(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) error
}

// commands lists them in the order of the help.
func commands() []command {
	return []command{
		{
			name: "quote", does: "writes a quoting workbook of a job", run: writeQuote, needs: "-out FILE.xlsx",
			more: `The first sheet is the paper for the customer, ready to print; behind it are
inputs, cut list, goods, thread, foam, labour and workings, for the shop. With
-alone the file has that paper only. Without -job it is that of the demo job,
which is found when the program is run inside the repository.
`,
			example: "sheet quote -job job.json -shop shop.json -out quote.xlsx",
		},
		{
			name: "new", does: "writes a workbook in which a job can be begun", run: writeNew, needs: "-out FILE.xlsx",
			more: `Its sheets have tables for all that a job says: pieces of furniture, panels by
their sizes, cushions, seams, covers, foam, work, rates and terms. Fill in what
there is, then bring the file up to date with sheet update.
`,
			example: `sheet new -from "wing chair" -shop shop.json -out chairs.xlsx`,
		},
		{
			name: "update", does: "works a workbook out again, in place", run: updateFile, needs: "FILE.xlsx",
			more: `The job is read from the tables of the workbook, of sheet new or sheet quote,
and all other sheets are written anew, in the formats that you gave them. What
else you have in the file stays. Where the job is wrong, the cells that are to
be mended get a note each, and nothing else is changed.
`,
			example: "sheet update chairs.xlsx",
		},
		{
			name: "fill", does: "fills in a shop's own workbook", run: fillIn, needs: "-in FILE.xlsx -job FILE.json -out FILE.xlsx",
			more: `Cells of the workbook with names such as shop_labour_rate are read, cells with
names such as fill_total are written; -names lists them all. Nothing else in it
is touched, but stored results of formulas are dropped, to be worked out anew.
`,
			example: "sheet fill -in ours.xlsx -job job.json -out filled.xlsx",
		},
		{
			name: "batch", does: "works one function out for every row of a CSV file", run: runBatch, needs: "-fn NAME",
			more: `The header of the file names the arguments of the function. The result has the
columns of the file and two more: the result and the error of each row.
`,
			example: "sheet batch -fn BOARDFEET -in sizes.csv -out result.csv",
		},
		{
			name: "addin", does: "packs the add-in with live functions for LibreOffice Calc", run: writeAddIn, needs: "-out FILE.oxt",
			more: `The add-in holds this program, which answers behind the sheet; nothing else is
needed to pack it. It works on the system and processor that this program is
made for; for others too, give the program as it is made for each with -binary.
LibreOffice installs the add-in when it is opened.
`,
			example: "sheet addin -out shop.oxt -binary sheet.exe -binary darwin/arm64=sheet-mac",
		},
		{
			name: "serve", does: "answers one JSON request a line on standard input", run: serveLines,
			more: `Each request names a function and its arguments; each is answered by one line
on standard output, in order, with a value or an error.
`,
			example: `echo '{"id":1,"fn":"BOARDFEET","args":[24,24,4]}' | sheet serve`,
		},
		{
			name: "functions", does: "prints what each function does, in Markdown", run: printFunctions,
			more:    "With the units of its arguments, an example and its errors.\n",
			example: "sheet functions > functions.md",
		},
		{
			name: "licences", does: "prints the terms of the program and of all that is in it", run: printLicences,
			more:    "The add-in holds the same texts.\n",
			example: "sheet licences > licences.txt",
		},
	}
}

// commandNames lists them for a sentence.
func commandNames() string {
	var names []string
	for _, c := range commands() {
		names = append(names, c.name)
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// find gives the command of a name.
func find(name string) (command, error) {
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == name })
	if i < 0 {
		return command{}, usage("no command %q: %s is wanted; sheet -h tells what they do", name, commandNames())
	}
	return all[i], nil
}

// overview is the help of the whole program.
func overview() string {
	var b strings.Builder
	b.WriteString("sheet brings the calculators of an upholstery shop into spreadsheets.\n\n\tsheet COMMAND [flags]\n\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-11s %s\n", c.name, c.does)
	}
	b.WriteString(`
sheet COMMAND -h explains a command and its flags. For example

	` + commands()[0].example + `

Files are written whole or not at all. The exit status is 0 when all went well,
1 when something could not be done or a row of a batch has an error, 2 when the
command line or an input is wrong.
`)
	return b.String()
}

// help is that of one command with its flags.
func (c command) help(fs *flag.FlagSet) string {
	var b strings.Builder
	line, flags := strings.TrimSpace("sheet "+c.name+" "+c.needs), 0
	fs.VisitAll(func(*flag.Flag) { flags++ })
	if flags > 0 {
		line += " [flags]"
	}
	fmt.Fprintf(&b, "sheet %s %s.\n\n\t%s\n\n%s\nFor example\n\n\t%s\n", c.name, c.does, line, c.more, c.example)
	if flags > 0 {
		b.WriteString("\nFlags:\n")
		fs.VisitAll(func(f *flag.Flag) { b.WriteString(flagHelp(f)) })
	}
	return b.String()
}

// flagHelp is that of one flag, in lines that fit a terminal.
func flagHelp(f *flag.Flag) string {
	const indent, width = "        ", 80
	takes, text := flag.UnquoteUsage(f)
	if f.DefValue != "" && f.DefValue != "0" && f.DefValue != "false" {
		text += "; " + f.DefValue + " when not given"
	}
	out := strings.TrimRight("  -"+f.Name+" "+takes, " ") + "\n"
	line := indent
	for _, word := range strings.Fields(text) {
		if len(line)+len(word) > width && line != indent {
			out += strings.TrimRight(line, " ") + "\n"
			line = indent
		}
		line += word + " "
	}
	return out + strings.TrimRight(line, " ") + "\n"
}

// helpWanted is no fault: the help of a command was asked for.
type helpWanted struct{ flags *flag.FlagSet }

func (helpWanted) Error() string { return "help is wanted" }

// parse reads the flags of a command.
func parse(fs *flag.FlagSet, args []string) error {
	fs.SetOutput(io.Discard)
	fs.Usage = func() {}
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return helpWanted{fs}
		}
		return usage("%w; sheet %s -h explains the flags", err, fs.Name())
	}
	if fs.NArg() > 0 {
		return usage("%q is no flag; sheet %s -h explains the flags", fs.Arg(0), fs.Name())
	}
	return nil
}
