package jobtable

import (
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/unit"
)

// priced is a price in a job file: so much of a currency for something.
var priced = regexp.MustCompile(`^\s*([-+]?[0-9]+(?:\.[0-9]+)?)\s+([A-Z]{3})\s*/\s*(\S.*?)\s*$`)

// cell gives what stands in the cell of a value of the job file; nil where the field
// cannot hold it.
func (f Field) cell(v any, currency string) any {
	text, isText := v.(string)
	switch f.Kind {
	case Size:
		return f.number(v, func(s string) (float64, error) { l, err := unit.ParseLength(s); return float64(l), err })
	case Surface:
		return f.number(v, func(s string) (float64, error) { a, err := unit.ParseArea(s); return float64(a), err })
	case Hours:
		return f.number(v, func(s string) (float64, error) { d, err := unit.ParseDuration(s); return float64(d), err })
	case Share:
		if n, ok := v.(json.Number); ok {
			text, isText = n.String(), true
		}
		r, err := unit.ParseRatio(text)
		if !isText {
			return nil
		}
		if err != nil {
			return text
		}
		return float64(r)
	case Amount:
		m, err := cost.ParseMoney(text)
		if !isText {
			return nil
		}
		x, bad := strconv.ParseFloat(m.Amount(), 64)
		if err != nil || bad != nil || string(m.Currency()) != currency || f.money(x, currency) != m.String() {
			return text
		}
		return x
	case Price, Per:
		m := priced.FindStringSubmatch(text)
		switch {
		case !isText || m == nil && f.Kind == Per:
			return nil
		case m == nil || m[2] != currency:
			if f.Kind == Per {
				return nil
			}
			return text
		case f.Kind == Per:
			return m[3]
		}
		if x, err := strconv.ParseFloat(m[1], 64); err == nil {
			return x
		}
		return text
	case Count:
		if n, ok := v.(json.Number); ok {
			if x, err := strconv.ParseInt(n.String(), 10, 53); err == nil {
				return float64(x)
			}
		}
		return nil
	case YesNo:
		if yes, ok := v.(bool); ok && yes {
			return "yes"
		} else if ok {
			return "no"
		}
		return nil
	case List:
		return listed(v)
	case Pairs:
		return paired(v)
	case Whole:
		if isText && !strings.HasPrefix(text, "{") && !strings.HasPrefix(text, "[") {
			return text
		}
		return whole(v)
	case Present:
		if m, ok := v.(map[string]any); ok && len(m) == 0 {
			return "yes"
		}
		return nil
	}
	if isText {
		return text
	}
	return nil
}

// number gives a quantity in the unit of the field, or its text where a number would
// not give it again.
func (f Field) number(v any, parse func(string) (float64, error)) any {
	text, ok := v.(string)
	if !ok {
		return nil
	}
	q, err := parse(text)
	if err != nil || math.Abs(q) > 1<<52 || math.RoundToEven(q/f.scale*f.scale) != q {
		return text
	}
	return q / f.scale
}

// listed joins texts that hold no semicolon.
func listed(v any) any {
	list, ok := v.([]any)
	if !ok {
		return nil
	}
	var out []string
	for _, x := range list {
		s, ok := x.(string)
		if !ok || s == "" || strings.TrimSpace(s) != s || strings.ContainsAny(s, ";\n\r") || strings.HasPrefix(s, "[") {
			return whole(v)
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return whole(v)
	}
	return strings.Join(out, "; ")
}

// paired joins names with their texts.
func paired(v any) any {
	pairs, ok := v.(map[string]any)
	if !ok {
		return nil
	}
	var out []string
	for name, x := range pairs {
		s, ok := x.(string)
		if !ok || s == "" || name == "" || strings.TrimSpace(s) != s || strings.TrimSpace(name) != name || strings.ContainsAny(s+name, ";\n\r") || strings.Contains(name, ":") || strings.HasPrefix(name, "{") {
			return whole(v)
		}
		out = append(out, name+": "+s)
	}
	if len(out) == 0 {
		return whole(v)
	}
	slices.Sort(out)
	return strings.Join(out, "; ")
}

func whole(v any) any {
	out, err := json.Marshal(v)
	if err != nil {
		return nil
	}
	return string(out)
}

// back gives the value of the job file that a cell says; what it cannot mean stands as it
// is, for the reader of the job to refuse.
func (f Field) back(v any, currency string) any {
	x, isNumber := v.(float64)
	text, _ := v.(string)
	text = strings.TrimSpace(text)
	switch f.Kind {
	case Size, Surface, Hours:
		if isNumber {
			return f.quantity(x)
		}
	case Share:
		if isNumber {
			out, err := unit.Ratio(x).MarshalText()
			if err == nil {
				return string(out)
			}
		}
	case Amount:
		if isNumber {
			return f.money(x, currency)
		}
	case Count:
		if n, err := strconv.Atoi(text); err == nil {
			isNumber, x = true, float64(n)
		}
		if isNumber {
			return json.Number(plainNumber(x))
		}
	case YesNo:
		switch strings.ToLower(text) {
		case "yes", "true", "y", "x":
			return true
		case "no", "false", "n":
			return false
		}
		if isNumber && (x == 0 || x == 1) {
			return x == 1
		}
	case Day:
		if isNumber { // as spreadsheets count days
			return time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, int(max(-1e6, min(x, 1e7)))).Format("2006-01-02")
		}
	case List:
		if strings.HasPrefix(text, "[") {
			return parsed(text)
		}
		var out []any
		for s := range strings.SplitSeq(wording(v), ";") {
			if s = strings.TrimSpace(s); s != "" {
				out = append(out, s)
			}
		}
		return out
	case Pairs:
		if strings.HasPrefix(text, "{") {
			return parsed(text)
		}
		out := map[string]any{}
		for s := range strings.SplitSeq(wording(v), ";") {
			name, is, _ := strings.Cut(s, ":")
			name = strings.TrimSpace(name)
			if _, twice := out[name]; twice {
				return wording(v) // which is refused
			}
			if name != "" {
				out[name] = strings.TrimSpace(is)
			}
		}
		return out
	case Whole:
		if strings.HasPrefix(text, "{") || strings.HasPrefix(text, "[") {
			return parsed(text)
		}
	case Present:
		if slices.Contains([]string{"no", "false", "n"}, strings.ToLower(text)) {
			return nil
		}
		return map[string]any{}
	}
	return wording(v)
}

// wording is a cell as a text.
func wording(v any) string {
	switch x := v.(type) {
	case float64:
		return plainNumber(x)
	case string:
		return strings.TrimSpace(x)
	}
	return ""
}

func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// parsed reads a text of the job file; what is none stays a text, and is refused as one.
func parsed(text string) any {
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	var v any
	if d.Decode(&v) != nil || d.More() {
		return text
	}
	return v
}

// quantity writes a number of the unit as the job file does.
func (f Field) quantity(x float64) any {
	q := math.RoundToEven(x * f.scale)
	if math.IsNaN(q) || math.Abs(q) > 1<<62 {
		return plainNumber(x) + " " + f.Unit
	}
	var out []byte
	var err error
	switch f.Kind {
	case Surface:
		out, err = unit.Area(q).MarshalText()
	case Hours:
		out, err = unit.Duration(q).MarshalText()
	default:
		out, err = unit.Length(q).MarshalText()
	}
	if err != nil {
		return plainNumber(x) + " " + f.Unit
	}
	return string(out)
}

// money writes a number as an amount of the currency, to the fifteen digits that a
// spreadsheet shows: 15.1 and 0.2 add up to a little less than 15.3.
func (f Field) money(x float64, currency string) string {
	if y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64); err == nil {
		x = y
	}
	text := plainNumber(x)
	if digits, err := cost.Currency(currency).Digits(); err == nil && digits > 0 {
		whole, part, _ := strings.Cut(text, ".")
		text = whole + "." + part + strings.Repeat("0", max(0, digits-len(part)))
	}
	return text + " " + currency
}
