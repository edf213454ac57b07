package main

import (
	"bytes"
	"context"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/kind"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

//go:embed card.html.tmpl
var cardTemplate string

// printKinds lists the kinds of furniture.
func printKinds(w io.Writer) error {
	s := &sheet{w: &errWriter{w: w}}
	s.line("Kinds of furniture; -from NAME prints the card of one:")
	for _, k := range kind.All() {
		s.wrap(k.Name+": "+k.About, 100)
	}
	return s.w.(*errWriter).err //nolint:errcheck,forcetypeassert // as made above
}

// What the template of the card shows.
type (
	cardView struct {
		Style                       template.CSS
		Letterhead                  []string
		Particulars                 []fact
		Known                       bool   // who the customer is
		Hands                       string // whose left and right they are
		Kind, About, Unit, Pointer  string
		Measures                    []measureView
		Roles                       []roleView
		Builds                      []string
		Tasks, Photos, Cautions     []string
		Panels                      []cardPanel
		File                        string // what to fill in of a job file
		Frame, Filling, Old, Access []string
	}
	measureView struct{ Letter, Name, Tape, Usual string }
	roleView    struct{ Name, About string }
	cardPanel   struct {
		Name, Count string
		Picture     template.HTML
	}
)

// What to look at whatever the kind, from memory.
var (
	frameLines   = []string{"joints tight or loose, which", "cracks, worm, old repairs", "wood or metal, thickness of the rails", "feet, castors, glides"}
	springLines  = []string{"coil, zigzag, webbing, rubber or none", "sound or sagging, where", "what lies on them", "thickness and firmness of the old foam"}
	fillingLines = []string{"foam, feathers or fibre", "thickness and firmness of the old filling", "wrapped or not", "goes back in, or new"}
	labelLines   = []string{"what the label says, word for word: leave it on", "fire label or certificate", "maker's number, year"}
	accessLines  = []string{"narrowest door, width and height", "stairs: width, turns, floor", "lift: door and depth", "parking, who is there and when"}
)

// printCard writes the measuring card of a kind as a page to print or to fill in
// on a phone, under the head of a job or a shop.
func printCard(ctx context.Context, w io.Writer, name string, head job.WorkOrder, metric bool) error {
	k, err := kind.Named(name)
	if err != nil {
		return err
	}
	v, err := (&sheet{metric: metric}).card(ctx, k)
	if err != nil {
		return err
	}
	v.Letterhead, v.Particulars, v.Known, v.Hands = letterhead(head.Shop), particulars(head), head.Customer != nil, whoseHands(head)
	t, err := template.New("card").Parse(cardTemplate)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, v); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
	return err
}

// card gathers what the card of a kind shows.
func (s *sheet) card(ctx context.Context, k kind.Kind) (cardView, error) {
	v := cardView{Style: template.CSS(pageStyle), Kind: k.Name, //nolint:gosec // our own style sheet
		About: k.About, Unit: "in", Pointer: caution.Pointer, Tasks: k.Tasks, Photos: k.Photos, Cautions: k.Cautions,
		Frame: frameLines, Filling: springLines, Old: labelLines, Access: accessLines, File: cardFile(k)}
	if k.Loose {
		v.Frame, v.Filling = nil, fillingLines
	}
	if s.metric {
		v.Unit = "mm"
	}
	likely, err := orderOfKind(ctx, k, k.Likely())
	if err != nil {
		return v, err
	}
	sizes, err := k.Sizes(k.Likely())
	if err != nil {
		return v, err
	}
	marks := map[string]*sideLetters{}
	for i, m := range k.Measures {
		row := measureView{Letter: strings.ToUpper(letter(i)), Name: m.Name, Tape: m.Tape}
		if m.Usual != "" {
			row.Usual = m.Usual // a length in inches, or a formula
			if l, err := unit.ParseLength(m.Usual); err == nil && s.metric {
				row.Usual = l.Decimal(unit.Millimetre, 1, unit.Nearest)
			}
			row.Usual += " (" + m.Status.String() + ")"
		}
		v.Measures = append(v.Measures, row)
		markSides(ctx, marks, row.Letter, k, m, sizes, likely)
	}
	for _, r := range k.Goods {
		about := r.About
		switch {
		case r.As != "":
			about += "; as the " + r.As + " when not given"
		case r.Optional:
			about += "; may be left out"
		}
		v.Roles = append(v.Roles, roleView{r.Name, about})
	}
	for _, b := range k.Builds {
		v.Builds = append(v.Builds, b.Name)
	}
	v.Panels, err = cardPanels(likely, marks)
	return v, err
}

// sideLetters are the measures that a panel has across and along, and those that
// change its shape within.
type sideLetters struct{ across, along, within []string }

// markSides finds the panels that change when a measure does, the others left as
// they are; where none does or the cover would not go together then, with all that
// follows from the measure.
func markSides(ctx context.Context, marks map[string]*sideLetters, letter string, k kind.Kind, m kind.Measure, sizes map[string]unit.Length, likely job.WorkOrder) {
	step := unit.Inch / 4
	if sizes[m.Name]+step > m.Most {
		step = -step
	}
	alone, follows := maps.Clone(sizes), k.Likely()
	alone[m.Name] += step
	follows[m.Name] = alone[m.Name]
	for _, measures := range []map[string]unit.Length{alone, follows} {
		other, err := orderOfKind(ctx, k, measures)
		if err == nil && mark(marks, letter, likely, other) {
			return
		}
	}
}

// mark notes the letter of a measure at the panels that it changes, if any.
func mark(marks map[string]*sideLetters, letter string, likely, other job.WorkOrder) bool {
	found := false
	for _, c := range other.Cuts {
		i := slices.IndexFunc(likely.Cuts, func(b job.Cut) bool { return b.Part == c.Part })
		if i < 0 {
			continue
		}
		if marks[c.Part] == nil {
			marks[c.Part] = &sideLetters{}
		}
		b, m := likely.Cuts[i], marks[c.Part]
		switch {
		case b.Finished.Width != c.Finished.Width:
			m.across = append(m.across, letter)
		case b.Finished.Length != c.Finished.Length:
			m.along = append(m.along, letter)
		case !b.Outline.IsZero() && b.Outline.Area() != c.Outline.Area():
			m.within = append(m.within, letter)
		default:
			continue
		}
		found = true
	}
	return found
}

// Sizes on the drawing of a card, in 1/96 in.
const (
	cardWidest = 150.0 // of the widest panel
	cardScale  = 6.0   // of an inch at most
	cardType   = 12.0
)

// fitted are the parts of made-up parts that follow from others.
var fitted = regexp.MustCompile(`, (zip|boxing|skirt|underlay|bottom plate|welt)`)

// copyOf leaves the number off the name of a copy.
func copyOf(part string) string { return strings.TrimRight(part, " 0123456789") }

// cardPanels draws the panels of a kind to one scale, each with the letters of its
// measures below, at its left and within. What is made up to fit is left out.
func cardPanels(o job.WorkOrder, marks map[string]*sideLetters) ([]cardPanel, error) {
	inches := func(l unit.Length) float64 { return float64(l) / float64(unit.Inch) }
	var shown []job.Cut
	scale := cardScale
	for _, c := range o.Cuts {
		w, h := inches(c.Finished.Width), inches(c.Finished.Length)
		if c.Outline.IsZero() || w > 12*h || h > 12*w || fitted.MatchString(c.Part) {
			continue
		}
		if slices.ContainsFunc(shown, func(b job.Cut) bool { return copyOf(b.Part) == copyOf(c.Part) && b.Finished == c.Finished }) {
			continue // a copy with other neighbours
		}
		shown = append(shown, c)
		scale = min(scale, cardWidest/max(w, h))
	}
	var out []cardPanel
	for _, c := range shown {
		points, err := c.Outline.Flatten(unit.Inch / 32)
		if err != nil {
			return nil, err
		}
		low, high := c.Outline.Bounds()
		m := marks[c.Part]
		if m == nil {
			m = &sideLetters{}
		}
		left := cardType*0.8*float64(len(strings.Join(m.along, " "))) + 6
		wide, tall := inches(high.X-low.X)*scale, inches(high.Y-low.Y)*scale
		below := cardType*0.8*float64(len(strings.Join(m.across, " "))) + 2
		d := svg.New(left+max(wide, below)+2, tall+cardType+6, copyOf(c.Part)+", with the letters of its measures")
		var outline []svg.Point
		for _, p := range points {
			outline = append(outline, svg.Point{X: left + inches(p.X-low.X)*scale, Y: 1 + inches(high.Y-p.Y)*scale})
		}
		d.Polygon(outline, svg.Attrs("fill", "#f4f4f4", "stroke", "#000", "stroke-width", "1.2")...)
		d.Write(svg.Point{X: left + max(wide, below)/2, Y: tall + cardType + 2}, cardType, "middle", strings.Join(m.across, " "))
		d.Write(svg.Point{X: left - 4, Y: tall/2 + cardType/2}, cardType, "end", strings.Join(m.along, " "))
		if len(m.within) > 0 {
			d.Write(svg.Point{X: left + 4, Y: tall - 4}, cardType, "start", strings.Join(m.within, " "))
		}
		count := ""
		if c.Pair {
			count = "pair"
		}
		out = append(out, cardPanel{copyOf(c.Part), count, drawing(d.String())})
	}
	return out, nil
}

// orderOfKind works out one piece of a kind in goods without a width, so that no
// layout is made.
func orderOfKind(ctx context.Context, k kind.Kind, measures map[string]unit.Length) (job.WorkOrder, error) {
	price, err := cost.ParsePrice[unit.Area]("1.00 USD/sq ft")
	if err != nil {
		return job.WorkOrder{}, err
	}
	hour, err := cost.ParsePrice[unit.Duration]("1.00 USD/h")
	if err != nil {
		return job.WorkOrder{}, err
	}
	still := unit.Ratio(0)
	goods := func(id string) job.GoodsSpec {
		return job.GoodsSpec{ID: id, Kind: job.HideGoods, Name: id, Material: thread.Woven, Price: job.GoodsPrice{PerArea: price}, Stretch: &still,
			HideArea: 50 * unit.SquareFoot, Skin: material.WholeHide, BuyBy: job.BuyByRule, LongestStrip: 150 * unit.Inch, TwoFaced: id == "lining"}
	}
	p := job.Furniture{Name: k.Name}
	p.From, p.Goods, p.Measures, p.GoodsFor = k.Name, "cover", measures, map[string]string{}
	for _, r := range k.Goods {
		if r.As == "" {
			p.GoodsFor[r.Name] = "lining"
		}
	}
	return job.Build(ctx, job.Spec{Schema: job.SpecSchema, Name: k.Name, Currency: cost.USD, Goods: []job.GoodsSpec{goods("cover"), goods("lining")},
		Pieces: []job.Furniture{p}, Quote: job.QuoteSpec{LabourRate: hour}}, job.Options{})
}

// cardFile gives the piece as a job file has it, its measures to be filled in.
func cardFile(k kind.Kind) string {
	var b strings.Builder
	fmt.Fprintf(&b, "{\"name\": %q, \"from\": %q, \"goods\": \"\"", k.Name, k.Name)
	var roles []string
	for _, r := range k.Goods {
		if r.As == "" && !r.Optional {
			roles = append(roles, fmt.Sprintf("%q: \"\"", r.Name))
		}
	}
	if len(roles) > 0 {
		fmt.Fprintf(&b, ", \"goods_for\": {%s}", strings.Join(roles, ", "))
	}
	var must []string
	for _, m := range k.Measures {
		if m.Usual == "" {
			must = append(must, fmt.Sprintf("  %q: \"\"", m.Name))
		}
	}
	fmt.Fprintf(&b, ", \"measures\": {\n%s}}", strings.Join(slices.Clip(must), ",\n"))
	return b.String()
}
