package table

import (
	"strings"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

const threadGroup = "Thread and needles"

const sizeHelp = "a thread size in any naming: 92, T-90, M30, FF; one that could mean two sizes is not found"

var goodsHelp = func() string {
	var names []string
	for _, g := range thread.AllGoods() {
		names = append(names, g.String())
	}
	return strings.Join(names, ", ")
}()

var systemHelp = func() string {
	var names []string
	for _, s := range thread.CountSystems() {
		names = append(names, s.String())
	}
	return strings.Join(names, ", ")
}()

func (a *args) size(name string) thread.Size {
	s, err := thread.ParseSize(a.text(name))
	a.refuse(name, err)
	return s
}

func (a *args) goods(name string) thread.Goods {
	var g thread.Goods
	a.into(name, &g)
	return g
}

// system finds a system of yarn counts by its name, capitals or not.
func (a *args) system(name string) thread.CountSystem {
	for _, s := range thread.CountSystems() {
		if strings.EqualFold(s.String(), a.text(name)) {
			return s
		}
	}
	a.fail(Missing, name, "one of "+systemHelp+" is wanted")
	return 0
}

func (a *args) stitchLength(name string) unit.Length {
	l, err := thread.StitchesPerInch(a.number(name)).StitchLength()
	a.refuse(name, err)
	return l
}

var threadFunctions = []Function{
	{
		Method: "threadSize", Group: threadGroup, Result: Number,
		Help:    "Trade number of a thread size in any naming.",
		Args:    []Arg{word("size", sizeHelp)},
		Example: []any{"T-90"},
		Bad:     []Bad{{Value, []any{}}, {Missing, []any{30.0}}},
		call:    func(a *args) (Result, error) { return count(a.size("size").Number()), nil },
	},
	{
		Method: "threadTex", Group: threadGroup, Result: Number, Unit: "tex",
		Help:    "Count of the finished thread; the tex on the label is about a tenth lower.",
		Args:    []Arg{word("size", sizeHelp)},
		Example: []any{138.0},
		Bad:     []Bad{{Value, []any{}}, {Missing, []any{"thick"}}},
		call:    func(a *args) (Result, error) { return number(a.size("size").Finished().Tex()), nil },
	},
	{
		Method: "countToTex", Group: threadGroup, Result: Number, Unit: "tex",
		Help:    "Converts a yarn count of any system to tex.",
		Args:    []Arg{num("count", "the count"), word("system", systemHelp)},
		Example: []any{840.0, "den"},
		Bad:     []Bad{{Value, []any{840.0}}, {Num, []any{0.0, "den"}}, {Missing, []any{840.0, "grist"}}},
		call: func(a *args) (Result, error) {
			d, err := a.system("system").Of(a.number("count"))
			return number(d.Tex()), err
		},
	},
	{
		Method: "texToCount", Group: threadGroup, Result: Number,
		Help:    "Converts tex to a yarn count of any system.",
		Args:    []Arg{num("count_tex", "the count in tex"), word("system", systemHelp)},
		Example: []any{100.0, "metric ticket"},
		Bad:     []Bad{{Value, []any{100.0}}, {Num, []any{0.0, "tex"}}, {Missing, []any{100.0, "grist"}}},
		call: func(a *args) (Result, error) {
			n, err := a.system("system").In(unit.LinearDensity(a.number("count_tex")))
			return number(n), err
		},
	},
	{
		Method: "threadForText", Group: threadGroup, Result: Text,
		Help:    "Fibre and size of thread to start with for goods and layers.",
		Args:    []Arg{word("goods", goodsHelp), num("layers", "layers the needle passes, 1 to 20")},
		Example: []any{"leather", 4.0},
		Bad:     []Bad{{Value, []any{"leather"}}, {Num, []any{"leather", 0.0}}, {Missing, []any{"felt", 4.0}}},
		call: func(a *args) (Result, error) {
			p, err := a.pick()
			return text(p.Thread.String()), err
		},
	},
	{
		Method: "needleForText", Group: threadGroup, Result: Text,
		Help:    "Needle to start with for goods and layers, by metric size and number.",
		Args:    []Arg{word("goods", goodsHelp), num("layers", "layers the needle passes, 1 to 20")},
		Example: []any{"leather", 4.0},
		Bad:     []Bad{{Value, []any{"leather"}}, {Num, []any{"leather", 0.0}}, {Missing, []any{"felt", 4.0}}},
		call: func(a *args) (Result, error) {
			p, err := a.pick()
			return text(p.Needle.String()), err
		},
	},
	{
		Method: "needlesText", Group: threadGroup, Result: Text,
		Help:    "Range of needles for a thread size in goods.",
		Args:    []Arg{word("size", sizeHelp), word("goods", goodsHelp)},
		Example: []any{92.0, "woven"},
		Bad:     []Bad{{Value, []any{92.0}}, {Missing, []any{92.0, "felt"}}},
		call: func(a *args) (Result, error) {
			r, err := thread.NeedlesFor(a.size("size"), a.goods("goods"))
			if r.From == r.To {
				return text(r.From.String()), err
			}
			return text(r.From.String() + " to " + r.To.String()), err
		},
	},
	{
		Method: "stitchLengthMm", Group: threadGroup, Result: Number, Unit: "mm",
		Help:    "Length of one stitch: 25.4 mm / stitches per inch.",
		Args:    []Arg{num("stitches_per_inch", "1 to 60")},
		Example: []any{8.0},
		Bad:     []Bad{{Value, []any{"eight"}}, {Num, []any{0.0}}},
		call:    func(a *args) (Result, error) { return number(a.stitchLength("stitches_per_inch").Millimetres()), nil },
	},
	{
		Method: "threadUseYd", Group: threadGroup, Result: Number, Unit: "yd",
		Help: "Needle and bobbin thread of a seam by the geometry of its stitch, without tails and waste. On the high side.",
		Args: []Arg{
			num("seam_in", "length of the seam"), num("thickness_mm", "thickness of all layers"), num("stitches_per_inch", "1 to 60"),
			num("stitch", "standard number: 301 lockstitch, 401 chainstitch").or("301"),
		},
		Example: []any{88.0, 2.0, 6.0},
		Bad:     []Bad{{Value, []any{88.0, 2.0}}, {Num, []any{0.0, 2.0, 6.0}}, {Missing, []any{88.0, 2.0, 6.0, 999.0}}},
		call: func(a *args) (Result, error) {
			s := thread.Lockstitch301
			if a.given("stitch") {
				n := a.count("stitch")
				if n < 1 || n > 999 {
					a.fail(Missing, "stitch", "no such stitch")
				}
				s = thread.Stitch(n)
			}
			u, err := thread.Consume(thread.Seam{Length: a.length("seam_in"), Thickness: a.length("thickness_mm"),
				Stitch: s, StitchLength: a.stitchLength("stitches_per_inch")})
			return a.lengthResult(u.Total, err)
		},
	},
	{
		Method: "coneLengthYd", Group: threadGroup, Result: Number, Unit: "yd",
		Help:    "Thread on a cone of a net weight.",
		Args:    []Arg{word("size", sizeHelp), num("net_oz", "net weight of the thread")},
		Example: []any{92.0, 4.0},
		Bad:     []Bad{{Value, []any{92.0}}, {Num, []any{92.0, 0.0}}, {Missing, []any{"thick", 4.0}}},
		call: func(a *args) (Result, error) {
			l, err := thread.ConeLength(a.size("size"), a.mass("net_oz"))
			return a.lengthResult(l, err)
		},
	},
	{
		Method: "seamStrengthLbfIn", Group: threadGroup, Result: Number, Unit: "lbf/in",
		Help:    "Estimate of what the stitching of a lockstitch seam carries across its line, with the cautious strength of the thread. No leave to sew safety gear.",
		Args:    []Arg{word("size", sizeHelp), word("fibre", "nylon or polyester"), num("stitches_per_inch", "1 to 60")},
		Example: []any{92.0, "nylon", 7.0},
		Bad:     []Bad{{Value, []any{92.0, "nylon"}}, {Num, []any{92.0, "nylon", 0.0}}, {Missing, []any{92.0, "silk", 7.0}}},
		call: func(a *args) (Result, error) {
			t := thread.Thread{Size: a.size("size")}
			a.into("fibre", &t.Fibre)
			l := a.stitchLength("stitches_per_inch")
			if a.fault != nil {
				return Result{}, a.fault
			}
			row, err := t.Row()
			if err != nil {
				return Result{}, err
			}
			f, ok := row.Cautious.Value()
			if !ok {
				return Result{}, fault(Missing, "no strength is known of this thread")
			}
			s, err := thread.Strength(thread.LoadedSeam{Stitch: thread.Lockstitch301, StitchLength: l, Needle: f})
			return a.lineforceResult(s.Thread, err)
		},
	},
}

func (a *args) pick() (thread.Recommendation, error) {
	p, err := thread.Recommend(thread.Need{Goods: a.goods("goods"), Layers: a.count("layers")})
	return p.Best(), err
}
