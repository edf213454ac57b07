package cost

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// ReadPriceListJSON reads a price list from JSON: an array of objects whose
// keys are the columns of ReadPriceListCSV and whose values are text.
//
//	[{"code": "CLOTH-12", "kind": "goods", "description": "patterned cloth",
//	  "price": "42.00 USD/yd", "uplift": "25 % markup"}]
//
// Faults come together in a *ListError, each with its row and column; a fault
// of the JSON itself names line and character.
func ReadPriceListJSON(r io.Reader) (PriceList, error) {
	text, err := readAll(r)
	if err != nil {
		return PriceList{}, err
	}
	var rows []map[string]any
	if err := json.Unmarshal(text, &rows); err != nil {
		return PriceList{}, jsonFault(text, err)
	}
	b := newBuilder(1)
	if len(rows) >= mostRows {
		b.fault(mostRows, "", check.Refuse("", "", unit.ErrRange, "at most 19999 entries"))
		return b.done()
	}
	for i, row := range rows {
		cells := map[string]string{}
		whole := true
		for _, k := range slices.Sorted(maps.Keys(row)) {
			s, ok := row[k].(string)
			switch {
			case !slices.Contains(columns, k):
				b.fault(i+1, k, check.Refuse("", k, unit.ErrUnknown, "one of "+strings.Join(columns, ", ")))
				whole = false
			case !ok:
				b.fault(i+1, k, check.Refuse("", "", unit.ErrSyntax, "text in quotes, such as \"42.00 USD/yd\""))
				whole = false
			}
			cells[k] = s
		}
		if whole {
			b.add(i+1, cells)
		}
		if b.full() {
			break
		}
	}
	return b.done()
}

// jsonFault says where the text stops being a JSON array of objects.
func jsonFault(text []byte, err error) error {
	offset := int64(0)
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		offset = syntax.Offset
	case errors.As(err, &kind):
		offset = kind.Offset
	}
	before := text[:max(0, min(int(offset), len(text)))]
	line := bytes.Count(before, []byte("\n")) + 1
	at := len(before) - (bytes.LastIndexByte(before, '\n') + 1)
	return check.Refuse("price list", "", unit.ErrSyntax,
		"an array of objects with text values; line "+strconv.Itoa(line)+", character "+strconv.Itoa(at)+": "+err.Error())
}

// MarshalJSON writes the list as ReadPriceListJSON reads it.
func (l PriceList) MarshalJSON() ([]byte, error) {
	if l.entries == nil {
		return []byte("[]"), nil
	}
	return json.Marshal(l.entries)
}

// UnmarshalJSON reads the list as ReadPriceListJSON does.
func (l *PriceList) UnmarshalJSON(text []byte) error {
	v, err := ReadPriceListJSON(bytes.NewReader(text))
	if err == nil {
		*l = v
	}
	return err
}
