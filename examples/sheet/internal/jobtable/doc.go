// Package jobtable turns a job file into tables that a spreadsheet holds, and back.
//
// A list of the job is a table with a row for each of its entries, an object is a form
// with a line for each of its fields. What fields there are, what they hold and what they
// mean comes from the schema of the job file. What is no number, text or short list, such
// as a traced outline, stands in its cell as the text of the job file, so that nothing is
// lost either way.
package jobtable

import (
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// Kind is what a cell holds.
type Kind uint8

// The kinds of cells.
const (
	Text    Kind = iota
	Count        // a whole number
	Size         // a length, as a number in the unit of the heading
	Surface      // an area, as a number in the unit of the heading
	Share        // a fraction, shown as a percentage
	Hours        // a time, in hours
	Amount       // money in the currency of the job
	Price        // the amount of a price; what it is for stands in the next field
	Per          // what a price is for, such as yd
	Day          // a calendar day, as text
	YesNo        // yes or no
	Choice       // one of the choices
	List         // texts with semicolons between them
	Pairs        // names with texts, as in a: b; c: d
	Shape        // the name of a shape, whose measures have fields of their own
	Whole        // an object or a list as the job file writes it
	Present      // yes where an object is there that says nothing else
)

// Field is what a column or a line holds.
type Field struct {
	// Path is where it stands in the object of its table, such as foam.price. A star is
	// the shape that the row has: outline.*.height.
	Path string
	// Name heads the column: foam price.
	Name string
	Kind Kind
	// Unit is that of numbers, such as in; none for others.
	Unit string
	// Choices are what a choice may be. From names the table whose first column holds what
	// it may be, such as goods.
	Choices []string
	From    string
	// Says is what the schema says of it.
	Says string
	// Parent is the place of the name of what the row belongs to, such as the piece of
	// furniture of a panel, from 1; 0 for a field of its own.
	Parent int
	// Key says that it is the name of an entry of a map.
	Key bool

	scale float64 // quanta of a number in a unit
}

// Heading is the name with the unit.
func (f Field) Heading() string {
	if f.Unit != "" {
		return f.Name + ", " + f.Unit
	}
	return f.Name
}

// Table is a list of the job as rows, or an object as lines.
type Table struct {
	Key   string // a short name: panels
	Sheet string // where it stands
	Title string
	List  string // the list of the job: pieces[].panels[]
	// Form says that it is one object: its fields stand below each other, and its one row
	// beside them.
	Form   bool
	Fields []Field
	Rows   []Row
}

// Row is an entry of a list.
type Row struct {
	Cells []any // nil, string or float64, in the order of the fields
	// Place is where it stands in the job file; Of and Back set it.
	Place unit.Path
}

// blank tells whether nothing stands in the row but what it belongs to.
func (r Row) blank(fields []Field) bool {
	for i, v := range r.Cells {
		if i < len(fields) && v != nil && v != "" && fields[i].Parent == 0 {
			return false
		}
	}
	return true
}

// Find gives the field of a heading, with its unit or without; letter case does not count.
func (t Table) Find(heading string, o Options) (Field, bool) {
	heading = strings.ToLower(strings.Join(strings.Fields(heading), " "))
	for _, f := range t.all(o) {
		if heading == strings.ToLower(f.Heading()) || heading == strings.ToLower(f.Name) {
			return f, true
		}
	}
	return Field{}, false
}

// Options steer the tables.
type Options struct {
	// Metric writes lengths in millimetres and areas in square metres.
	Metric bool
}

// Value gives the cell of a row by the path of its field; nil where there is none.
func (t Table) Value(r Row, path string) any {
	for i, f := range t.Fields {
		if f.Path == path && f.Kind != Per && i < len(r.Cells) {
			return r.Cells[i]
		}
	}
	return nil
}

// Text gives the text of a cell by the path of its field.
func (t Table) Text(r Row, path string) string { return wording(t.Value(r, path)) }
