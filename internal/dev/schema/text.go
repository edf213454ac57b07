package schema

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// unitNames are the units of each quantity, by every name that is read.
var unitNames = map[reflect.Type]string{
	reflect.TypeFor[unit.Length]():   `in|inch|inches|"|”|″|''|ft|foot|feet|'|’|′|yd|yds|yard|yards|mm|millimetres?|millimeters?|cm|centimetres?|centimeters?|m|metres?|meters?|mil|mils|thou|um|µm|micrometres?|micrometers?|microns?|nm|nanometres?|nanometers?`,
	reflect.TypeFor[unit.Area]():     `sq ?ft|ft2|ft²|ft^2|sf|square f(oo|ee)t|sq f(oo|ee)t|sq ?in|in2|in²|in^2|square inch(es)?|sq inch(es)?|sq ?yds?|yd2|yd²|yd^2|square yards?|[mcdu]?m2|[mcdu]?m²|[mcdu]?m^2|sq ?[cm]?m|square (milli|centi|deci)?met(re|er)s?`,
	reflect.TypeFor[unit.Volume]():   `bd ?ft|board f(oo|ee)t|bf|cu ?(in|ft|yd)|(in|ft|yd|m|cm|mm|dm)(3|³|^3)|cubic (inch(es)?|f(oo|ee)t|yards?|((milli|centi)?met(re|er)s?))|n?l|(milli|nano)?lit(re|er)s?|cc|ml|(us )?gal|gallons?`,
	reflect.TypeFor[unit.Mass]():     `lbs?|pounds?|oz|ounces?|kg|kilograms?|kilos?|g|grams?|grammes?|mg|milligrams?|t|tonnes?|gr|grains?|ug|µg|micrograms?`,
	reflect.TypeFor[unit.Duration](): `h|hrs?|hours?|mins?|minutes?|s|secs?|seconds?|ms|milliseconds?`,
	reflect.TypeFor[unit.Angle]():    `deg|degrees?|°|rad|radians?|turns?`,
	reflect.TypeFor[job.Thickness](): `oz|ounces?|irons?|in|inch|inches|"|”|″|mm|millimetres?|millimeters?|cm|centimetres?|centimeters?|m|metres?|meters?|mil|mils|thou|um|µm|micrometres?|micrometers?|microns?|nm|ft|yd`,
}

var unitExamples = map[reflect.Type][]string{
	reflect.TypeFor[unit.Length]():   {"25 5/8 in", "652 mm"},
	reflect.TypeFor[unit.Area]():     {"48 sq ft", "4.5 m2"},
	reflect.TypeFor[unit.Volume]():   {"29.4 bd ft"},
	reflect.TypeFor[unit.Mass]():     {"90 kg", "4 oz"},
	reflect.TypeFor[unit.Duration](): {"9 h 30 min", "14.5 h"},
	reflect.TypeFor[unit.Angle]():    {"45 deg"},
	reflect.TypeFor[job.Thickness](): {"1.1 mm", "3 oz"},
}

// zero needs no unit.
const zero = `\s*[-+−–‑]?\s*0*\.?0+([eE][-+]?[0-9]+)?\s*`

// space is white space as it is read.
const space = "[\\s\u00a0\u202f\u2009]*"

// quantity is a pattern for a number and its unit: no comma, a digit, and at
// the end a unit that no other letter touches. What else is wrong is for the
// reader to say.
func quantity(units string) string {
	return `[^,]*[0-9¼½¾⅓⅔⅛⅜⅝⅞⅙⅚⅕⅖⅗⅘]` + space + `(` + anyCase(units) + `)` + space
}

// anyCase lets every letter of a pattern be a capital.
func anyCase(p string) string {
	var b strings.Builder
	class := false
	for i, r := range p {
		switch {
		case r == '[':
			class = true
		case r == ']':
			class = false
		}
		if r >= 'a' && r <= 'z' && (i == 0 || p[i-1] != '\\') {
			if class {
				fmt.Fprintf(&b, "%c%c", r, r-'a'+'A')
			} else {
				fmt.Fprintf(&b, "[%c%c]", r, r-'a'+'A')
			}
			continue
		}
		if r == '^' {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

const (
	money  = `\s*[-+]?[0-9]+(\.[0-9]+)?\s+[A-Z]{3}\s*`
	drop   = `\s*(0|[0-9]+\s*/\s*[0-9]+)\s*`
	number = `[-+]?[0-9]*\.?[0-9]+([eE][-+]?[0-9]+)?`
)

// texts are the forms of types that are text and no plain list of words.
var texts = map[reflect.Type]struct {
	pattern  string
	examples []string
}{
	reflect.TypeFor[cost.Currency]():    {`[A-Z]{3}`, []string{"USD", "EUR"}},
	reflect.TypeFor[cost.Date]():        {`[0-9]{4}-[0-9]{2}-[0-9]{2}`, []string{"2027-01-15"}},
	reflect.TypeFor[allowance.Side]():   {`.+\..+|`, []string{"deck.front", "arm front.top + arm front.inner", "inside arm left.top from 2 in to 14 in"}},
	reflect.TypeFor[job.Used]():         {quantity(unitNames[reflect.TypeFor[unit.Length]()]+"|"+unitNames[reflect.TypeFor[unit.Area]()]+"|"+unitNames[reflect.TypeFor[unit.Duration]()]) + "|", []string{"17 yd", "96 sq ft"}},
	reflect.TypeFor[job.Drop]():         {drop, []string{"1/2"}},
	reflect.TypeFor[material.Drop]():    {drop, []string{"1/2"}},
	reflect.TypeFor[job.Grain]():        {`(one way|either way)( within .+)?|any way`, []string{"either way within 10 deg", "any way"}},
	reflect.TypeFor[shape.Pixel]():      {`\s*[-+.0-9eE]+\s*,\s*[-+.0-9eE]+\s*`, []string{"964.6, 716.5"}},
	reflect.TypeFor[shape.EllipseArc](): {`\s*` + number + `(\s+` + number + `){5}\s*`, nil},
}

// words of types that are text in Go.
var wordLists = map[reflect.Type][]string{
	reflect.TypeFor[job.GoodsKind]():   {string(job.RollGoods), string(job.HideGoods)},
	reflect.TypeFor[job.BuyBy]():       {string(job.BuyByLayout), string(job.BuyByRule)},
	reflect.TypeFor[build.Paid]():      {string(build.Priced), string(build.InSundries), string(build.Unpriced)},
	reflect.TypeFor[job.FoamMeasure](): {string(job.ByBox), string(job.ByOutline), string(job.BySheet)},
	reflect.TypeFor[job.FoamForm](): {string(job.FoamBox), string(job.FoamOutline), string(job.FoamWedge), string(job.FoamRoundFront), string(job.FoamCylinder),
		string(job.FoamRolled), string(job.FoamCrown)},
}

// text gives the schema of a type that is text in JSON.
func (g *generator) text(t reflect.Type) (*object, error) {
	o := newObject()
	if d := g.docs.of(t); d != "" {
		o.set("description", d)
	}
	o.set("type", "string")
	whole := func(pattern string, examples []string) {
		o.set("pattern", "^("+pattern+")$")
		if len(examples) > 0 {
			o.set("examples", examples)
		}
	}
	switch {
	case wordLists[t] != nil:
		o.set("enum", wordLists[t])
	case unitNames[t] != "":
		whole(quantity(unitNames[t])+"|"+zero, unitExamples[t])
	case prices[t] != "":
		o.set("pattern", `^`+money+`/\s*([0-9][^,]*)?(`+anyCase(prices[t])+`)\s*$`)
	case t == reflect.TypeFor[cost.AnyQuantity]():
		whole(quantity(anyUnit())+"|", []string{"0.25 yd", "5 lb", "100 pieces"})
	case texts[t].pattern != "":
		whole(texts[t].pattern, texts[t].examples)
	case t == reflect.TypeFor[shape.Point]():
		l := quantity(unitNames[reflect.TypeFor[unit.Length]()]) + "|" + zero
		whole("("+l+"),("+l+")", []string{"3 in, 4 1/2 in"})
	case t == reflect.TypeFor[unit.Ratio]():
		if g.reads {
			o.set("type", []string{"string", "number"}) // 0.25 may stand without quotes
		}
		whole(`\s*`+`[-+]?[^,a-zA-Z%]*[0-9][^,a-zA-Z%]*([eE][-+]?[0-9]+)?\s*(%|percent|per cent|pct)?\s*`, []string{"25 %", "0.25"})
	case t == reflect.TypeFor[allowance.Edge]():
		var names []string
		for _, f := range allowance.Finishes() {
			names = append(names, f.String())
		}
		l := quantity(unitNames[reflect.TypeFor[unit.Length]()]) + "|" + zero
		whole(`\s*(`+strings.Join(names, "|")+`)\s*(`+l+`)?\s*(\+(`+l+`))?`, []string{"plain seam", "plain seam 3/8 in", "pull-over 2 in + 1 in"})
	case t == reflect.TypeFor[job.SeamFinish]():
		l := quantity(unitNames[reflect.TypeFor[unit.Length]()]) + "|" + zero
		whole(`\s*(`+strings.Join(listed(reflect.TypeFor[allowance.SeamKind]()), "|")+`)\s*(`+l+`)?\s*(\+(`+l+`))?`, []string{"welted seam", "plain seam 3/8 in", "plain seam 1/2 in + 1 in"})
	case t == reflect.TypeFor[cost.Money]():
		whole(money+"|", []string{"85.00 USD"})
	case t == reflect.TypeFor[thread.Size]():
	default:
		if words := listed(t); words != nil {
			o.set("enum", words)
		}
	}
	return o, nil
}

// word is one word of a type of constants.
type word struct {
	text  string
	value int
}

// listed gives the words of a type of constants.
func listed(t reflect.Type) []string {
	var out []string
	for _, w := range wordsOf(t) {
		out = append(out, w.text)
	}
	return out
}

// wordsOf gives the words of a type of constants, by asking it for all of them.
func wordsOf(t reflect.Type) []word {
	if t.Kind() != reflect.Uint8 && t.Kind() != reflect.Int || !t.Implements(textWriter) {
		return nil
	}
	var out []word
	for i := range 256 {
		v := reflect.New(t).Elem()
		if t.Kind() == reflect.Int {
			v.SetInt(int64(i))
		} else {
			v.SetUint(uint64(i))
		}
		w, ok := v.Interface().(encoding.TextMarshaler)
		if !ok {
			return nil
		}
		text, err := w.MarshalText()
		if err != nil {
			continue
		}
		back := reflect.New(t)
		if r, ok := back.Interface().(encoding.TextUnmarshaler); ok {
			if r.UnmarshalText(text) != nil || back.Elem().Interface() != v.Interface() {
				continue
			}
		}
		if w := string(text); w != "" && !slices.ContainsFunc(out, func(o word) bool { return o.text == w }) {
			out = append(out, word{w, i})
		}
	}
	return out
}

// prices are the types of prices, with the units they can be per.
var prices = map[reflect.Type]string{
	reflect.TypeFor[job.GoodsPrice]():   unitNames[reflect.TypeFor[unit.Length]()] + "|" + unitNames[reflect.TypeFor[unit.Area]()],
	reflect.TypeFor[cost.LengthPrice](): unitNames[reflect.TypeFor[unit.Length]()],
	reflect.TypeFor[cost.AreaPrice]():   unitNames[reflect.TypeFor[unit.Area]()],
	reflect.TypeFor[cost.VolumePrice](): unitNames[reflect.TypeFor[unit.Volume]()],
	reflect.TypeFor[cost.HourPrice]():   unitNames[reflect.TypeFor[unit.Duration]()],
	reflect.TypeFor[cost.AnyPrice]():    anyUnit(),
}

// anyUnit are the units that a price of anything may be for.
func anyUnit() string {
	all := []string{`piece|pieces|pcs?|each`}
	for _, t := range []reflect.Type{reflect.TypeFor[unit.Length](), reflect.TypeFor[unit.Area](), reflect.TypeFor[unit.Volume](), reflect.TypeFor[unit.Mass](), reflect.TypeFor[unit.Duration]()} {
		all = append(all, unitNames[t])
	}
	return strings.Join(all, "|")
}

// constraints are what the tags of a type do not say.
var constraints = map[reflect.Type]func(*object){
	reflect.TypeFor[shape.Form](): func(o *object) {
		props, ok := o.values["properties"].(*object)
		if !ok {
			return
		}
		var one []any
		for _, name := range props.keys {
			switch name {
			case "tolerance", "names", "mirrored", "quarter_turns", "at":
				continue
			}
			r := newObject()
			r.set("required", []string{name})
			one = append(one, r)
		}
		o.set("oneOf", one)
	},
	reflect.TypeFor[job.PanelSpec](): func(o *object) {
		o.set("oneOf", []any{requires("outline"), requires("width", "length")})
	},
	reflect.TypeFor[cost.Entry](): func(o *object) {
		o.set("required", []string{"code", "kind", "description", "price"})
	},
	reflect.TypeFor[job.QuoteSpec](): func(o *object) {
		o.set("oneOf", []any{requires("labour_rate"), requires("shop_rate")})
	},
}

func requires(names ...string) *object {
	o := newObject()
	o.set("required", names)
	return o
}
