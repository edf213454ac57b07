package cost

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// PriceList is what a shop pays for what it buys and works, by code. It is
// read from CSV or JSON and is never changed.
type PriceList struct {
	entries []Entry
}

// Entry is one line of a price list.
type Entry struct {
	// Code names the entry, such as "CLOTH-12".
	Code string
	Kind Kind
	// What describes it on a quote.
	What string
	// Uplift and TaxClass may be left out.
	Uplift   Uplift
	TaxClass TaxClass

	price any // a Price of some quantity
	text  string
}

// Price gives the price as text, such as "42.00 USD/yd"; Find gives it as a
// price of its quantity.
func (e Entry) Price() string { return e.text }

// The columns of a price list. The first four are required.
var columns = []string{"code", "kind", "description", "price", "uplift", "tax class"}

const required = 4

// Limits of a price list, so that a hostile file does bounded work.
const (
	mostRows  = 20_000
	mostBytes = 8 << 20
	mostCells = 20 // errors that are listed
)

// CellError says what is wrong with one cell of a price list. Rows count from
// 1 as a spreadsheet shows them, the header being row 1 of a CSV file; in JSON
// the first entry is row 1. Column is the name of the column, or empty when
// the whole row is at fault.
type CellError struct {
	Row    int
	Column string
	Err    error
}

// Error gives one line, such as `row 3, column price: …`.
func (e *CellError) Error() string {
	s := "row " + strconv.Itoa(e.Row)
	if e.Column != "" {
		s += ", column " + e.Column
	}
	return s + ": " + e.Err.Error()
}

// Unwrap gives what is wrong with the value.
func (e *CellError) Unwrap() error { return e.Err }

// ListError holds every fault of a price list, up to 20 of them.
type ListError struct {
	Cells []*CellError
}

// Error gives one line for each fault.
func (e *ListError) Error() string {
	var lines []string
	for _, c := range e.Cells {
		lines = append(lines, c.Error())
	}
	return "price list: " + strings.Join(lines, "\n")
}

// Unwrap gives the faults.
func (e *ListError) Unwrap() []error {
	var out []error
	for _, c := range e.Cells {
		out = append(out, c)
	}
	return out
}

// builder collects entries and faults while a list is read.
type builder struct {
	list   PriceList
	codes  map[string]int // row of each code
	faults ListError
}

func newBuilder() *builder { return &builder{codes: map[string]int{}} }

func (b *builder) fault(row int, column string, err error) {
	b.faults.Cells = append(b.faults.Cells, &CellError{row, column, err})
}

func (b *builder) full() bool { return len(b.faults.Cells) >= mostCells }

// add reads one row; cells has the value of each column.
func (b *builder) add(row int, cells map[string]string) {
	get := func(column string) string { return strings.TrimSpace(cells[column]) }
	for _, c := range columns[:required] {
		if get(c) == "" {
			b.fault(row, c, refuse("", "", unit.ErrRequired, "a value"))
		}
	}
	for _, c := range columns {
		if len(get(c)) > maxText {
			b.fault(row, c, refuse("", get(c), unit.ErrRange, "at most 160 characters"))
			return
		}
	}
	e := Entry{Code: get("code"), What: get("description"), TaxClass: TaxClass(get("tax class"))}
	if first, doubled := b.codes[e.Code]; doubled && e.Code != "" {
		b.fault(row, "code", refuse("", e.Code, unit.ErrRange, "a code that row "+strconv.Itoa(first)+" does not have"))
	} else {
		b.codes[e.Code] = row
	}
	var err error
	if k := get("kind"); k != "" {
		if e.Kind, err = ParseKind(k); err != nil {
			b.fault(row, "kind", err)
		}
	}
	if u := get("uplift"); u != "" {
		if err := e.Uplift.UnmarshalText([]byte(u)); err != nil {
			b.fault(row, "uplift", err)
		} else if _, err := e.Uplift.apply(exact.Int(1)); err != nil {
			b.fault(row, "uplift", err)
		}
	}
	if p := get("price"); p != "" {
		if e.price, e.text, err = parseAnyPrice(p); err != nil {
			b.fault(row, "price", err)
		}
	}
	b.list.entries = append(b.list.entries, e)
}

func (b *builder) done() (PriceList, error) {
	if len(b.faults.Cells) > 0 {
		b.faults.Cells = b.faults.Cells[:min(len(b.faults.Cells), mostCells)]
		return PriceList{}, &b.faults
	}
	return b.list, nil
}

// parseAnyPrice reads a price whose quantity is told by its unit.
func parseAnyPrice(s string) (price any, text string, err error) {
	for _, try := range []func(string) (any, string, error){
		anyPrice[unit.Length], anyPrice[unit.Area], anyPrice[unit.Volume],
		anyPrice[unit.Mass], anyPrice[unit.Duration], anyPrice[Pieces],
	} {
		p, text, err := try(s)
		if err == nil {
			return p, text, nil
		}
		if _, per, ok := strings.Cut(s, "/"); !ok || strings.TrimSpace(per) == "" {
			return nil, "", refuse("", s, unit.ErrMissingUnit, "a price such as 42.00 USD/yd")
		}
		money, _, _ := strings.Cut(s, "/")
		if _, err := ParseMoney(money); err != nil {
			return nil, "", err
		}
		for _, sentinel := range []error{unit.ErrRange, unit.ErrForgottenUnit, unit.ErrOverflow} {
			if errors.Is(err, sentinel) { // the unit was right
				return nil, "", err
			}
		}
	}
	return nil, "", refuse("", s, unit.ErrUnknownUnit, "a price per yd, m, sq ft, dm2, m2, bd ft, l, lb, kg, h, piece or the like")
}

func anyPrice[Q Quantity](s string) (any, string, error) {
	p, err := ParsePrice[Q](s)
	return p, p.String(), err
}

// Entries gives the entries in the order of the file.
func (l PriceList) Entries() []Entry { return slices.Clone(l.entries) }

// Entry finds an entry by its code. It wraps unit.ErrUnknown.
func (l PriceList) Entry(code string) (Entry, error) {
	for _, e := range l.entries {
		if e.Code == code {
			return e, nil
		}
	}
	return Entry{}, refuse("code", code, unit.ErrUnknown, "a code of the price list")
}

// Find gives the price of a code for the quantity Q. It wraps unit.ErrUnknown
// for a code that is not in the list, unit.ErrUnknownUnit for a price of
// another quantity.
func Find[Q Quantity](l PriceList, code string) (Price[Q], error) {
	e, err := l.Entry(code)
	if err != nil {
		return Price[Q]{}, err
	}
	p, ok := e.price.(Price[Q])
	if !ok {
		return Price[Q]{}, refuse("code", code+", "+e.text, unit.ErrUnknownUnit, "a price such as "+priceExample[Q]())
	}
	return p, nil
}

// ItemOf makes an item for a quote from an entry: its code as ID, its kind,
// description, price, uplift and tax class. Errors are those of Find.
func ItemOf[Q Quantity](l PriceList, code string, quantity Q) (Item[Q], error) {
	p, err := Find[Q](l, code)
	if err != nil {
		return Item[Q]{}, err
	}
	e, err := l.Entry(code)
	return Item[Q]{ID: e.Code, Kind: e.Kind, What: e.What, Quantity: quantity, Price: p, Uplift: e.Uplift, TaxClass: e.TaxClass}, err
}

// cells gives an entry as its columns.
func (e Entry) cells() []string {
	uplift := ""
	if e.Uplift != (Uplift{}) {
		uplift = e.Uplift.String()
	}
	return []string{e.Code, e.Kind.String(), e.What, e.text, uplift, string(e.TaxClass)}
}
