package pattern

import (
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// layers are those of a DXF file: that of the kinds in their order, of texts, and
// the empty layer 0, which readers expect. Colour numbers are told apart on black
// and on white.
var layers = [...]struct {
	name, line string
	colour     int
}{
	{"CUT", "CONTINUOUS", 7}, {"TRIM", "DASHDOT", 3}, {"SEAM", "DASHED", 5}, {"NOTCH", "CONTINUOUS", 1},
	{"MARK", "CONTINUOUS", 6}, {"GRAIN", "CONTINUOUS", 2}, {"FOLD", "DASHDOT", 4}, {textLayer, "CONTINUOUS", 7}, {labelLayer, "CONTINUOUS", 4}, {"0", "CONTINUOUS", 7},
}

// DXF draws the piece full size as ASCII DXF of release 12 (AC1009) in
// millimetres, its lower left corner at the origin: closed POLYLINE entities for
// the cut, trim and seam lines, open ones for the rest, TEXT on a layer of its
// own. The header states the units ($INSUNITS 4, $MEASUREMENT 1) for readers
// that know the variables; release 12 itself has none.
//
// Characters beyond ASCII are written as the escape \U+XXXX of later releases,
// in two halves beyond the first 65536. Control characters become spaces. A
// text of more than 240 bytes goes on in the next line.
func (p Pattern) DXF(u Units) (string, error) {
	if err := p.ready(u); err != nil {
		return "", err
	}
	b := p.Bounds()
	var d dxf
	d.header(shape.Point{X: b.High.X - b.Low.X, Y: b.High.Y - b.Low.Y})
	d.tables()
	d.section("ENTITIES")
	for _, l := range p.Lines() {
		d.polyline(l, b.Low)
	}
	letters := p.Lettering()
	d.lettering(letters, b)
	d.texts(p, b, letters, u)
	d.put(0, "ENDSEC")
	d.put(0, "EOF")
	return d.b.String(), nil
}

// dxf writes group codes and values, the two lines that make up every entry of
// the format.
type dxf struct{ b strings.Builder }

func (d *dxf) put(code int, value string) {
	c := strconv.Itoa(code)
	d.b.WriteString("   "[min(len(c), 3):] + c + "\r\n" + value + "\r\n")
}

func (d *dxf) section(name string) {
	d.put(0, "SECTION")
	d.put(2, name)
}

// length writes a length in millimetres, to the nanometre.
func (d *dxf) length(code int, l unit.Length) {
	d.put(code, strconv.FormatFloat(l.Millimetres(), 'f', 6, 64))
}

// point writes a point; its group codes begin with the one given.
func (d *dxf) point(code int, p shape.Point) {
	d.length(code, p.X)
	d.length(code+10, p.Y)
	d.length(code+20, 0)
}

func (d *dxf) header(size shape.Point) {
	d.put(999, "millimetres; x across the goods, y along the grain")
	d.section("HEADER")
	for _, v := range []struct {
		name, value string
		code        int
	}{{"$ACADVER", "AC1009", 1}, {"$INSUNITS", "4", 70}, {"$MEASUREMENT", "1", 70}, {"$LUNITS", "2", 70}, {"$LUPREC", "4", 70}} {
		d.put(9, v.name)
		d.put(v.code, v.value)
	}
	d.put(9, "$INSBASE")
	d.point(10, shape.Point{})
	d.put(9, "$EXTMIN")
	d.point(10, shape.Point{})
	d.put(9, "$EXTMAX")
	d.point(10, size)
	d.put(9, "$LIMMIN")
	d.length(10, 0)
	d.length(20, 0)
	d.put(9, "$LIMMAX")
	d.length(10, size.X)
	d.length(20, size.Y)
	d.put(0, "ENDSEC")
}

// tables writes the line types, the layers and the text style.
func (d *dxf) tables() {
	d.section("TABLES")
	d.table("LTYPE", 3)
	d.lineType("CONTINUOUS", "whole line", nil)
	_, dash := SeamLine.Pen()
	d.lineType("DASHED", "seam", dash)
	_, dash = TrimLine.Pen()
	d.lineType("DASHDOT", "trim and fold", dash)
	d.put(0, "ENDTAB")
	d.table("LAYER", len(layers))
	for _, l := range layers {
		d.put(0, "LAYER")
		d.put(2, l.name)
		d.put(70, "0")
		d.put(62, strconv.Itoa(l.colour))
		d.put(6, l.line)
	}
	d.put(0, "ENDTAB")
	d.table("STYLE", 1)
	d.put(0, "STYLE")
	d.put(2, "STANDARD")
	d.put(70, "0")
	for _, v := range []struct {
		code  int
		value string
	}{{40, "0.0"}, {41, "1.0"}, {50, "0.0"}, {71, "0"}, {42, "8.0"}, {3, "txt"}, {4, ""}} {
		d.put(v.code, v.value)
	}
	d.put(0, "ENDTAB")
	d.put(0, "ENDSEC")
	d.section("BLOCKS")
	d.put(0, "ENDSEC")
}

func (d *dxf) table(name string, entries int) {
	d.put(0, "TABLE")
	d.put(2, name)
	d.put(70, strconv.Itoa(entries))
}

// lineType writes dash and gap in turn; gaps are below zero in the format.
func (d *dxf) lineType(name, about string, dash []unit.Length) {
	d.put(0, "LTYPE")
	d.put(2, name)
	d.put(70, "0")
	d.put(3, about)
	d.put(72, "65")
	d.put(73, strconv.Itoa(len(dash)))
	var sum unit.Length
	for _, x := range dash {
		sum += x
	}
	d.length(40, sum)
	for i, x := range dash {
		if i%2 == 1 {
			x = -x
		}
		d.length(49, x)
	}
}

func (d *dxf) polyline(l Line, origin shape.Point) {
	name := layer(l.Kind)
	d.put(0, "POLYLINE")
	d.put(8, name)
	d.put(66, "1")
	d.point(10, shape.Point{})
	closed := "0"
	if l.Closed {
		closed = "1"
	}
	d.put(70, closed)
	for _, q := range l.Points {
		d.put(0, "VERTEX")
		d.put(8, name)
		d.point(10, shape.Point{X: q.X - origin.X, Y: q.Y - origin.Y})
	}
	d.put(0, "SEQEND")
	d.put(8, name)
}

// lettering writes what stands along the edges. A text of several parts, such as
// one beyond 240 bytes, is written in one place as far as the first goes.
func (d *dxf) lettering(letters []Lettering, b Box) {
	for _, l := range letters {
		at := shape.Point{X: l.At.X - b.Low.X, Y: l.At.Y - b.Low.Y}
		d.put(0, "TEXT")
		d.put(8, labelLayer)
		d.point(10, at)
		d.length(40, l.Size)
		d.put(1, dxfText(l.Text)[0])
		d.put(50, strconv.FormatFloat(float64(l.Turn), 'f', 3, 64))
		d.put(72, "1") // centred across
		d.point(11, at)
		d.put(73, "2") // and upright
	}
}

// texts writes what is on the piece, line under line about the place that has
// the most room, each centred on it.
func (d *dxf) texts(p Pattern, b Box, letters []Lettering, u Units) {
	place, room := p.Room(b, letters...)
	texts := p.Texts(u)
	high := typeSize(texts, room)
	var lines []string
	for _, t := range texts {
		lines = append(lines, dxfText(t)...)
	}
	nm := func(mm float64) unit.Length { return unit.Length(mm * float64(unit.Millimetre)) }
	for i, t := range lines {
		y := place.Y - b.Low.Y - nm(high*(leading*(float64(i)-float64(len(lines)-1)/2)))
		x := place.X - b.Low.X
		d.put(0, "TEXT")
		d.put(8, textLayer)
		d.point(10, shape.Point{X: x - nm(svg.TextWidth(t, high)/2), Y: y - nm(high/2)})
		d.length(40, nm(high))
		d.put(1, t)
		d.put(72, "1") // centred across
		d.point(11, shape.Point{X: x, Y: y})
		d.put(73, "2") // and upright
	}
}

// dxfText writes a text as DXF may hold it: printing ASCII alone, with what the
// format gives a meaning (caret, two per cent signs, its own escape) escaped,
// in parts of at most 240 bytes.
func dxfText(s string) []string {
	var parts []string
	var b strings.Builder
	var last rune
	for i, r := range s {
		var t string
		switch {
		case r < ' ' || r >= 0x7f && r < 0xa0:
			t = " "
		case r == '^':
			t = "^ "
		case r == '%' && (last == '%' || strings.HasPrefix(s[i+1:], "%")):
			t = "%%%"
		case r == '\\' && (strings.HasPrefix(s[i+1:], "U+") || strings.HasPrefix(s[i+1:], "M+")):
			t = dxfEscape('\\')
		case r < 0x7f:
			t = string(r)
		case r > 0xffff:
			hi, lo := utf16.EncodeRune(r)
			t = dxfEscape(hi) + dxfEscape(lo)
		default:
			t = dxfEscape(r)
		}
		last = r
		if b.Len()+len(t) > 240 {
			parts = append(parts, b.String())
			b.Reset()
		}
		b.WriteString(t)
	}
	return append(parts, b.String())
}

func dxfEscape(r rune) string {
	h := strings.ToUpper(strconv.FormatInt(int64(r), 16))
	return `\U+` + "0000"[len(h):] + h
}
