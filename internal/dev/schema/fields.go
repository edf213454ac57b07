package schema

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/dev/typed"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// The generated part of the README stands between these lines.
const (
	fieldsBegin = "<!-- fields: written by go generate ./cost/job from the Go types and their comments -->\n"
	fieldsEnd   = "<!-- end of the fields -->\n"
)

// ReadmePath is where the README of the job file stands, from the root of the
// module.
var ReadmePath = filepath.Join("cost", "job", "README.md")

// Readme gives the README of the job file as it should be: the text written by
// hand as it stands, and between its marks every field, unit and word.
func Readme() ([]byte, error) {
	root, err := typed.Root()
	if err != nil {
		return nil, err
	}
	now, err := os.ReadFile(filepath.Join(root, ReadmePath))
	if err != nil {
		return nil, err
	}
	before, rest, ok1 := bytes.Cut(now, []byte(fieldsBegin))
	_, after, ok2 := bytes.Cut(rest, []byte(fieldsEnd))
	if !ok1 || !ok2 {
		return nil, errors.New(ReadmePath + ": the marks of the fields are gone")
	}
	fields, err := Fields()
	if err != nil {
		return nil, err
	}
	return slices.Concat(before, []byte(fieldsBegin), fields, []byte(fieldsEnd), after), nil
}

// Fields describes the job file in Markdown: its objects, then units and words.
func Fields() ([]byte, error) {
	d, err := loadDocs()
	if err != nil {
		return nil, err
	}
	p := &page{docs: d, seen: map[reflect.Type]bool{}, titles: map[string]reflect.Type{}}
	p.out.WriteString("## Fields\n\n")
	for _, t := range []reflect.Type{reflect.TypeFor[job.Spec](), reflect.TypeFor[job.Shop]()} {
		if err := p.object(t); err != nil {
			return nil, err
		}
	}
	for len(p.later) > 0 { // what other packages read, such as shapes
		t := p.later[0]
		p.later = p.later[1:]
		if err := p.object(t); err != nil {
			return nil, err
		}
	}
	p.units()
	p.out.WriteString("## Words\n\n")
	return append(p.out.Bytes(), p.words.Bytes()...), errors.Join(p.faults...)
}

// page writes the description.
type page struct {
	docs       docs
	out, words bytes.Buffer
	seen       map[reflect.Type]bool
	later      []reflect.Type
	titles     map[string]reflect.Type
	faults     []error
}

// titles are the headings of types whose names do not say what the file holds.
var titles = map[reflect.Type]string{
	reflect.TypeFor[job.Spec]():             "Job",
	reflect.TypeFor[job.Shop]():             "Shop file",
	reflect.TypeFor[job.Furniture]():        "Piece of furniture",
	reflect.TypeFor[job.Replace]():          "Replacement",
	reflect.TypeFor[build.Spec]():           "How a piece is built",
	reflect.TypeFor[build.On]():             "Supports",
	reflect.TypeFor[build.Use]():            "Use of a finding",
	reflect.TypeFor[build.Loose]():          "What cushions have",
	reflect.TypeFor[build.More]():           "More findings",
	reflect.TypeFor[cost.Entry]():           "Entry of the price list",
	reflect.TypeFor[shape.Form]():           "Shape",
	reflect.TypeFor[shape.EdgeForm]():       "Traced edge",
	reflect.TypeFor[shape.PieceForm]():      "Traced piece",
	reflect.TypeFor[shape.TraceForm]():      "Traced outline",
	reflect.TypeFor[shape.ChordForm]():      "Chord and arc",
	reflect.TypeFor[allowance.Stretch]():    "Fit",
	reflect.TypeFor[job.CushionWelt]():      "Welt of a cushion",
	reflect.TypeFor[job.GoodsKind]():        "Kinds of goods",
	reflect.TypeFor[job.BuyBy]():            "What to buy by",
	reflect.TypeFor[thread.Goods]():         "Materials",
	reflect.TypeFor[material.Grade]():       "Grades",
	reflect.TypeFor[material.Severity]():    "Severities",
	reflect.TypeFor[material.DefectKind]():  "Kinds of marks",
	reflect.TypeFor[material.SkinKind]():    "Kinds of skins",
	reflect.TypeFor[allowance.Finish]():     "Finishes",
	reflect.TypeFor[shape.Corner]():         "Corners",
	reflect.TypeFor[made.CushionKind]():     "Kinds of cushions",
	reflect.TypeFor[made.CushionFit]():      "Fits of cushions",
	reflect.TypeFor[made.SkirtKind]():       "Kinds of skirts",
	reflect.TypeFor[made.PleatKind]():       "Kinds of pleats",
	reflect.TypeFor[made.TuftRule]():        "Rules of tufting",
	reflect.TypeFor[made.ChannelProfile]():  "Profiles of channels",
	reflect.TypeFor[foam.Use]():             "Uses of foam",
	reflect.TypeFor[foam.Duty]():            "Duties",
	reflect.TypeFor[foam.Base]():            "Bases of foam",
	reflect.TypeFor[caution.Jurisdiction](): "Jurisdictions",
	reflect.TypeFor[caution.Use]():          "Uses of a piece",
	reflect.TypeFor[caution.Owner]():        "Owners",
	reflect.TypeFor[bench.Ask]():            "Usual time",
	reflect.TypeFor[bench.Visit]():          "Errand",
	reflect.TypeFor[bench.Table]():          "Times at the bench",
	reflect.TypeFor[bench.Piece]():          "Times of a piece",
	reflect.TypeFor[bench.Extra]():          "Time of an extra",
	reflect.TypeFor[bench.Goods]():          "Goods that take longer",
	reflect.TypeFor[bench.Errand]():         "Time of an errand",
	reflect.TypeFor[bench.Work]():           "So much of an extra",
	reflect.TypeFor[bench.Span]():           "Span of time",
	reflect.TypeFor[bench.Task]():           "Tasks",
	reflect.TypeFor[cite.Status]():          "Status of a figure",
	reflect.TypeFor[job.FoamMeasure]():      "What is paid of foam",
	reflect.TypeFor[job.FirmnessSpec]():     "Wanted firmness",
	reflect.TypeFor[job.PressSpec]():        "Press of old foam",
	reflect.TypeFor[thread.Fibre]():         "Fibres",
	reflect.TypeFor[cost.TaxLevel]():        "Levels of tax",
	reflect.TypeFor[cost.Selling]():         "Ways to sell",
	reflect.TypeFor[cost.Rounding]():        "Ways of rounding",
	reflect.TypeFor[cost.Kind]():            "Kinds of lines",
	reflect.TypeFor[account.Copy]():         "Papers of the customer",
	reflect.TypeFor[account.By]():           "What amounts are of",
	reflect.TypeFor[account.Tax]():          "Where tax stands",
	reflect.TypeFor[account.Change]():       "Agreed change",
}

// title gives the heading of a type.
func title(t reflect.Type) string {
	if s := titles[t]; s != "" {
		return s
	}
	name := t.Name()
	for _, end := range []string{"Spec", "Form"} {
		name = strings.TrimSuffix(name, end)
	}
	var b strings.Builder
	for i, r := range name {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte(' ')
		}
		if i > 0 {
			r = unicode.ToLower(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}

// object writes the table of a struct, and then those of the structs it holds.
func (p *page) object(t reflect.Type) error {
	if p.seen[t] {
		return nil
	}
	p.seen[t] = true
	rows := fieldsOf(t)
	names := map[string]string{} // in the file, by their names in Go
	for _, r := range rows {
		names[r.Name] = r.json
	}
	fmt.Fprintf(&p.out, "### %s\n\n", p.heading(t))
	if text := p.told(t, names); text != "" {
		fmt.Fprintf(&p.out, "%s\n\n", text)
	}
	p.out.WriteString("| field | value | meaning |\n|---|---|---|\n")
	var inner []reflect.Type
	for _, r := range rows {
		value, holds, err := p.value(r.Type)
		if err != nil {
			return fmt.Errorf("%v.%s: %w", t, r.Name, err)
		}
		if names := kindsOf(r.in, r.json); len(names) > 0 {
			value = "one of `" + strings.Join(names, "`, `") + "`"
		}
		if holds != nil {
			inner = append(inner, holds)
		}
		text := p.docs.field(r.in, r.Name)
		if text == "" && r.Tag.Get("hint") != "" {
			text = sentence(r.Tag.Get("hint"))
		}
		if text == "" {
			p.faults = append(p.faults, fmt.Errorf("%v.%s has neither a comment nor a hint: the README would not say what it is", t, r.Name))
		}
		if rest, ok := strings.CutPrefix(text, r.Name+" "); ok {
			text = subject.ReplaceAllString(rest, "")
		}
		text = strings.TrimSuffix(inFile(capital(text), names), ".")
		star := ""
		if r.Tag.Get("required") == "true" {
			star = "*"
		}
		fmt.Fprintf(&p.out, "| `%s`%s | %s | %s |\n", r.json, star, value, strings.ReplaceAll(text, "|", "\\|"))
	}
	p.out.WriteByte('\n')
	for _, in := range inner {
		if in.PkgPath() != t.PkgPath() {
			p.later = append(p.later, in)
			continue
		}
		if err := p.object(in); err != nil {
			return err
		}
	}
	return nil
}

// told gives the comment of a type for readers of the file.
func (p *page) told(t reflect.Type, names map[string]string) string {
	text := forFile(p.docs.of(t))
	if m := inAFile.FindString(text); m != "" {
		return capital(strings.TrimPrefix(text, m))
	}
	if rest, ok := strings.CutPrefix(text, t.Name()+" "); ok {
		if text = subject.ReplaceAllString(rest, ""); text == rest {
			text = title(t) + " " + rest
		}
	}
	return inFile(capital(text), names)
}

var (
	// What comments say to programmers only.
	zeroValue = regexp.MustCompile(` ?(The zero value|Its values)[^.]*\.`)
	goNames   = regexp.MustCompile(`(, [a-z]+ first)?: [A-Z]\w+(, [A-Z]\w+)*(,? or [A-Z]\w+)?\.`)
	seeOrZero = regexp.MustCompile(`; (see [A-Z]\w+|the zero value[^.;]*)`)
	programs  = regexp.MustCompile(` ?(It is read from JSON by ReadSpec, or written in Go|NewEntry makes one)[^.]*\.`)
	inAFile   = regexp.MustCompile(`^\w+ is (a )?\w+ in a file[.:] ?`)
	subject   = regexp.MustCompile(`^(is|are) `)
)

func forFile(text string) string {
	for _, re := range []*regexp.Regexp{zeroValue, seeOrZero, programs} {
		text = re.ReplaceAllString(text, "")
	}
	return strings.TrimSpace(goNames.ReplaceAllString(text, "."))
}

func capital(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

type fieldRow struct {
	reflect.StructField
	json string
	in   reflect.Type // that declares it
}

// fieldsOf lists the fields that are read from a file.
func fieldsOf(t reflect.Type) []fieldRow {
	var out []fieldRow
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case !f.IsExported() || name == "-":
		case f.Anonymous && name == "":
			out = append(out, fieldsOf(f.Type)...)
		case name != "":
			out = append(out, fieldRow{f, name, t})
		}
	}
	return out
}

var aWord = regexp.MustCompile(`[\p{L}\p{Nd}]+`)

// inFile puts the names of the file in the place of those of Go, but for the
// first word.
func inFile(text string, names map[string]string) string {
	first := true
	return aWord.ReplaceAllStringFunc(text, func(word string) string {
		if json, ok := names[word]; ok && !first {
			return "`" + json + "`"
		}
		first = false
		return word
	})
}

// value says what stands in a field of a type, and the struct that it holds.
func (p *page) value(t reflect.Type) (string, reflect.Type, error) {
	if t.Kind() == reflect.Pointer {
		return p.value(t.Elem())
	}
	if t == outline {
		t = reflect.TypeFor[shape.Form]()
	}
	if t == foamList {
		v, in, err := p.value(reflect.TypeFor[[]job.FoamSpec]())
		return v + "; or a [length](#units)", in, err
	}
	if t == buildSpec {
		return "[" + strings.ToLower(title(t)) + "](#" + anchor(title(t)) + "); or text", t, nil
	}
	if t == priceList {
		return p.value(reflect.TypeFor[[]cost.Entry]())
	}
	if name := measures[t]; name != "" {
		return "[" + name + "](#units)", nil, nil
	}
	if name := plainTexts[t]; name != "" {
		return name, nil, nil
	}
	if t == reflect.TypeFor[allowance.Edge]() {
		p.wordList(reflect.TypeFor[allowance.Finish](), listed(reflect.TypeFor[allowance.Finish]()))
		return "[edge](#edges)", nil, nil
	}
	if list := append(slices.Clone(wordLists[t]), listed(t)...); len(list) > 0 {
		p.wordList(t, list)
		return "one of the [" + strings.ToLower(title(t)) + "](#" + anchor(title(t)) + ")", nil, nil
	}
	switch t.Kind() {
	case reflect.Struct:
		return "[" + strings.ToLower(title(t)) + "](#" + anchor(title(t)) + ")", t, nil
	case reflect.Slice:
		v, in, err := p.value(t.Elem())
		return "list of " + strings.TrimPrefix(v, "one of the "), in, err
	case reflect.Map:
		v, in, err := p.value(t.Elem())
		return "names, each with " + v, in, err
	case reflect.String:
		return "text", nil, nil
	case reflect.Bool:
		return "`true` or `false`", nil, nil
	case reflect.Int:
		return "whole number", nil, nil
	case reflect.Float64:
		return "number", nil, nil
	}
	return "", nil, fmt.Errorf("the README has no word for %v", t)
}

func anchor(title string) string { return strings.ReplaceAll(strings.ToLower(title), " ", "-") }

// wordList writes the words of a type of constants, once.
func (p *page) wordList(t reflect.Type, list []string) {
	if p.seen[t] {
		return
	}
	p.seen[t] = true
	fmt.Fprintf(&p.words, "### %s\n\n", p.heading(t))
	if text := p.told(t, nil); text != "" {
		fmt.Fprintf(&p.words, "%s\n\n", text)
	}
	values := wordsOf(t)
	more := moreOf[t]
	if more.of == nil && !slices.ContainsFunc(values, func(w word) bool { return p.docs.constant(t, w.value) != "" }) {
		fmt.Fprintf(&p.words, "`%s`\n\n", strings.Join(list, "`, `"))
		return
	}
	head, line := "| word | meaning |", "|---|---|"
	if more.of != nil {
		head, line = head+" "+more.head+" |", line+"---|"
	}
	fmt.Fprintf(&p.words, "%s\n%s\n", head, line)
	for _, w := range values {
		fmt.Fprintf(&p.words, "| `%s` | %s |", w.text, strings.TrimSuffix(subject.ReplaceAllString(forFile(p.docs.constant(t, w.value)), ""), "."))
		if more.of != nil {
			fmt.Fprintf(&p.words, " %s |", more.of(w.value))
		}
		p.words.WriteByte('\n')
	}
	p.words.WriteByte('\n')
}

// moreOf are columns of their own in the tables of some words.
var moreOf = map[reflect.Type]struct {
	head string
	of   func(int) string
}{
	reflect.TypeFor[allowance.Finish](): {"allowance when none is given", func(v int) string {
		l, _ := allowance.Finish(v).Default() //nolint:gosec // from a uint8
		return l.String()
	}},
	reflect.TypeFor[material.DefectKind](): {"severity when none is given", func(v int) string {
		return material.DefectKind(v).UsualSeverity().String() //nolint:gosec // from a uint8
	}},
}

// heading gives the title of a type, which no other may have.
func (p *page) heading(t reflect.Type) string {
	name := title(t)
	if other, taken := p.titles[name]; taken {
		p.faults = append(p.faults, fmt.Errorf("%v and %v have one title, %q", t, other, name))
	}
	p.titles[name] = t
	return name
}

// measures are the quantities with units.
var measures = map[reflect.Type]string{
	reflect.TypeFor[unit.Length]():      "length",
	reflect.TypeFor[unit.Area]():        "area",
	reflect.TypeFor[unit.Volume]():      "volume",
	reflect.TypeFor[unit.Mass]():        "mass",
	reflect.TypeFor[unit.Duration]():    "time",
	reflect.TypeFor[unit.Angle]():       "angle",
	reflect.TypeFor[unit.Ratio]():       "share",
	reflect.TypeFor[job.Thickness]():    "thickness",
	reflect.TypeFor[shape.Point]():      "point",
	reflect.TypeFor[cost.Money]():       "amount",
	reflect.TypeFor[job.GoodsPrice]():   "price of goods",
	reflect.TypeFor[cost.LengthPrice](): "price of a length",
	reflect.TypeFor[cost.AreaPrice]():   "price of an area",
	reflect.TypeFor[cost.VolumePrice](): "price of foam",
	reflect.TypeFor[cost.HourPrice]():   "price of an hour",
	reflect.TypeFor[cost.AnyPrice]():    "price",
}

// plainTexts are texts with a form of their own.
var plainTexts = map[reflect.Type]string{
	reflect.TypeFor[cost.Currency]():    "currency: an ISO 4217 code such as `USD`",
	reflect.TypeFor[cost.Uplift]():      "markup or margin, such as `25 % markup`",
	reflect.TypeFor[cost.AnyQuantity](): "quantity, such as `0.25 yd`, `5 lb` or `100 pieces`",
	reflect.TypeFor[cost.Date]():        "day, such as `2027-01-15`",
	reflect.TypeFor[job.Used]():         "length of a roll such as `17 yd`, or area of hides such as `96 sq ft`",
	reflect.TypeFor[job.Drop]():         "fraction, such as `1/2`",
	reflect.TypeFor[job.Grain]():        "grain: `one way`, `either way` or `any way`; `either way within 10 deg`",
	reflect.TypeFor[shape.EllipseArc](): "six numbers",
	reflect.TypeFor[shape.Pixel]():      "pixel, from the left and from the top, such as `964.6, 716.5`",
	reflect.TypeFor[foam.IFD25]():       "firmness, such as `33 lbf` or `147 N`",
	reflect.TypeFor[thread.Stitch]():    "stitch type, such as `301`",
	reflect.TypeFor[thread.Size]():      "size of thread, such as `92`, `T-90` or `tex 90`",
}

// units writes how each quantity is written, by the units that its reader names.
func (p *page) units() {
	p.out.WriteString("## Units\n\n| value | units | examples |\n|---|---|---|\n")
	type row struct{ name, units, examples string }
	var rows []row
	for t, name := range measures {
		r := row{name: name, units: unitsOf(t)}
		if e := unitExamples[t]; len(e) > 0 {
			r.examples = "`" + strings.Join(e, "`, `") + "`"
		} else {
			r.examples = otherExamples[name]
		}
		rows = append(rows, r)
	}
	slices.SortFunc(rows, func(a, b row) int { return strings.Compare(a.name, b.name) })
	for _, r := range rows {
		fmt.Fprintf(&p.out, "| %s | %s | %s |\n", r.name, r.units, r.examples)
	}
	p.out.WriteByte('\n')
}

var otherExamples = map[string]string{
	"share":             "`25 %`, `0.25`",
	"point":             "`3 in, 4 1/2 in`: across, then along",
	"amount":            "`85.00 USD`",
	"price of goods":    "`68.00 USD/yd`, `9.50 USD/sq ft`",
	"price of a length": "`6.00 USD/yd`",
	"price of an area":  "`1.00 USD/sq ft`",
	"price of foam":     "`3.40 USD/bd ft`",
	"price of an hour":  "`64.55 USD/h`",
	"price":             "`0.90 USD/yd`, `1.60 USD/piece`, `1.80 USD/1000 pieces`",
}

// unitsOf gives the units that a quantity is read in, as the refusal of an
// unknown one lists them.
func unitsOf(t reflect.Type) string {
	switch t {
	case reflect.TypeFor[shape.Point]():
		return "two lengths"
	case reflect.TypeFor[cost.Money]():
		return "a currency"
	case reflect.TypeFor[job.GoodsPrice]():
		return "a currency per length or area"
	case reflect.TypeFor[cost.LengthPrice]():
		return "a currency per length"
	case reflect.TypeFor[cost.AreaPrice]():
		return "a currency per area"
	case reflect.TypeFor[cost.VolumePrice]():
		return "a currency per volume"
	case reflect.TypeFor[cost.HourPrice]():
		return "a currency per time"
	case reflect.TypeFor[cost.AnyPrice]():
		return "a currency per length, area, volume, mass, time or piece"
	}
	v, ok := reflect.New(t).Interface().(interface{ UnmarshalText(text []byte) error })
	if !ok {
		return ""
	}
	var in *unit.InputError
	if !errors.As(v.UnmarshalText([]byte("3 nonesuch")), &in) {
		return ""
	}
	_, list, _ := strings.Cut(in.Want, "one of: ")
	return "`" + strings.ReplaceAll(list, ", ", "`, `") + "`"
}
