// Command workorder reads a job file and prints a work order: the cut list,
// what to buy, thread and needle, foam, the quote and the cautions. Without
// -job it prints the order of a demo job, the Larkfield Reading Room.
//
// Usage:
//
//	workorder [-job FILE.json] [-shop FILE.json] [-prices FILE.csv] [-units inch|metric] [-format text|json] [-explain]
//	          [-effort N] [-seed N] [-progress]
//	workorder -format html -out DIR [-force] [-copy customer|bench|supplies|office|all] [-cloth ID=FILE]...
//	          [-as "estimate|quotation|work order|invoice"] [-against ORDER.json] ...
//	workorder -format patterns -out DIR [-force] [-paper a4|letter] [-roll WIDTH] [-all] [-whole] ...
//	workorder -format labels -out DIR [-force] [-paper a4|letter] [-label WIDTHxHEIGHT] [-columns N] [-rows N]
//	          [-margin LEFTxTOP] [-gap ACROSSxDOWN] [-first N] [-lines] ...
//	workorder -against ORDER.json [-format text|json] ...
//	workorder -format measure [-from KIND] [-job FILE.json] [-shop FILE.json] [-units inch|metric]
//	workorder -format yardage [-job FILE.json] [-shop FILE.json] [-units inch|metric] [-effort N]
//	workorder -format marks -out DIR [-force] [-paper a4|letter]
//
// -shop FILE.json is what the jobs of a shop have in common, read beneath the job: its
// goods, prices, rates and letterhead. -prices FILE.csv is a price list over that.
//
// -format html writes copies of the order, each for one reader, to look at and to print:
// DIR/customer.html to hand over, without costs, hours and markup, DIR/bench.html
// without prices, DIR/supplies.html with what to order, DIR/office.html with what was worked out how, and DIR/index.html that
// leads to them. -copy writes one of them alone. -as says which paper the customer's
// copy is: an estimate where the job has a class or pieces that nobody has measured,
// else a quotation; -against has it say what an earlier paper said.
//
// -format patterns writes the pieces at full size: DIR/patterns.pdf over
// pages of a paper, to be taped together, and each piece whole as SVG in true
// millimetres and as DXF R12. In the PDF straight pieces are only listed; -all
// prints them too. Pieces that are alike on both sides are halves, to be laid on a
// fold, where that saves paper, and sheets that would hold straight lines or nothing
// are left out, with the lengths to rule; -whole prints every piece whole on every
// sheet. -roll WIDTH lays them on paper from a roll, for a plotter: pages of that
// width, as long as they need to be.
//
// With -force, files that were written into the folder before are replaced, unless somebody has changed one; DIR/written.json lists them.
//
// -format labels writes DIR/labels.html, to print: a label for each piece that is cut, in
// the order of cutting, with its number, hand, name, goods, top and seams.
//
// -against ORDER.json prints, in place of the order, what differs from an order that
// -format json printed before: of each line quantity, price and amount as they were and
// are, and the totals.
//
// -format measure -from KIND prints a card to measure a kind of furniture by, as a
// page to print or to fill in on a phone: where the tape goes, what to photograph and
// look at, and a drawing of the panels. Without -from it lists the kinds.
//
// -format yardage prints the lengths to buy before the cloth is chosen: of goods 54 in
// wide and of another width, plain and with repeats of 14, 20 and 27 in.
//
// -cloth ID=FILE draws the page with a photo of the cloth of those goods where its
// pattern runs over the furniture, and as a swatch for the customer: a PNG or JPEG, of
// patterned goods of one repeat, of all columns of a drop, with a motif in each corner.
//
// -format marks writes DIR/marks.pdf: pages of marks to lay beside a panel and
// photograph with it, for the program examples/trace.
//
// With -explain the text says how every figure of the quote came about, and text
// and page how the foam was chosen. -effort is the work spent on all cutting layouts together: 1 is about a second of two
// cores; what it costs to match patterned goods takes as much again. -progress tells on standard error how far they have come. The interrupt
// key (ctrl-C) ends them: the order then has the best layouts so far and says
// so; a second one ends the program.
//
// A job file with faults is refused with every fault named, one a line, and
// exit status 2; nothing is printed on standard output then.
package main

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/examples/internal/jobfile"
	"github.com/coverwright/coverwright/unit"
)

//go:embed larkfield.json
var demo []byte

//go:embed larkfield-shop.json
var demoShop []byte

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	// The first interrupt ends the layouts, the next one the program.
	context.AfterFunc(ctx, stop)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// Exit statuses.
const (
	exitOK    = 0
	exitWrite = 1 // the order could not be written
	exitInput = 2 // the command line or the job file is wrong
)

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("workorder", flag.ContinueOnError)
	fs.SetOutput(stderr)
	var files jobfile.Files
	files.Flags(fs)
	units := fs.String("units", "inch", "inch or metric")
	name := fs.String("format", "text", formatNames())
	out := fs.String("out", "", "folder to write into, for formats that make files")
	force := fs.Bool("force", false, "replace what was written into the folder of -out before")
	paperName := fs.String("paper", "a4", "of patterns, labels and marks: a4 or letter")
	full := patternFlags{}
	full.flags(fs)
	effort := fs.Float64("effort", 0, "work spent on all layouts together: 1, the default, is about a second of two cores")
	seed := fs.Uint64("seed", 0, "chooses the random numbers of the layouts")
	showProgress := fs.Bool("progress", false, "tell on standard error how far the layouts have come")
	from := fs.String("from", "", "measure: the kind of furniture; lists them when not given")
	saved := fs.String("against", "", "an order saved with -format json: text and json print what differs from it in place of the order, html has it in the customer's copy")
	cloths := photos{}
	fs.Func("cloth", "html: `ID=FILE`, a PNG or JPEG photo of the goods with that id, of patterned ones one repeat with a motif in each corner; once for each goods", cloths.add)
	sticky := labelFlags{}
	sticky.flags(fs)
	copyName := fs.String("copy", allCopies, "html: the copy to write, "+copyNames())
	asName := fs.String("as", "", "html: the paper that the customer's copy is: estimate, quotation, work order or invoice; what is known says which when not given")
	explain := fs.Bool("explain", false, "say how the figures of the quote and the choice of foam came about")
	if err := fs.Parse(args); err != nil {
		return exitInput
	}
	if fs.NArg() > 0 {
		return refuse(stderr, fmt.Errorf("unknown argument %q; give the file with -job", fs.Arg(0)))
	}
	if *units != "inch" && *units != "metric" {
		return refuse(stderr, fmt.Errorf("-units %q: want inch or metric", *units))
	}
	on, err := paperNamed(*paperName)
	if err != nil {
		return refuse(stderr, err)
	}
	all := formats()
	i := slices.IndexFunc(all, func(f format) bool { return f.name == *name })
	switch {
	case i < 0:
		return refuse(stderr, fmt.Errorf("-format %q: want %s", *name, formatNames()))
	case all[i].files && *out == "":
		return refuse(stderr, fmt.Errorf("-format %s makes files; say where with -out DIR", *name))
	case !all[i].files && (*out != "" || *force):
		return refuse(stderr, fmt.Errorf("-format %s prints to standard output; leave out -out and -force", *name))
	}
	var was job.WorkOrder
	if *saved != "" {
		if name := all[i].name; name != "text" && name != "json" && name != "html" {
			return refuse(stderr, errors.New("-against is for -format text, json and html"))
		}
		if was, err = savedOrder(*saved); err != nil {
			return refuse(stderr, err)
		}
	}
	if (len(cloths) > 0 || *copyName != allCopies || *asName != "") && all[i].name != "html" {
		return refuse(stderr, errors.New("-cloth, -copy and -as are for -format html"))
	}
	var as paper.Kind
	if err := as.UnmarshalText([]byte(*asName)); err != nil {
		return refuse(stderr, fmt.Errorf("-as: %w", err))
	}
	papers, err := copyNamed(*copyName)
	if err != nil {
		return refuse(stderr, err)
	}
	patterns, err := full.set(on)
	switch {
	case all[i].name != "patterns" && full != (patternFlags{}):
		return refuse(stderr, errors.New("-all, -whole and -roll are for -format patterns"))
	case err != nil:
		return refuse(stderr, err)
	}
	grid, err := sticky.grid(on)
	switch {
	case all[i].name != "labels" && sticky != noLabelFlags:
		return refuse(stderr, errors.New("-label, -margin, -gap, -columns, -rows, -first and -lines are for -format labels"))
	case err != nil:
		return refuse(stderr, err)
	}
	if all[i].jobless && all[i].render != nil && files != (jobfile.Files{}) {
		return refuse(stderr, fmt.Errorf("-format %s needs no -job, -shop or -prices", *name))
	}
	if all[i].render == nil && !all[i].lengths {
		return measure(ctx, *from, files, *units == "metric", stdout, stderr)
	}
	if *from != "" {
		return refuse(stderr, errors.New("-from is for -format measure; in a job file a piece says from"))
	}
	if all[i].files { // said before the work is done
		if err := folder.Ready(*out, all[i].name, *force); err != nil {
			fmt.Fprintln(stderr, "workorder:", err)
			return exitWrite
		}
	}
	o := job.Options{Effort: unit.Ratio(*effort), Seed: *seed}
	told := newProgress(stderr)
	if *showProgress {
		o.Progress = told.tell
	}
	if all[i].lengths {
		defer told.end()
		return yardage(ctx, files, o, *units == "metric", stdout, stderr)
	}
	var order job.WorkOrder
	if !all[i].jobless {
		order, err = build(ctx, files, o)
		told.end()
		if err != nil {
			return refuse(stderr, err)
		}
	}
	if err := cloths.check(order); err != nil {
		return refuse(stderr, err)
	}
	set := settings{stdout: stdout, metric: *units == "metric", explain: *explain, out: *out, force: *force, paper: on, patterns: patterns, cloths: cloths, copies: papers, as: as, labels: grid}
	if *saved != "" {
		set.was = &was
	}
	if slices.ContainsFunc(papers, func(c orderCopy) bool { return c.name == "customer" }) && all[i].name == "html" {
		if _, err := paper.Of(order, as, set.was); err != nil {
			return refuse(stderr, err)
		}
	}
	if *saved != "" && all[i].name != "html" {
		err = against(was, order, all[i].name, set)
		if errors.Is(err, job.ErrMisplaced) || errors.Is(err, cost.ErrCurrency) {
			return refuse(stderr, err)
		}
	} else {
		err = all[i].render(order, set)
	}
	if err != nil {
		fmt.Fprintln(stderr, "workorder:", err)
		return exitWrite
	}
	return exitOK
}

// measure prints the card of a kind, or lists the kinds.
func measure(ctx context.Context, from string, files jobfile.Files, metric bool, stdout, stderr io.Writer) int {
	if from == "" && files != (jobfile.Files{}) {
		return refuse(stderr, errors.New("-format measure puts the head of -job or -shop on a card; say of what kind it is with -from KIND"))
	}
	var b bytes.Buffer
	err := printKinds(&b)
	if from != "" {
		b.Reset()
		head, err := headOf(files)
		if err == nil {
			err = printCard(ctx, &b, from, head, metric)
		}
		if err != nil {
			return refuse(stderr, err)
		}
	}
	if err == nil {
		_, err = stdout.Write(b.Bytes())
	}
	if err != nil {
		fmt.Fprintln(stderr, "workorder:", err)
		return exitWrite
	}
	return exitOK
}

func refuse(stderr io.Writer, err error) int {
	fmt.Fprintln(stderr, "workorder:", err)
	return exitInput
}

func build(ctx context.Context, files jobfile.Files, o job.Options) (job.WorkOrder, error) {
	shop, err := shopOf(files)
	if err != nil {
		return job.WorkOrder{}, err
	}
	if files.Job == "" {
		return shop.Read(ctx, bytes.NewReader(demo), o)
	}
	var order job.WorkOrder
	err = files.Open(func(r io.Reader) error {
		var err error
		order, err = shop.Read(ctx, r, o)
		return err
	})
	return order, err
}

// shopOf gives the shop that a job is read on top of: that of the demo for the demo.
func shopOf(files jobfile.Files) (job.Shop, error) {
	shop, err := files.ReadShop()
	if err != nil || files.Job != "" || files.Shop != "" {
		return shop, err
	}
	own, err := job.ReadShop(bytes.NewReader(demoShop))
	if err != nil {
		return own, err
	}
	return own.WithPrices(shop.Prices)
}

// headOf gives what stands above a card: of the job and its shop, or of the shop
// alone.
func headOf(files jobfile.Files) (job.WorkOrder, error) {
	shop, err := files.ReadShop()
	head := job.WorkOrder{Shop: shop.Letterhead, Facing: shop.Defaults != nil && shop.Defaults.Facing}
	if err != nil {
		return head, err
	}
	err = files.Open(func(r io.Reader) error {
		s, err := shop.ReadSpec(r)
		head.Number, head.Customer, head.Due, head.Shop = s.Number, s.Customer, s.Due, s.Shop
		head.Facing = s.Defaults != nil && s.Defaults.Facing
		return err
	})
	return head, err
}
