package main

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// points are a size on paper in hundredths of a point, of 1/72 in.
type points int

// css writes a size for a style.
func (p points) css() string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(float64(p)/100, 'f', 2, 64), "0"), ".")
}

const point points = 100

// Type on labels.
const (
	leastType = 6 * point
	leastName = 7 * point // while there are details
	lineOver  = 122       // height of a line, in hundredths of its type
)

// pointsIn gives how many points a length holds, rounded down.
func pointsIn(l unit.Length) points { return points(l * 72 * unit.Length(point) / unit.Inch) }

// word is text that is not divided, as it is set.
type word struct {
	Text string
	Size points
	Bold bool
	With bool // it stays on the line of the next one
}

// setLine is a line of words.
type setLine struct {
	Words []word
	High  points
}

// typeface tells how wide text is. The page is set in whatever face like it the reader
// has, so words count as somewhat wider than they are in the one measured; a sign that
// it lacks counts as the widest there is.
type typeface struct {
	regular, bold *sfnt.Font
	buf           sfnt.Buffer
}

func newTypeface() (*typeface, error) {
	regular, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	bold, err := sfnt.Parse(gobold.TTF)
	return &typeface{regular: regular, bold: bold}, err
}

const (
	emUnits   = 1000
	widestEm  = 1400 // of a sign that is not known, in 1/1000 em
	widerThan = 105  // in hundredths
)

// width of a word.
func (t *typeface) width(w word) points {
	f := t.regular
	if w.Bold {
		f = t.bold
	}
	sum := 0
	for _, r := range w.Text {
		em := widestEm
		if g, err := f.GlyphIndex(&t.buf, r); err == nil && g != 0 {
			if a, err := f.GlyphAdvance(&t.buf, g, fixed.I(emUnits), font.HintingNone); err == nil {
				em = a.Ceil()
			}
		}
		sum += em
	}
	return points((sum*int(w.Size)*widerThan + emUnits*100 - 1) / (emUnits * 100))
}

// words divides a text at its spaces. Spaces that do not break are no word by themselves.
func words(text string, size points, bold bool) []word {
	var out []word
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) && string(r) != noBreak }) {
		if strings.Trim(f, noBreak) != "" {
			out = append(out, word{Text: f, Size: size, Bold: bold})
		}
	}
	return out
}

// flow puts words on lines of a width, the first of which may be shorter. What is wider
// than a line is divided.
func (t *typeface) flow(ws []word, first, wide points) []setLine {
	var out []setLine
	var line setLine
	at, room := points(0), first
	end := func() {
		if len(line.Words) > 0 {
			out = append(out, line)
			line, at, room = setLine{}, 0, wide
		}
	}
	put := func(w word, width points) {
		line.Words = append(line.Words, w)
		line.High = max(line.High, (w.Size*lineOver+99)/100)
		at += width
	}
	for i, w := range ws {
		width, space, more := t.width(w), points(0), points(0)
		if w.With && i+1 < len(ws) {
			more = t.widthOf([]word{w, ws[i+1]}) - width
		}
		if len(line.Words) > 0 {
			space = t.width(word{Text: " ", Size: w.Size, Bold: w.Bold})
		}
		if at+space+width+more <= room {
			put(w, space+width)
			continue
		}
		end()
		for width > room {
			head, tail := t.divide(w, room)
			put(head, t.width(head))
			end()
			w, width = tail, t.width(tail)
		}
		put(w, width)
	}
	end()
	return out
}

// divide cuts a word where a line ends; the head has a sign at least.
func (t *typeface) divide(w word, room points) (head, tail word) {
	runes := []rune(w.Text)
	n := 1
	for n+1 < len(runes) && t.width(word{Text: string(runes[:n+1]), Size: w.Size, Bold: w.Bold}) <= room {
		n++
	}
	return word{Text: string(runes[:n]), Size: w.Size, Bold: w.Bold}, word{Text: string(runes[n:]), Size: w.Size, Bold: w.Bold}
}

// clip leaves lines off at the end and says so by an ellipsis.
func (t *typeface) clip(lines []setLine, most int, wide points) []setLine {
	if len(lines) <= most {
		return lines
	}
	lines = slices.Clone(lines[:most])
	if most == 0 {
		return lines
	}
	last := slices.Clone(lines[most-1].Words)
	w := last[len(last)-1]
	for {
		w.Text += "…"
		last[len(last)-1] = w
		if t.widthOf(last) <= wide {
			break
		}
		runes := []rune(strings.TrimSuffix(w.Text, "…"))
		if len(runes) > 1 {
			w.Text = string(runes[:len(runes)-1])
			continue
		}
		if len(last) == 1 {
			break
		}
		last = last[:len(last)-1]
		w = last[len(last)-1]
	}
	lines[most-1].Words = last
	return lines
}

func (t *typeface) widthOf(ws []word) points {
	sum := points(0)
	for i, w := range ws {
		if i > 0 {
			sum += t.width(word{Text: " ", Size: w.Size, Bold: w.Bold})
		}
		sum += t.width(w)
	}
	return sum
}

// labelForm is how much is said on a label.
type labelForm struct {
	details, name           points // type
	apart                   bool   // goods, way and size on lines of their own
	seams, letters          bool   // with mates, or letters alone
	size, goods, way, piece bool
}

// labelForms go from the fullest to the smallest: details shrink, then the name, before
// anything is left out. Number, count, hand and name stay on all.
func labelForms(details, name points) []labelForm {
	full := labelForm{name: name, seams: true, size: true, goods: true, way: true, piece: true}
	var out []labelForm
	for d := details; d >= leastType; d -= point / 2 {
		full.details = d
		apart := full
		apart.apart = true
		out = append(out, apart, full)
	}
	for full.name > leastName {
		full.name = max(full.name-point, leastName)
		out = append(out, full)
	}
	less := full
	for _, leave := range []func(){
		func() { less.seams, less.letters = false, true },
		func() { less.size = false },
		func() { less.goods = false },
		func() { less.letters = false },
		func() { less.way = false },
		func() { less.piece = false },
	} {
		leave()
		out = append(out, less)
	}
	return out
}

// fitter sets labels of one size.
type fitter struct {
	*typeface
	wide, high        points // inside the margin of a label
	head, name, small points // largest type of number, name and details
}

// between keeps a size of type within limits, in whole half points.
func between(p, lo, hi points) points { return min(max(p, lo), hi) / (point / 2) * (point / 2) }

func newFitter(g labelGrid, pad unit.Length) (*fitter, error) {
	t, err := newTypeface()
	f := &fitter{typeface: t, wide: pointsIn(g.label.across - 2*pad), high: pointsIn(g.label.down - 2*pad)}
	f.head = between(f.high*28/100, 8*point, 32*point)
	f.name = between(f.high*12/100, leastName, 16*point)
	f.small = between(f.high*9/100, leastType, 12*point)
	return f, err
}

// arrowWide is the width of the arrow beside a line, with the space before it.
func arrowWide(high points) points { return high*6/10 + 2*point }

// set gives the lines of a label, of which the first has the arrow beside it.
func (f *fitter) set(l pieceLabel) []setLine {
	head := f.heading(l)
	left := f.high
	for _, line := range head {
		left -= line.High
	}
	for _, form := range labelForms(f.small, f.name) {
		if lines := f.body(l, form); heightOf(lines) <= left {
			return append(head, lines...)
		}
	}
	// The name alone, smaller and at last cut short.
	var lines []setLine
	for size := f.name; size >= leastType; size -= point / 2 {
		if lines = f.flow(words(l.Part, size, true), f.wide, f.wide); heightOf(lines) <= left {
			return append(head, lines...)
		}
	}
	short := words(l.Part[strings.LastIndex(l.Part, ", ")+1:], leastType, true) // of a made-up part
	if len(short) == 0 {
		short = words(l.Part, leastType, true)
	}
	lines = f.flow(short, f.wide, f.wide)
	most := int(left / ((leastType*lineOver + 99) / 100))
	return append(head, f.clip(lines, most, f.wide)...)
}

func heightOf(lines []setLine) points {
	sum := points(0)
	for _, l := range lines {
		sum += l.High
	}
	return sum
}

// heading sets number, count and hand: on one line as large as it goes, else on two.
func (f *fitter) heading(l pieceLabel) []setLine {
	number := strconv.Itoa(l.Number)
	count := strconv.Itoa(l.Copy) + " of " + strconv.Itoa(l.Of)
	if l.Segment != "" {
		count += ", " + l.Segment
	}
	hand := ""
	if l.Hand != allowance.Either {
		hand = l.Hand.String()
	}
	set := func(size, beside points) []setLine {
		ws := []word{{Text: number, Size: size, Bold: true}, {Text: noBreakAll(count), Size: beside}}
		if hand != "" {
			ws = append(ws, word{Text: hand, Size: beside, Bold: true})
		}
		arrow := arrowWide((size*lineOver + 99) / 100)
		return f.flow(ws, f.wide-arrow, f.wide)
	}
	size := f.head
	for ; size >= 8*point; size -= point {
		if lines := set(size, between(size*55/100, leastType, size)); len(lines) == 1 {
			return lines
		}
	}
	return set(8*point, leastType)
}

func noBreakAll(s string) string { return strings.ReplaceAll(s, " ", noBreak) }

// body sets what stands below the number.
func (f *fitter) body(l pieceLabel, form labelForm) []setLine {
	out := f.flow(words(l.Part, form.name, true), f.wide, f.wide)
	if form.piece {
		out = append(out, f.flow(words(l.Piece, between(form.name-point, leastType, form.name), false), f.wide, f.wide)...)
	}
	var facts [][]word
	add := func(said bool, text string) {
		if said && text != "" {
			facts = append(facts, words(text, form.details, false))
		}
	}
	add(form.goods, l.Goods)
	way := l.Way
	if l.Mirrored {
		way += ", mirrored"
	}
	add(form.way, way)
	add(form.size, noBreakAll("cut "+l.Size))
	if !form.apart {
		facts = [][]word{dotted(facts)}
	}
	for _, ws := range facts {
		out = append(out, f.flow(ws, f.wide, f.wide)...)
	}
	var seams [][]word
	for _, s := range l.Seams {
		switch {
		case form.seams && s.Mates != "":
			seams = append(seams, append([]word{{Text: s.Letter + ":", Size: form.details, Bold: true, With: true}}, words(s.Mates, form.details, false)...))
		case form.seams || form.letters:
			seams = append(seams, []word{{Text: s.Letter, Size: form.details, Bold: true}})
		}
	}
	return append(out, f.flow(dotted(seams), f.wide, f.wide)...)
}

// dotted puts a dot after each of several things but the last.
func dotted(of [][]word) []word {
	var out []word
	for i, ws := range of {
		ws = slices.Clone(ws)
		if i < len(of)-1 && len(ws) > 0 {
			ws[len(ws)-1].Text += " ·"
		}
		out = append(out, ws...)
	}
	return out
}
