package job

import (
	"encoding"
	"reflect"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// texts checks every text of the job that people enter: the one place for what no
// name may hold.
func (s Spec) texts() faults {
	var f faults
	walkTexts(reflect.ValueOf(s), "", &f)
	return f
}

var textType = reflect.TypeFor[encoding.TextMarshaler]()

func walkTexts(v reflect.Value, at unit.Path, f *faults) {
	if v.Type().Implements(textType) {
		return // it has a form of its own
	}
	switch v.Kind() {
	case reflect.String:
		f.add(at, checkText(v.String()))
	case reflect.Pointer:
		if !v.IsNil() {
			walkTexts(v.Elem(), at, f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walkTexts(v.Index(i), at.At(i), f)
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		for _, k := range keys {
			if err := checkText(k.String()); err != nil {
				f.add(at, err)
				continue
			}
			walkTexts(v.MapIndex(k), at.Dot(unit.Path(k.String())), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			t := v.Type().Field(i)
			name, _, _ := strings.Cut(t.Tag.Get("json"), ",")
			switch {
			case !t.IsExported():
			case t.Anonymous && name == "":
				walkTexts(v.Field(i), at, f)
			default:
				walkTexts(v.Field(i), at.Dot(unit.Path(name)), f)
			}
		}
	}
}

// mostText is the longest name or text.
const mostText = 1000

// checkText refuses what does not show, or shows what is not there: control
// characters, those that turn the direction of writing, and broken bytes.
func checkText(s string) error {
	switch {
	case !utf8.ValidString(s) || strings.ContainsRune(s, utf8.RuneError):
		return check.Refuse("", s, unit.ErrSyntax, "text in UTF-8")
	case strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }):
		return check.Refuse("", s, unit.ErrSyntax, "text without control characters")
	case utf8.RuneCountInString(s) > mostText:
		return check.Refuse("", s, unit.ErrRange, "at most 1000 characters")
	}
	return nil
}
