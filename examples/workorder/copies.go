package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/internal/folder"
	"github.com/coverwright/coverwright/unit/caution"
)

//go:embed copy.html.tmpl
var copyParts string

//go:embed index.html.tmpl
var indexPage string

//go:embed page.css
var pageStyle string

// orderCopy is an order for one reader. It is a file of its own that needs nothing else.
type orderCopy struct {
	name  string         // of -copy, and of the file
	title string         // above it
	whom  string         // who reads it, and what for
	page  string         // its template; the parts of copy.html.tmpl are at hand in it
	about caution.Reader // whose cautions it has; those of everybody when zero
	view  func(*sheet, copyHead, job.WorkOrder) (any, error)
}

// copies lists the copies, in the order in which the index has them. A new one is a line
// here, a template, and a file that makes its view.
func copies() []orderCopy {
	return []orderCopy{
		{"customer", "Customer copy", "what is done and what it comes to, to hand over: an estimate, a quotation, a work order to sign or an invoice", customerPage, caution.Customer, viewCustomer},
		{"bench", "Bench copy", "cutting, sewing and fitting, without prices", benchPage, caution.Bench, viewBench},
		{"supplies", "Supplies copy", "what to order, by supplier, without prices; ticks and measures for when it comes", suppliesPage, caution.Office, viewSupplies},
		{"office", "Office copy", "the shop's own: what was worked out how, costs, margins, open questions", officePage, 0, viewOffice},
	}
}

const allCopies = "all"

// copyNames writes what -copy knows.
func copyNames() string {
	var names []string
	for _, c := range copies() {
		names = append(names, c.name)
	}
	return strings.Join(names, ", ") + " or " + allCopies
}

// copyNamed finds a copy, or all of them.
func copyNamed(name string) ([]orderCopy, error) {
	all := copies()
	if name == allCopies {
		return all, nil
	}
	i := slices.IndexFunc(all, func(c orderCopy) bool { return c.name == name })
	if i < 0 {
		return nil, fmt.Errorf("-copy %q: want %s", name, copyNames())
	}
	return all[i : i+1], nil
}

// copyHead is what every copy shows.
type copyHead struct {
	Style       template.CSS
	Title, Name string
	Letterhead  []string
	Particulars []fact
	Metric      bool
	Unmarked    string
	Cautions    []cautionView
	Papers      []string // to ask for
	PaperRule   string
}

type (
	fact        struct{ Name, Text string }
	cautionView struct{ About, Text, Founded string }
)

// head gives what a copy has above and below.
func (c orderCopy) head(o job.WorkOrder, metric bool) copyHead {
	h := copyHead{Style: template.CSS(pageStyle), Title: c.title, Name: o.Name, Letterhead: letterhead(o.Shop), Particulars: particulars(o), Metric: metric, //nolint:gosec // our own style sheet
		Unmarked: "They are " + caution.Unmarked + ".", PaperRule: caution.PaperRule}
	for _, w := range o.Cautions {
		if c.about == 0 || w.For(c.about) {
			h.Cautions = append(h.Cautions, cautionView{w.Heading(), w.Text, w.Founded()})
		}
	}
	if c.about != caution.Bench {
		for _, p := range o.Papers {
			h.Papers = append(h.Papers, p.String())
		}
	}
	return h
}

// renderHTML writes the folder of -format html: the copies asked for and, of all of
// them, an index.
func renderHTML(o job.WorkOrder, set settings) error {
	files, err := copyFiles(o, set)
	if err != nil {
		return err
	}
	return folder.Write(set.out, "html", files, set.force)
}

func copyFiles(o job.WorkOrder, set settings) ([]folder.File, error) {
	var files []folder.File
	if len(set.copies) > 1 {
		index, err := indexHTML(o, set.copies)
		if err != nil {
			return nil, err
		}
		files = append(files, folder.File{Name: "index.html", Data: index})
	}
	for _, c := range set.copies {
		page, err := c.html(o, set)
		if err != nil {
			return nil, err
		}
		files = append(files, folder.File{Name: c.name + ".html", Data: page})
	}
	return files, nil
}

// html makes the page of a copy. Everything a job file may say passes through
// html/template or package svg, which escape it.
func (c orderCopy) html(o job.WorkOrder, set settings) ([]byte, error) {
	v, err := c.view(&sheet{metric: set.metric, why: set.explain, photos: set.cloths, as: set.as, was: set.was}, c.head(o, set.metric), o)
	if err != nil {
		return nil, err
	}
	return fill(c.page, v)
}

// indexHTML makes the page that leads to the copies.
func indexHTML(o job.WorkOrder, list []orderCopy) ([]byte, error) {
	type link struct{ File, Title, Whom string }
	v := struct {
		copyHead
		Links   []link
		Pointer string
	}{copyHead: orderCopy{title: "Work order"}.head(o, false), Pointer: "Each copy has the cautions that concern its reader: read them before the work begins."}
	for _, c := range list {
		v.Links = append(v.Links, link{c.name + ".html", c.title, c.whom})
	}
	return fill(indexPage, v)
}

// fill puts a view into a template and the parts that all copies share.
func fill(page string, view any) ([]byte, error) {
	t, err := template.New("page").Parse(copyParts)
	if err == nil {
		t, err = t.Parse(page)
	}
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := t.Execute(&out, view); err != nil {
		return nil, err
	}
	return printable(out.Bytes()), nil
}

// printable replaces what no page may hold, as package svg does.
func printable(page []byte) []byte {
	return bytes.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f || r == 0xfffe || r == 0xffff {
			return '\ufffd'
		}
		return r
	}, bytes.ToValidUTF8(page, []byte("\ufffd")))
}
