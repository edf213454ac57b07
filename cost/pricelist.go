package cost

import (
	"encoding"
	"errors"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// PriceList is what a shop pays for what it buys and works, by code. It is
// read from CSV or JSON, or built of entries, and is never changed: With and
// Without give a new one.
type PriceList struct {
	entries []Entry
}

// With gives the list with these entries: one whose code is in the list takes
// the place of that entry, the others follow. Errors name the entry and the
// column and are those of NewEntry, and unit.ErrRange for two entries of one
// code or more than 20000.
func (l PriceList) With(entries ...Entry) (PriceList, error) {
	out := slices.Clone(l.entries)
	at := make(map[string]int, len(out))
	for i, e := range out {
		at[e.Code] = i
	}
	given := map[string]bool{}
	for i, e := range entries {
		path := unit.Path("entries").At(i)
		if faults := e.faults(); len(faults) > 0 {
			return PriceList{}, unit.InField(path, faults[0])
		}
		if given[e.Code] {
			return PriceList{}, check.Refuse(path.Dot("code"), e.Code, unit.ErrRange, "each code once")
		}
		given[e.Code] = true
		if k, known := at[e.Code]; known {
			out[k] = e
		} else {
			out = append(out, e)
		}
	}
	if len(out) > mostRows-1 {
		return PriceList{}, check.Refuse("entries", "", unit.ErrRange, "at most 19999 entries")
	}
	return PriceList{out}, nil
}

// Without gives the list without the entries of these codes. It wraps
// unit.ErrUnknown for a code that is not in the list.
func (l PriceList) Without(codes ...string) (PriceList, error) {
	for i, c := range codes {
		if _, err := l.Entry(c); err != nil {
			return PriceList{}, fieldOnly(unit.Path("codes").At(i), err)
		}
	}
	var out []Entry
	for _, e := range l.entries {
		if !slices.Contains(codes, e.Code) {
			out = append(out, e)
		}
	}
	return PriceList{out}, nil
}

// The columns of a price list, which are the keys in JSON. The first four are
// required; those after the sixth are written only where an entry has them.
var columns = []string{"code", "kind", "description", "price", "uplift", "tax_class",
	"step", "pack", "least", "cut_charge", "freight", "supplier", "dated", "sells"}

const (
	required = 4
	always   = 6
)

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
	var in *unit.InputError
	if errors.As(e.Err, &in) { // row and column say where
		what := *in
		what.Field = ""
		return s + ": " + what.Error()
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
	first  int // row of the first entry
}

func newBuilder(first int) *builder { return &builder{codes: map[string]int{}, first: first} }

// fault notes an error with its place as a path, such as [1].price for the
// second entry, so that no reader of errors needs to know of cells.
func (b *builder) fault(row int, column string, err error) {
	at := unit.Path("").At(max(row-b.first, 0)).Dot(unit.Path(column))
	b.faults.Cells = append(b.faults.Cells, &CellError{row, column, fieldOnly(at, err)})
}

func (b *builder) full() bool { return len(b.faults.Cells) >= mostCells }

// add reads one row; cells has the value of each column.
func (b *builder) add(row int, cells map[string]string) {
	get := func(column string) string { return strings.TrimSpace(cells[column]) }
	for _, c := range columns {
		if len(get(c)) > maxText {
			b.fault(row, c, check.Refuse("", get(c), unit.ErrRange, "at most 160 characters"))
			return
		}
	}
	e := Entry{Code: get("code"), What: get("description"), TaxClass: TaxClass(get("tax_class")), Supplier: get("supplier")}
	read := map[unit.Path]error{} // what cannot be read at all
	for column, to := range map[string]encoding.TextUnmarshaler{
		"kind": &e.Kind, "price": &e.Price, "uplift": &e.Uplift, "step": &e.Step, "pack": &e.Pack, "least": &e.Least,
		"cut_charge": &e.CutCharge, "freight": &e.Freight, "dated": &e.Dated, "sells": &e.Sells,
	} {
		if err := textOf(get(column), to); err != nil {
			read[unit.Path(column)] = err
		}
	}
	for _, m := range []*Money{&e.CutCharge, &e.Freight} {
		if m.IsZero() { // 0 USD is none
			*m = Money{}
		}
	}
	if first, doubled := b.codes[e.Code]; doubled && e.Code != "" {
		b.fault(row, "code", check.Refuse("", e.Code, unit.ErrRange, "a code that row "+strconv.Itoa(first)+" does not have"))
	} else {
		b.codes[e.Code] = row
	}
	faults := e.faults()
	for _, c := range columns {
		if err := read[unit.Path(c)]; err != nil {
			b.fault(row, c, err)
			continue
		}
		for _, f := range faults {
			var in *unit.InputError
			if errors.As(f, &in) && string(in.Field) == c {
				b.fault(row, c, f)
			}
		}
	}
	b.list.entries = append(b.list.entries, e)
}

// textOf reads a cell; an empty one is for Entry.faults to judge.
func textOf(s string, to encoding.TextUnmarshaler) error {
	if s == "" {
		return nil
	}
	return to.UnmarshalText([]byte(s))
}

func (b *builder) done() (PriceList, error) {
	if len(b.faults.Cells) > 0 {
		b.faults.Cells = b.faults.Cells[:min(len(b.faults.Cells), mostCells)]
		return PriceList{}, &b.faults
	}
	return b.list, nil
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
	return Entry{}, check.Refuse("code", code, unit.ErrUnknown, "a code of the price list")
}

// Find gives the price of a code for the quantity Q. It wraps unit.ErrUnknown
// for a code that is not in the list, unit.ErrUnknownUnit for a price of
// another quantity.
func Find[Q Quantity](l PriceList, code string) (Price[Q], error) {
	e, err := l.Entry(code)
	if err != nil {
		return Price[Q]{}, err
	}
	p, err := PriceAs[Q](e.Price)
	if err != nil {
		return Price[Q]{}, check.Refuse("code", code+", "+e.Price.String(), unit.ErrUnknownUnit, "a price such as "+measureOf[Q]().example())
	}
	return p, nil
}

// ItemOf makes an item for a quote from an entry: its code as ID, its kind,
// description, price, uplift, tax class and how it sells. The quantity is taken
// as it is; Entry.Charge rounds it up to what is sold. Errors are those of Find.
func ItemOf[Q Quantity](l PriceList, code string, quantity Q) (Item[Q], error) {
	p, err := Find[Q](l, code)
	if err != nil {
		return Item[Q]{}, err
	}
	e, err := l.Entry(code)
	return Item[Q]{ID: e.Code, Kind: e.Kind, What: e.What, Quantity: quantity, Price: p, Uplift: e.Uplift, TaxClass: e.TaxClass, Sells: e.Sells}, err
}
