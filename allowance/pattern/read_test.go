package pattern

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// spot is a point of a file, in mm, y up.
type spot struct{ x, y float64 }

// fileLine is a line read back from a file.
type fileLine struct {
	layer  string
	closed bool
	points []spot
}

func shoelace(lines ...[]spot) float64 {
	var sum float64
	for _, l := range lines {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			sum += (a.x*b.y - a.y*b.x) / 2
		}
	}
	return sum
}

// dxfFile is what a reader of DXF R12 finds in a file.
type dxfFile struct {
	header map[string]string
	layers map[string]bool
	lines  []fileLine
	texts  []string
	labels []string
	in     string // the layer of the text at hand
}

// readDXF reads the parts of DXF R12 that patterns use, and refuses others.
func readDXF(t require.TestingT, file string) dxfFile {
	require.True(t, strings.HasSuffix(file, "\r\n"))
	rows := strings.Split(strings.TrimSuffix(file, "\r\n"), "\r\n")
	require.Zero(t, len(rows)%2, "pairs of code and value")
	d := dxfFile{header: map[string]string{}, layers: map[string]bool{}}
	var entity, section, variable string
	ended := false
	for i := 0; i < len(rows); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(rows[i]))
		require.NoError(t, err)
		value := rows[i+1]
		require.LessOrEqual(t, len(value), 255)
		for _, r := range value {
			require.True(t, r >= ' ' && r < 0x7f, "ASCII: %q", value)
		}
		require.False(t, ended, "after the end of the file")
		switch {
		case code == 0:
			entity, ended = value, value == "EOF"
			switch value {
			case "POLYLINE":
				d.lines = append(d.lines, fileLine{})
			case "VERTEX":
				l := &d.lines[len(d.lines)-1]
				l.points = append(l.points, spot{})
			case "TEXT", "SEQEND", "SECTION", "ENDSEC", "TABLE", "ENDTAB", "LTYPE", "LAYER", "STYLE", "EOF":
			default:
				require.Fail(t, "unknown entity", value)
			}
		case section == "ENTITIES" && entity != "SECTION":
			d.entity(t, entity, code, value)
		case code == 2 && entity == "SECTION":
			section = value
		case code == 2 && entity == "LAYER":
			d.layers[value] = true
		case code == 9:
			variable = value
		case section == "HEADER" && code != 2:
			d.header[variable] += value + " "
		}
	}
	require.True(t, ended, "the file ends with EOF")
	return d
}

func (d *dxfFile) entity(t require.TestingT, entity string, code int, value string) {
	var l *fileLine
	if len(d.lines) > 0 {
		l = &d.lines[len(d.lines)-1]
	}
	number := func() float64 {
		x, err := strconv.ParseFloat(value, 64)
		require.NoError(t, err)
		return x
	}
	switch {
	case code == 8:
		require.True(t, d.layers[value], "layer %s is in the table", value)
		switch entity {
		case "POLYLINE":
			l.layer = value
		case "TEXT":
			require.Contains(t, []string{"TEXT", "LABEL"}, value)
			d.in = value
		default:
			require.Equal(t, l.layer, value)
		}
	case code == 70 && entity == "POLYLINE":
		l.closed = value == "1"
	case code == 10 && entity == "VERTEX":
		l.points[len(l.points)-1].x = number()
	case code == 20 && entity == "VERTEX":
		l.points[len(l.points)-1].y = number()
	case code == 40 && entity == "TEXT":
		require.Positive(t, number())
	case code == 1:
		require.Equal(t, "TEXT", entity)
		if d.in == "LABEL" {
			d.labels = append(d.labels, value)
		} else {
			d.texts = append(d.texts, value)
		}
	}
}

// decodeDXF undoes the escapes of a text.
func decodeDXF(t require.TestingT, s string) string {
	var units []uint16
	for s != "" {
		switch {
		case strings.HasPrefix(s, "^"):
			require.True(t, strings.HasPrefix(s, "^ "), "a caret alone is a control character: %q", s)
			units, s = append(units, '^'), s[2:]
		case strings.HasPrefix(s, "%%"):
			require.True(t, strings.HasPrefix(s, "%%%"), "two per cent signs are a code: %q", s)
			units, s = append(units, '%'), s[3:]
		case strings.HasPrefix(s, `\U+`):
			x, err := strconv.ParseUint(s[3:7], 16, 16)
			require.NoError(t, err)
			units, s = append(units, uint16(x)), s[7:]
		default:
			require.False(t, strings.HasPrefix(s, `\M+`))
			units, s = append(units, uint16(s[0])), s[1:]
		}
	}
	return string(utf16.Decode(units))
}

// svgFile is what a reader finds in a drawing.
type svgFile struct {
	title         string
	width, height string
	groups        []string
	lines         []fileLine // layer is the class
	texts         []string
	labels        []string
	names         map[string]int // of elements
	attrs         map[string]bool
}

// readSVG reads a drawing; y is turned up.
func readSVG(t require.TestingT, file string) svgFile {
	dec := xml.NewDecoder(strings.NewReader(file))
	f := svgFile{names: map[string]int{}, attrs: map[string]bool{}}
	var in string
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return f
		}
		require.NoError(t, err)
		switch x := token.(type) {
		case xml.StartElement:
			in = x.Name.Local
			f.names[in]++
			a := map[string]string{}
			for _, k := range x.Attr {
				a[k.Name.Local], f.attrs[k.Name.Local] = k.Value, true
			}
			switch in {
			case "svg":
				f.width, f.height = a["width"], a["height"]
				require.Equal(t, "0 0 "+strings.TrimSuffix(f.width, "mm")+" "+strings.TrimSuffix(f.height, "mm"), a["viewBox"])
			case "g":
				f.groups = append(f.groups, a["id"])
			case "path":
				for _, part := range strings.Split(strings.TrimSuffix(a["d"], "Z"), "Z") {
					f.lines = append(f.lines, fileLine{a["class"], true, spots(t, strings.TrimPrefix(part, "M"))})
				}
			case "polyline":
				f.lines = append(f.lines, fileLine{a["class"], false, spots(t, a["points"])})
			case "text":
				if f.lettered() {
					f.labels = append(f.labels, "")
				} else {
					f.texts = append(f.texts, "")
				}
			}
		case xml.EndElement:
			in = ""
		case xml.CharData:
			switch in {
			case "title":
				f.title += string(x)
			case "text":
				if f.lettered() {
					f.labels[len(f.labels)-1] += string(x)
				} else {
					f.texts[len(f.texts)-1] += string(x)
				}
			}
		}
	}
}

// lettered tells whether the group at hand is that of the texts along edges.
func (f svgFile) lettered() bool { return len(f.groups) > 0 && f.groups[len(f.groups)-1] == "LABEL" }

func spots(t require.TestingT, s string) []spot {
	var out []spot
	for _, f := range strings.Fields(s) {
		x, y, found := strings.Cut(f, ",")
		require.True(t, found, f)
		a, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		b, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		out = append(out, spot{a, -b})
	}
	return out
}

// nm brings millimetres of a file back to whole nanometres.
func nm(mm float64) int64 { return int64(math.Round(mm * 1e6)) }
