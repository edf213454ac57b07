package table

import (
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

const allowanceGroup = "Allowances and cut sizes"

// finishHelp lists the finishes.
var finishHelp = func() string {
	var names []string
	for _, f := range allowance.Finishes() {
		names = append(names, f.String())
	}
	return "finish of the edge: " + strings.Join(names, ", ")
}()

var tuftRuleHelp = func() string {
	var names []string
	for _, r := range made.TuftRules() {
		names = append(names, r.String())
	}
	return "how much cloth a button takes up: " + strings.Join(names, ", ")
}()

func (a *args) finish(name string) allowance.Finish {
	var f allowance.Finish
	a.into(name, &f)
	return f
}

func (a *args) tufting() (made.TuftPlan, error) {
	t := made.Tufting{Width: a.length("width_in"), Height: a.length("height_in"), Across: a.count("across"), Down: a.count("down"), Depth: a.length("depth_in")}
	a.into("rule", &t.Rule)
	return t.Plan()
}

var tuftArgs = []Arg{
	num("width_in", "finished width of the panel"), num("height_in", "finished height"), num("across", "whole diamonds side by side"),
	num("down", "whole diamonds one above the other"), num("depth_in", "depth of the buttons below the face"), word("rule", tuftRuleHelp),
}

var (
	tuftExample = []any{32.0, 20.0, 4.0, 4.0, 2.0, "twice the depth"}
	tuftBad     = []Bad{{Value, []any{32.0, 20.0, 4.0, 4.0, 2.0}}, {Num, []any{32.0, 20.0, 0.0, 4.0, 2.0, "groove"}}, {Missing, []any{32.0, 20.0, 4.0, 4.0, 2.0, "by eye"}}}
)

func (a *args) boxing() (made.BoxingCut, error) {
	return made.Boxing{Perimeter: a.length("perimeter_in"), Depth: a.length("depth_in"), Seam: a.override("seam_in")}.Cut(made.Goods{Across: a.length("longest_in"), Directed: true})
}

var boxingArgs = []Arg{
	num("perimeter_in", "perimeter of the plate at the stitch line"), num("depth_in", "finished height of the boxing"),
	num("longest_in", "longest piece the goods allow; 0 for no limit"), num("seam_in", "seam allowance").or("that of a boxed seam"),
}

func (a *args) matchSeam() (allowance.SeamMatch, error) {
	class := allowance.FirmWoven
	if of := a.text("goods"); of != "" && class.UnmarshalText([]byte(of)) != nil {
		a.fail(Missing, "goods", "one of "+easeClasses+" is wanted")
	}
	limits, _ := class.Limits()
	return allowance.MatchSeam(a.length("first_in"), a.length("second_in"), limits)
}

// easeClasses are the words of allowance.EaseClass.
const easeClasses = "loose woven, firm woven, pile, soft leather, firm leather, coated woven"

var seamArgs = []Arg{num("first_in", "seam line of one edge"), num("second_in", "seam line of the other"), word("goods", easeClasses).or("firm woven")}

var allowanceFunctions = []Function{
	{
		Method: "allowanceIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "The allowance usual for a finish, added outside the finished line of one edge.",
		Args:    []Arg{word("finish", finishHelp)},
		Example: []any{"plain seam"},
		Bad:     []Bad{{Value, []any{}}, {Missing, []any{"glued on"}}},
		call: func(a *args) (Result, error) {
			l, _ := a.finish("finish").Default()
			return a.lengthResult(l, nil)
		},
	},
	{
		Method: "allowanceBasisText", Group: allowanceGroup, Result: Text,
		Help:    "What the allowance usual for a finish is founded on.",
		Args:    []Arg{word("finish", finishHelp)},
		Example: []any{"plain seam"},
		Bad:     []Bad{{Value, []any{}}, {Missing, []any{"glued on"}}},
		call: func(a *args) (Result, error) {
			_, basis := a.finish("finish").Default()
			return text(basis.String()), nil
		},
	},
	{
		Method: "cutSizeIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Cut size of a panel in one direction: finished size less what it stretches, plus the allowance at both ends.",
		Args: []Arg{
			num("finished_in", "finished size"), num("first_in", "allowance at one end"), num("second_in", "allowance at the other"),
			share("stretch", "share taken out because the cover is pulled tight").or("0"),
		},
		Example: []any{23.0, 0.5, 3.0},
		Bad:     []Bad{{Value, []any{23.0, 0.5}}, {Num, []any{23.0, -0.5, 0.5}}, {Num, []any{23.0, 0.5, 3.0, 2.5}}},
		call: func(a *args) (Result, error) {
			edge := func(n string) allowance.Edge {
				return allowance.Edge{Finish: allowance.TurnedUnder, Allowance: allowance.Exactly(a.length(n))}
			}
			c, err := allowance.RectPanel{
				Width: a.length("finished_in"), Height: unit.Foot, Left: edge("first_in"), Right: edge("second_in"),
				Across: allowance.Stretch{TakeOut: a.share("stretch", 0, 0.5)},
			}.Cut()
			return a.lengthResult(c.Width, err)
		},
	},
	{
		Method: "cutForFinishIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Cut size of a panel in one direction with the allowances usual for the finish at both ends.",
		Args:    []Arg{num("finished_in", "finished size"), word("first", finishHelp), word("second", finishHelp)},
		Example: []any{24.5, "plain seam", "turned under and stapled"},
		Bad:     []Bad{{Value, []any{24.5, "plain seam"}}, {Num, []any{0.0, "plain seam", "plain seam"}}, {Missing, []any{24.5, "plain seam", "glued on"}}},
		call: func(a *args) (Result, error) {
			c, err := allowance.RectPanel{
				Width: a.length("finished_in"), Height: unit.Foot,
				Left: allowance.Edge{Finish: a.finish("first")}, Right: allowance.Edge{Finish: a.finish("second")},
			}.Cut()
			return a.lengthResult(c.Width, err)
		},
	},
	{
		Method: "leatherSeamIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Size between the seam lines of a leather panel by the customary rule: 1/4 in taken out of every 10 in, in proportion, and nothing under 10 in: a panel of 10 in comes out 1/4 in shorter than one just under it. A sample of the hide is better: STRETCHSHARE.",
		Args:    []Arg{num("finished_in", "finished size")},
		Example: []any{20.0},
		Bad:     []Bad{{Value, []any{"20"}}, {Num, []any{-20.0}}, {Num, []any{0.0}}},
		call: func(a *args) (Result, error) {
			s, _ := allowance.LeatherStretch()
			f, err := s.Apply(a.length("finished_in"))
			return a.lengthResult(f.Seam, err)
		},
	},
	{
		Method: "stretchShare", Group: allowanceGroup, Result: Share,
		Help:    "Share to take out of a panel, from a sample measured slack and pulled as tight as the cover will be.",
		Args:    []Arg{num("slack_in", "length of the sample at rest"), num("pulled_in", "its length under the pull")},
		Example: []any{10.0, 10.25},
		Bad:     []Bad{{Value, []any{10.0}}, {Num, []any{10.0, 9.0}}},
		call: func(a *args) (Result, error) {
			s, err := allowance.MeasuredStretch(a.length("slack_in"), a.length("pulled_in"))
			return number(float64(s.TakeOut)), err
		},
	},
	{
		Method: "easeShare", Group: allowanceGroup, Result: Share,
		Help:    "By how much one of two edges that are sewn together is longer than the other.",
		Args:    seamArgs[:2],
		Example: []any{40.0, 41.0},
		Bad:     []Bad{{Value, []any{40.0}}, {Num, []any{0.0, 41.0}}},
		call: func(a *args) (Result, error) {
			m, err := a.clothSeam()
			return number(float64(m.Ease)), err
		},
	},
	{
		Method: "easeText", Group: allowanceGroup, Result: Text,
		Help:    "Whether two edges of different length can be sewn together: flat, eased in, gathered or not. Limits from memory; sew a sample.",
		Args:    seamArgs,
		Example: []any{40.0, 40.6, "soft leather"},
		Bad:     []Bad{{Value, []any{40.0}}, {Num, []any{0.0, 41.0}}, {Missing, []any{40.0, 41.0, "felt"}}},
		call: func(a *args) (Result, error) {
			m, err := a.matchSeam()
			return text(m.Verdict.String()), err
		},
	},
	{
		Method: "easeMarksIn", Group: allowanceGroup, Result: Column, Unit: "in",
		Help:    "Where to mark the first edge so that the ease spreads evenly: distances from its start, one below the other (an array formula).",
		Args:    []Arg{num("first_in", "seam line of one edge"), num("second_in", "seam line of the other"), num("spacing_in", "greatest distance between marks on the shorter edge")},
		Example: []any{40.0, 41.0, 10.0},
		Bad:     []Bad{{Value, []any{40.0, 41.0}}, {Num, []any{40.0, 41.0, 0.0}}},
		call: func(a *args) (Result, error) {
			m, err := a.clothSeam()
			if err != nil {
				return Result{}, err
			}
			marks, err := m.Marks(a.length("spacing_in"))
			if err == nil && len(marks) == 0 {
				err = check.Refuse("spacing_in", "", unit.ErrRange, "a spacing shorter than the edge")
			}
			if len(marks) > MostRows {
				err = check.Refuse("spacing_in", "", unit.ErrRange, "a spacing that gives fewer marks")
			}
			if err != nil {
				return Result{}, err
			}
			out := make([]float64, len(marks))
			for i, k := range marks {
				out[i] = a.lengthIn(k.First)
			}
			return column(out), nil
		},
	},
	{
		Method: "weltStripIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Width of the strip that covers a welt cord: pi x (cord + cloth) + two tails.",
		Args: []Arg{
			num("cord_in", "diameter of the cord"), num("tail_in", "from the cord to the raw edge").or("the allowance of a welted seam"),
			num("cloth_in", "thickness of the cloth").or("0"), num("step_in", "step to round up to").or("no rounding"),
		},
		Example: []any{0.15625, 0.5, 0.0, 0.125},
		Bad:     []Bad{{Value, []any{"thin"}}, {Num, []any{0.0}}},
		call: func(a *args) (Result, error) {
			w, err := made.WeltStrip{Cord: a.length("cord_in"), Seam: a.override("tail_in"), Cloth: a.length("cloth_in"), Step: a.length("step_in")}.Width()
			return a.lengthResult(w, err)
		},
	},
	{
		Method: "doubleWeltStripIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Width of the strip for a double welt: twice that of a single one. Common practice.",
		Args:    []Arg{num("single_in", "strip of a single welt")},
		Example: []any{1.5},
		Bad:     []Bad{{Value, []any{"wide"}}, {Num, []any{0.0}}},
		call: func(a *args) (Result, error) {
			w, _, err := made.DoubleWeltWidth(a.length("single_in"))
			return a.lengthResult(w, err)
		},
	},
	{
		Method: "weltCutIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Length of welt strip to cut for seams or closed rings: their lengths, 2 in each to finish the ends, and what the diagonal joins use up.",
		Args: []Arg{
			rows("runs_in", "finished length of each run of welt"), num("strip_in", "width of the strip"), num("longest_in", "longest strip the goods allow").or("no limit"),
		},
		Example: []any{[][]any{{88.0}, {88.0}}, 1.5, 53.0},
		Bad:     []Bad{{Value, []any{[][]any{{"front"}}, 1.5}}, {Num, []any{[][]any{{88.0}}, 0.0}}},
		call: func(a *args) (Result, error) {
			c, err := made.WeltRun{Runs: a.lengths("runs_in"), Width: a.length("strip_in"), Longest: a.length("longest_in")}.Cut()
			return a.lengthResult(c.Length, err)
		},
	},
	{
		Method: "boxingWidthIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Cut width of a boxing strip.", Args: boxingArgs,
		Example: []any{88.0, 4.0, 0.0},
		Bad:     []Bad{{Value, []any{88.0, 4.0}}, {Num, []any{0.0, 4.0, 0.0}}},
		call: func(a *args) (Result, error) {
			c, err := a.boxing()
			return a.lengthResult(c.Width, err)
		},
	},
	{
		Method: "boxingLengthIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Cut length of all pieces of a boxing strip together, joins included.", Args: boxingArgs,
		Example: []any{88.0, 4.0, 53.0, 0.5},
		Bad:     []Bad{{Value, []any{88.0, 4.0}}, {Num, []any{88.0, 4.0, -1.0}}},
		call: func(a *args) (Result, error) {
			c, err := a.boxing()
			return a.lengthResult(c.Length, err)
		},
	},
	{
		Method: "boxingJoinsIn", Group: allowanceGroup, Result: Column, Unit: "in",
		Help: "Where the joins of a boxing strip lie: distances round the stitch line from the middle of the back (an array formula).", Args: boxingArgs,
		Example: []any{88.0, 4.0, 53.0, 0.5},
		Bad:     []Bad{{Value, []any{88.0, 4.0}}, {Num, []any{88.0, 4.0, 0.001}}},
		call: func(a *args) (Result, error) {
			c, err := a.boxing()
			if err == nil && len(c.Joins) > MostRows {
				err = check.Refuse("longest_in", "", unit.ErrRange, "longer pieces")
			}
			if err != nil {
				return Result{}, err
			}
			out := make([]float64, len(c.Joins))
			for i, l := range c.Joins {
				out[i] = a.lengthIn(l.At)
			}
			return column(out), nil
		},
	},
	{
		Method: "biasLengthIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Length of the continuous bias strip that a rectangle of cloth gives, marked the better way round: width and height may change places.",
		Args: []Arg{
			num("width_in", "width of the cloth"), num("height_in", "its height"), num("strip_in", "cut width of the strip"), num("seam_in", "allowance of each tube seam").or("0"),
		},
		Example: []any{36.0, 36.0, 1.5, 0.25},
		Bad:     []Bad{{Value, []any{36.0, 36.0}}, {Num, []any{36.0, 36.0, 0.0}}},
		call: func(a *args) (Result, error) {
			_, y, err := made.BestBiasTube(made.BiasTube{Width: a.length("width_in"), Height: a.length("height_in"), Strip: a.length("strip_in"), Seam: a.length("seam_in")})
			return a.lengthResult(y.Length, err)
		},
	},
	{
		Method: "biasSquareIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Side of the square of cloth for a continuous bias strip of a length. Common practice.",
		Args:    []Arg{num("length_in", "length of strip wanted"), num("strip_in", "cut width of the strip"), num("seam_in", "allowance of each tube seam").or("0")},
		Example: []any{300.0, 1.5, 0.25},
		Bad:     []Bad{{Value, []any{300.0}}, {Num, []any{-300.0, 1.5}}},
		call: func(a *args) (Result, error) {
			s, err := made.BiasSquareFor(a.length("length_in"), a.length("strip_in"), a.length("seam_in"))
			return a.lengthResult(s.Side, err)
		},
	},
	{
		Method: "tuftSpacingIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Distance between two deep buttons on the cloth. The rules disagree; tuft a sample.",
		Args:    []Arg{num("face_in", "distance on the finished face"), num("depth_in", "depth of the button below it"), word("rule", tuftRuleHelp)},
		Example: []any{8.0, 2.0, "once the depth"},
		Bad:     []Bad{{Value, []any{8.0, 2.0}}, {Num, []any{0.0, 2.0, "groove"}}, {Missing, []any{8.0, 2.0, "by eye"}}},
		call: func(a *args) (Result, error) {
			var r made.TuftRule
			a.into("rule", &r)
			l, err := r.Spacing(a.length("face_in"), a.length("depth_in"))
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "tuftCutWidthIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Width of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", Args: tuftArgs, Example: tuftExample, Bad: tuftBad,
		call: func(a *args) (Result, error) {
			p, err := a.tufting()
			return a.lengthResult(p.CutWidth, err)
		},
	},
	{
		Method: "tuftCutHeightIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help: "Height of cloth to cut for a deep-buttoned panel, with 1 in of tack edge.", Args: tuftArgs, Example: tuftExample, Bad: tuftBad,
		call: func(a *args) (Result, error) {
			p, err := a.tufting()
			return a.lengthResult(p.CutHeight, err)
		},
	},
	{
		Method: "tuftButtons", Group: allowanceGroup, Result: Number,
		Help: "Number of buttons of a deep-buttoned panel.", Args: tuftArgs, Example: tuftExample, Bad: tuftBad,
		call: func(a *args) (Result, error) {
			p, err := a.tufting()
			return count(p.Buttons), err
		},
	},
	{
		Method: "channelCoverIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Cloth across one filled channel that rises as an arc of a circle.",
		Args:    []Arg{num("width_in", "width of the channel"), num("rise_in", "rise of the filling above the seams")},
		Example: []any{4.0, 2.0},
		Bad:     []Bad{{Value, []any{4.0}}, {Num, []any{4.0, 0.0}}},
		call: func(a *args) (Result, error) {
			l, err := made.ChannelCover(made.ArcProfile, a.length("width_in"), a.length("rise_in"))
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "pleatClothIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Flat length of cloth for a pleated length.",
		Args:    []Arg{word("kind", "knife pleat, box pleat or inverted pleat"), num("finished_in", "length when pleated"), num("count", "pleats in it"), num("underfold_in", "depth of each fold behind the face")},
		Example: []any{"box pleat", 48.0, 12.0, 2.0},
		Bad:     []Bad{{Value, []any{"knife pleat", 48.0, 12.0}}, {Num, []any{"knife pleat", 48.0, 0.0, 2.0}}, {Missing, []any{"sun pleat", 48.0, 12.0, 2.0}}},
		call: func(a *args) (Result, error) {
			p := made.Pleats{Finished: a.length("finished_in"), Count: a.count("count"), Underfold: a.length("underfold_in")}
			a.into("kind", &p.Kind)
			c, err := p.Cloth()
			return a.lengthResult(c.Cloth, err)
		},
	},
	{
		Method: "ringIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Seam line round a round or oval plate. Give one width for a circle.",
		Args:    []Arg{num("width_in", "width of the plate"), num("depth_in", "depth of an oval").or("the width")},
		Example: []any{18.0},
		Bad:     []Bad{{Value, []any{}}, {Num, []any{0.0}}},
		call: func(a *args) (Result, error) {
			w := a.length("width_in")
			if !a.given("depth_in") {
				l, err := shape.CircleCircumference(w)
				return a.lengthResult(l, err)
			}
			// Semi-axes: an odd nanometre is of no account in a perimeter.
			l, err := shape.EllipsePerimeter(w/2, a.length("depth_in")/2)
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "bolsterGirthIn", Group: allowanceGroup, Result: Number, Unit: "in",
		Help:    "Cut girth of the body of a bolster cover: pi x diameter and two seam allowances.",
		Args:    []Arg{num("diameter_in", "diameter of the filling"), num("seam_in", "seam allowance").or("that of a plain seam")},
		Example: []any{8.0, 0.5},
		Bad:     []Bad{{Value, []any{"8"}}, {Num, []any{0.0}}},
		call: func(a *args) (Result, error) {
			p, err := made.Cushion{Kind: made.Bolster, Width: unit.Yard, Depth: a.length("diameter_in"), Seam: a.override("seam_in")}.Make()
			if err != nil {
				return Result{}, err
			}
			_, girth := p.Cover.Panels[0].Outline.Size()
			seam, set := a.override("seam_in").Get()
			if !set {
				seam, _ = allowance.PlainSeam.Default()
			}
			return a.lengthResult(girth+2*seam, nil)
		},
	},
}

// clothSeam compares two edges of cloth.
func (a *args) clothSeam() (allowance.SeamMatch, error) {
	limits, _ := allowance.FirmWoven.Limits()
	return allowance.MatchSeam(a.length("first_in"), a.length("second_in"), limits)
}
