package carry

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// styles are those of a workbook. What is equal is not added twice.
type styles struct {
	root                         *node
	formats                      *node
	fonts, fills, borders, looks *pool // the looks are those of cells
	codes                        map[int]string
	cached                       map[int]look
}

// pool is a list of fonts, fills, borders or looks, which cells refer to by their places.
type pool struct {
	list  *node
	items []*node
	known map[string]int
	text  func(*node) string // says all of one, so that two with the same text are one
}

func newPool(list *node, text func(*node) string) *pool {
	p := &pool{list, elements(list), map[string]int{}, text}
	for i, n := range p.items {
		key := text(n)
		if _, had := p.known[key]; !had {
			p.known[key] = i
		}
	}
	return p
}

// at gives one by its place, or nil.
func (p *pool) at(i int) *node {
	if i < 0 || i >= len(p.items) {
		return nil
	}
	return p.items[i]
}

// add gives the place of one that is equal, a new one if need be.
func (p *pool) add(n *node) int {
	key := p.text(n)
	i, ok := p.known[key]
	if !ok {
		i = len(p.items)
		p.known[key] = i
		p.items = append(p.items, n)
		p.list.add(n)
		count(p.list)
	}
	return i
}

// adopt gives the place of one of another workbook; that of text without any look is 0.
func (p *pool) adopt(n *node, usual bool) string {
	if n == nil || usual {
		return "0"
	}
	return strconv.Itoa(p.add(n.clone()))
}

// look is how a cell is shown, in a form that is the same however a program writes it.
type look struct {
	font, fill, border, alignment string
	format                        string
	xf                            *node
	fontID, fillID, borderID      int
}

func newStyles(root *node) *styles {
	s := &styles{root: root, codes: map[int]string{}, cached: map[int]look{}}
	list := func(name string) *node {
		n := root.child(name)
		if n == nil {
			n = element(name)
			place(root, n, stylesOrder)
		}
		return n
	}
	s.formats = root.child("numFmts")
	for _, n := range s.formats.all("numFmt") {
		if id, err := strconv.Atoi(n.attr("numFmtId")); err == nil {
			s.codes[id] = n.attr("formatCode")
		}
	}
	s.fonts, s.fills, s.borders = newPool(list("fonts"), fontText), newPool(list("fills"), fillText), newPool(list("borders"), borderText)
	s.looks = newPool(list("cellXfs"), s.styleText)
	return s
}

// elements gives the children that are elements.
func elements(n *node) []*node {
	var out []*node
	for _, k := range n.kids {
		if k.name != "" && k.name != "!" {
			out = append(out, k)
		}
	}
	return out
}

func nth(list *node, i int) *node {
	if e := elements(list); i >= 0 && i < len(e) {
		return e[i]
	}
	return nil
}

func number(n *node, name string) int {
	i, err := strconv.Atoi(n.attr(name))
	if err != nil {
		return 0
	}
	return i
}

// of gives the look of a style by its number, and that of no style for one that is not there.
func (s *styles) of(id int) look {
	if l, ok := s.cached[id]; ok {
		return l
	}
	xf := s.looks.at(id)
	if xf == nil {
		xf = element("xf")
	}
	l := look{xf: xf, fontID: number(xf, "fontId"), fillID: number(xf, "fillId"), borderID: number(xf, "borderId"), format: s.code(number(xf, "numFmtId")), alignment: alignmentText(xf.child("alignment"))}
	l.font, l.fill, l.border = fontText(s.fonts.at(l.fontID)), fillText(s.fills.at(l.fillID)), borderText(s.borders.at(l.borderID))
	if l.font == fontText(s.fonts.at(0)) {
		l.font = "" // that of the workbook
	}
	s.cached[id] = l
	return l
}

// builtin are the formats that have a number in every workbook.
var builtin = map[int]string{
	0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
	14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm",
	37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)", 39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;[Red](#,##0.00)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0", 48: "##0.0E+0", 49: "@",
}

// code gives a format by its number. One that only a program in another language knows has
// a name of its own.
func (s *styles) code(id int) string {
	if c, ok := s.codes[id]; ok {
		if strings.EqualFold(c, "General") {
			return "General"
		}
		return c
	}
	if c, ok := builtin[id]; ok {
		return c
	}
	return "\x00" + strconv.Itoa(id)
}

// number gives the number of a format, a new one if need be.
func (s *styles) number(code string) int {
	if id, own := strings.CutPrefix(code, "\x00"); own {
		n, err := strconv.Atoi(id)
		if err == nil {
			return n
		}
	}
	best, most := -1, 163
	for _, id := range slices.Sorted(maps.Keys(builtin)) {
		if _, other := s.codes[id]; builtin[id] == code && !other {
			return id
		}
	}
	for _, id := range slices.Sorted(maps.Keys(s.codes)) {
		if s.codes[id] == code && best < 0 {
			best = id
		}
		most = max(most, id)
	}
	if best >= 0 {
		return best
	}
	if s.formats == nil {
		s.formats = element("numFmts")
		place(s.root, s.formats, stylesOrder)
	}
	most++
	s.formats.add(element("numFmt", "numFmtId", strconv.Itoa(most), "formatCode", code))
	count(s.formats)
	s.codes[most] = code
	return most
}

func count(list *node) { list.set("count", strconv.Itoa(len(elements(list)))) }

// bring gives the number of a look of another workbook in this one.
func (s *styles) bring(from *styles, id int) int {
	if id == 0 {
		return 0
	}
	l := from.of(id)
	xf := element("xf", "numFmtId", strconv.Itoa(s.number(l.format)),
		"fontId", s.fonts.adopt(from.fonts.at(l.fontID), l.font == ""),
		"fillId", s.fills.adopt(from.fills.at(l.fillID), l.fill == ""),
		"borderId", s.borders.adopt(from.borders.at(l.borderID), l.border == ""), "xfId", "0")
	if a := l.xf.child("alignment"); a != nil {
		xf.add(a.clone())
	}
	if p := l.xf.child("protection"); p != nil {
		xf.add(p.clone())
	}
	return s.add(xf)
}

// parts says which parts of a look are the owner's.
type parts struct{ font, fill, border, alignment bool }

// mixed gives a look of which some parts are those of a style of this workbook, and all
// else, the lock included, of one of another workbook.
func (s *styles) mixed(own int, mine parts, format string, from *styles, id int) int {
	l, f := s.of(own), from.of(id)
	xf := l.xf.clone()
	xf.drop(func(n *node) bool { return n.name == "protection" || n.name == "alignment" && !mine.alignment })
	xf.set("numFmtId", strconv.Itoa(s.number(format)))
	if !mine.font {
		xf.set("fontId", s.fonts.adopt(from.fonts.at(f.fontID), f.font == ""))
	}
	if !mine.fill {
		xf.set("fillId", s.fills.adopt(from.fills.at(f.fillID), f.fill == ""))
	}
	if !mine.border {
		xf.set("borderId", s.borders.adopt(from.borders.at(f.borderID), f.border == ""))
	}
	xf.unset("quotePrefix", "pivotButton")
	if a := f.xf.child("alignment"); a != nil && !mine.alignment {
		xf.kids = append([]*node{a.clone()}, xf.kids...)
	}
	if p := f.xf.child("protection"); p != nil && id != 0 {
		place(xf, p.clone(), []string{"alignment", "protection", "extLst"})
	}
	return s.add(xf)
}

// given are the fonts, fills and borders that the program gives anywhere.
type given struct{ fonts, fills, borders map[string]bool }

func (s *styles) given() given {
	g := given{map[string]bool{}, map[string]bool{"": true}, map[string]bool{}}
	for i := range s.looks.items {
		l := s.of(i)
		g.fonts[l.font], g.fills[l.fill], g.borders[l.border] = true, true, true
	}
	return g
}

// owners tells which parts of a look are the owner's and not what the program gave a cell
// once. Shades and colours of the program say something, such as what may be changed: they
// are always as it wants them now. A cell that the program leaves empty keeps no look that
// the program gives others.
func (g given) owners(own, fresh look, empty bool) parts {
	coloured := func(font string) bool { return strings.Contains(font, "color=") } //nolint:misspell // the format's name
	p := parts{
		font:      own.font != fresh.font && !(g.fonts[own.font] && (coloured(own.font) || coloured(fresh.font))),
		fill:      own.fill != fresh.fill && !g.fills[own.fill],
		border:    own.border != fresh.border && (own.border == "" || !g.borders[own.border]),
		alignment: own.alignment != fresh.alignment,
	}
	if empty && g.fonts[own.font] && g.fills[own.fill] && (g.borders[own.border]) {
		return parts{}
	}
	return p
}

// add gives the number of a style, a new one if need be.
func (s *styles) add(xf *node) int {
	xf.name = "xf"
	for _, a := range []string{"applyNumberFormat", "applyFont", "applyFill", "applyBorder", "applyAlignment", "applyProtection"} {
		xf.set(a, "1")
	}
	return s.looks.add(xf)
}

// styleText says all of a style, so that two with the same text are one.
func (s *styles) styleText(xf *node) string {
	p := xf.child("protection")
	lock := truth(p, "locked", true)
	hidden := truth(p, "hidden", false)
	return strings.Join([]string{s.code(number(xf, "numFmtId")), xf.attr("fontId"), xf.attr("fillId"), xf.attr("borderId"), xf.attr("xfId"), alignmentText(xf.child("alignment")), strconv.FormatBool(lock), strconv.FormatBool(hidden), xf.attr("quotePrefix"), xf.attr("pivotButton")}, "|")
}

// truth reads yes or no.
func truth(n *node, name string, otherwise bool) bool {
	if n == nil {
		return otherwise
	}
	switch strings.ToLower(n.attr(name)) {
	case "1", "true", "on":
		return true
	case "0", "false", "off":
		return false
	}
	return otherwise
}

// twins are fonts of the same widths that programs put in the place of each other.
var twins = map[string]string{"liberation sans": "arial", "liberation serif": "times new roman", "liberation mono": "courier new", "carlito": "calibri", "caladea": "cambria"}

func fontText(n *node) string {
	if n == nil {
		return ""
	}
	var out []string
	for _, k := range elements(n) {
		v := k.attr("val")
		switch k.name {
		case "name":
			if v = strings.ToLower(v); twins[v] != "" {
				v = twins[v]
			}
		case "sz":
			if x, err := strconv.ParseFloat(v, 64); err == nil {
				v = strconv.FormatFloat(x, 'f', -1, 64)
			}
		case "b", "i", "strike", "outline", "shadow":
			if !truth(k, "val", true) {
				continue
			}
			v = ""
		case "u":
			if v == "none" {
				continue
			}
			if v == "single" {
				v = ""
			}
		case "vertAlign":
			if v == "baseline" {
				continue
			}
		case "color": //nolint:misspell // the format's name
			if v = shade(k); v == "" {
				continue
			}
		default: // family, charset, scheme: they follow from the name
			continue
		}
		out = append(out, k.name+"="+v)
	}
	slices.Sort(out)
	return strings.Join(out, ";")
}

// shade names a colour; nothing stands for that of text, which is black.
func shade(n *node) string {
	if n == nil || truth(n, "auto", false) {
		return ""
	}
	if rgb := strings.ToUpper(n.attr("rgb")); rgb != "" {
		if len(rgb) == 8 {
			rgb = rgb[2:]
		}
		if rgb == "000000" {
			return ""
		}
		return rgb
	}
	if i := n.attr("indexed"); i == "64" || i == "8" || i == "0" {
		return ""
	} else if i != "" {
		return "indexed " + i
	}
	if t := n.attr("theme"); t != "" {
		if tint := strings.TrimRight(strings.TrimRight(n.attr("tint"), "0"), "."); tint != "" {
			return "theme " + t + " " + tint
		}
		if t == "1" {
			return ""
		}
		return "theme " + t
	}
	return ""
}

func fillText(n *node) string {
	p := n.child("patternFill")
	if p == nil {
		if g := n.child("gradientFill"); g != nil {
			return string(g.bytes())
		}
		return ""
	}
	switch kind := p.attr("patternType"); kind {
	case "", "none":
		return ""
	case "solid":
		return "solid " + shade(p.child("fgColor"))
	default:
		return kind + " " + shade(p.child("fgColor")) + " on " + shade(p.child("bgColor"))
	}
}

func borderText(n *node) string {
	if n == nil {
		return ""
	}
	var out []string
	for _, k := range elements(n) {
		kind := k.attr("style")
		if kind == "" || kind == "none" {
			continue
		}
		side := k.name
		switch side {
		case "start":
			side = "left"
		case "end":
			side = "right"
		case "diagonal":
			side += n.attr("diagonalUp") + n.attr("diagonalDown")
		}
		out = append(out, side+" "+kind+" "+shade(k.child("color"))) //nolint:misspell // the format's name
	}
	slices.Sort(out)
	return strings.Join(out, ";")
}

func alignmentText(n *node) string {
	if n == nil {
		return ""
	}
	var out []string
	for _, a := range n.attrs {
		switch {
		case a.name == "wrapText" || a.name == "shrinkToFit" || a.name == "justifyLastLine":
			if !truth(n, a.name, false) {
				continue
			}
			a.value = "1"
		case a.name == "horizontal" && a.value == "general", a.name == "vertical" && a.value == "bottom", a.value == "0":
			continue
		}
		out = append(out, a.name+"="+a.value)
	}
	slices.Sort(out)
	return strings.Join(out, ";")
}
