package job

import (
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/foam/wrap"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

// WorkOrder is a job worked out: data first, to be printed or read by other
// programs. It marshals to JSON as it stands.
type WorkOrder struct {
	Schema Schema `json:"schema"`
	Name   string `json:"name"`
	// Number, Customer, Due and Shop head the papers.
	Number   string    `json:"number,omitempty"`
	Customer *Party    `json:"customer,omitempty"`
	Due      cost.Date `json:"due,omitzero"`
	Shop     *Party    `json:"shop,omitempty"`
	// Facing says that prints tell how left and right, which are the sitter's, are seen
	// from before the piece.
	Facing bool  `json:"facing,omitempty"`
	Cuts   []Cut `json:"cuts"`
	// Assembly is how the covers whose edges are joined go together.
	Assembly []Assembly `json:"assembly,omitempty"`
	// TakeOff is how old covers came off, for the bench.
	TakeOff   []TakeOff   `json:"take_off,omitempty"`
	Purchases []Purchase  `json:"purchases"`
	Sewing    Sewing      `json:"sewing"`
	Foam      []FoamBlock `json:"foam"`
	// Forms are bought for knife-edge cushions.
	Forms []PillowForm `json:"pillow_forms,omitempty"`
	// Sheets of foam that are bought whole.
	Sheets []FoamSheets `json:"sheets,omitempty"`
	Labour []Bench      `json:"labour"`
	// Usual is the time that pieces usually take, for those of which it is asked.
	Usual []bench.Answer `json:"usual,omitempty"`
	// Rough are pieces that nobody has measured; because of them the quote is of class 5.
	Rough []RoughPiece `json:"rough,omitempty"`
	// Afterwards sets what the job took beside what was quoted, where that was noted.
	Afterwards *Afterwards   `json:"afterwards,omitempty"`
	Quote      cost.Quote    `json:"quote"`
	Options    []OptionPrice `json:"options,omitempty"`
	// Findings are what goes in beside cover, foam and work; Unpriced is how many of
	// them are not on the quote.
	Findings []build.Line `json:"findings,omitempty"`
	Unpriced int          `json:"unpriced,omitzero"`
	// Questions are what nobody said, so that something is not worked out.
	Questions []build.Question `json:"questions,omitempty"`
	// Cautions say what must be minded: first what forbids, then rules and papers,
	// then what protects the worker, then what is doubtful in this job. Each says
	// for whom it is.
	Cautions []caution.Caution `json:"cautions"`
	// Papers are certificates to ask for, each because of a caution.
	Papers  []caution.Paper `json:"papers,omitempty"`
	Sources []cite.Source   `json:"sources"` // the documents behind the figures of this order
	// Copy and Account are those of the job, Statement adds the account up where something
	// was changed or received.
	Copy *account.Copy `json:"customer_copy,omitempty"`
	account.Account
	Statement *account.Statement `json:"statement,omitempty"`
	// Stopped says that the context ended while layouts were made: they are
	// right, but more effort might have made them better.
	Stopped bool `json:"stopped,omitempty"`
}

// Assembly is how a piece of furniture, or a made-up part that stands alone, goes
// together: its cover, and what follows from it for one.
type Assembly struct {
	Piece string              `json:"piece"`          // of furniture
	Part  string              `json:"part,omitempty"` // the made-up part
	Count int                 `json:"count"`          // for all pieces of furniture
	Cover allowance.Cover     `json:"cover"`
	Work  allowance.CoverWork `json:"work"`
	// Pattern is how the pattern of its goods runs over it.
	Pattern *PatternFlow `json:"pattern,omitempty"`
	// PullStrips are those of the cover, and edges that might have one.
	PullStrips []PullStrip `json:"pull_strips,omitempty"`
}

// CutsOf gives the cuts of some goods, in the order in which the pieces of
// their layout stand.
func (o WorkOrder) CutsOf(goods string) []Cut {
	var out []Cut
	for _, c := range o.Cuts {
		if c.Goods == goods {
			out = append(out, c)
		}
	}
	return out
}

// Size is width across the goods by length along them.
type Size struct {
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"`
}

// Cut is one line of the cut list: a number of equal pieces of goods.
type Cut struct {
	Piece string `json:"piece"` // of furniture
	Part  string `json:"part"`
	Goods string `json:"goods"` // id
	Count int    `json:"count"` // for all pieces of furniture
	// Made is how many panels, cushions or strips the cuts are for: a welt of
	// four strips on two cushions has a Count of 8 and is Made 2.
	Made     int       `json:"made"`
	Finished Size      `json:"finished,omitzero"`
	Trim     Size      `json:"trim,omitzero"` // inside the handling margin
	Cut      Size      `json:"cut"`
	Grain    string    `json:"grain"`
	Area     unit.Area `json:"area"` // of all Count pieces as cut
	// Outline is the finished line of a panel in its own axes; strips have none.
	Outline shape.Outline `json:"outline,omitzero"`
	// Panel holds its lines as they are drawn on the goods: seam, trim and cut
	// line, edges, notches and the grain; strips have none.
	Panel *allowance.PanelCut `json:"panel,omitempty"`
	// Tolerance is how far the finished sizes of a panel may be off that was taken
	// with a tape. The cut sizes are off by as much.
	Tolerance *shape.Tolerance `json:"tolerance,omitempty"`
	// Pair says that every second copy is cut mirrored.
	Pair bool `json:"pair,omitzero"`
	// Assembly is the place among those of the order of the one that it belongs to,
	// from 1, and Pieces are its pieces there. A panel whose edges are not joined
	// has neither.
	Assembly int   `json:"assembly,omitzero"`
	Pieces   []int `json:"pieces,omitempty"`
	// Of the first of these pieces: its hand, the letters of the first notches of
	// Panel, and what becomes of its edges.
	Hand    allowance.Hand        `json:"hand,omitzero"`
	Letters []allowance.PieceMark `json:"letters,omitempty"`
	Uses    []allowance.EdgeUse   `json:"uses,omitempty"`
	// Motifs are where the pattern of a roll falls on its pieces, by what the layout
	// chose for them; mostly it is one place for all.
	Motifs []CutMotif `json:"motifs,omitempty"`
	// What the cut asks of leather.
	Grade material.Grade    `json:"grade,omitzero"`
	Marks material.Severity `json:"marks,omitzero"`
	// What goes with a strip, for each of Made.
	Cord    unit.Length `json:"cord,omitzero"` // diameter of the welt cord
	Welt    unit.Length `json:"welt,omitzero"` // length of finished welt, and of cord
	ZipTape unit.Length `json:"zip_tape,omitzero"`
	// Bias is the strip that the square is cut into.
	Bias *BiasStrip `json:"bias,omitempty"`
	// Tufting and Channels say how the goods are marked; of a part of several panels
	// the last line has them.
	Tufting  *made.TuftPlan    `json:"tufting,omitempty"`
	Channels *made.ChannelsCut `json:"channels,omitempty"`
	// Boxing says of the last panel of a cushion how its ring is made up.
	Boxing *made.BoxingCut `json:"boxing,omitempty"`
	// Basis founds the allowances that were not given by hand; empty for
	// strips.
	Basis []cite.Basis `json:"basis,omitempty"`
}

// BiasStrip is a continuous strip at 45 degrees.
type BiasStrip struct {
	Width  unit.Length `json:"width"`
	Length unit.Length `json:"length"`
	Turns  int         `json:"turns"` // of the tube
}

// Answer is one answer to "how much": its kind says what it is worth.
type Answer struct {
	Kind   cite.Kind   `json:"kind"`
	Text   string      `json:"text"` // in words
	Length unit.Length `json:"length,omitzero"`
	Area   unit.Area   `json:"area,omitzero"`
	Hides  int         `json:"hides,omitzero"`
	Basis  cite.Basis  `json:"basis"`
}

// Purchase is what to buy of one kind of goods.
type Purchase struct {
	Goods string `json:"goods"` // id
	Name  string `json:"name"`
	Fibre string `json:"fibre,omitempty"` // what they are made of
	// Supplier is who sells it, where the job says.
	Supplier string      `json:"supplier,omitempty"`
	Net      unit.Area   `json:"net"`             // of all cut pieces
	Length   unit.Length `json:"length,omitzero"` // to buy, of a roll
	Area     unit.Area   `json:"area,omitzero"`   // to buy, of hides
	Hides    int         `json:"hides,omitzero"`  // to buy
	// Ordered is the way from what the layout needs to Length, step by step; hides have
	// none.
	Ordered *material.Ordered `json:"ordered,omitempty"`
	// AtHand is how many hides at hand the layout uses; they are not paid again.
	AtHand int        `json:"at_hand,omitzero"`
	Cost   cost.Money `json:"cost"` // before markup and tax
	// Answers holds every answer to how much, the one bought by last.
	Answers []Answer `json:"answers"`
	// Plan is the cutting layout, on what is bought or on a length at hand. Its pieces
	// are the cuts of these goods in their order, see Layouts; of a pair, copies 1, 3, 5 and so on are mirrored. Hides bought by the
	// rule of thumb have none, nor have those whose layout was stopped too soon,
	// nor has a job with thousands of panels of leather, nor what remnants hold.
	Plan *layout.Plan `json:"plan,omitempty"`
	// Pieces are the cuts that the pieces of Plan are, by their place among those of the
	// same goods, where others lie on remnants; where it is empty they are all of them.
	Pieces []int `json:"pieces,omitempty"`
	// Stock is what need not be bought; nil where all is.
	Stock *stock.Supplied `json:"stock,omitempty"`
	// Leftovers are what the layouts leave of a roll that is worth keeping, as a job file
	// has goods at hand: clear of all pieces, and of what the margin takes.
	Leftovers []stock.Length `json:"leftovers,omitempty"`
	// LeftoverHides are so of hides that were traced; what is left of others nobody knows.
	LeftoverHides []HideSpec `json:"leftover_hides,omitempty"`
	// Saving is what buying hides by the layout saves over the rule of thumb.
	Saving *Saving `json:"saving,omitempty"`
	// Matching is what it costs to lie on the pattern of a roll: the same pieces from
	// plain goods, and what each matched piece takes, by its place among the cuts of these
	// goods, all of them from one length of what would be bought. Its lengths to buy are
	// those of layouts alone, without a margin, as that of the plan.
	Matching *layout.Matching `json:"matching,omitempty"`
}

// Layouts gives the layouts of the goods: those on remnants first.
func (p Purchase) Layouts() []stock.Laid {
	var out []stock.Laid
	on := ""
	if own := p.Stock; own != nil {
		if out = slices.Clone(own.Remnants); own.Suffices() {
			on = own.Length
		}
	}
	if p.Plan == nil {
		return out
	}
	cuts := p.Pieces
	if len(cuts) == 0 {
		for i := range p.Plan.Job.Pieces {
			cuts = append(cuts, i)
		}
	}
	return append(out, stock.Laid{On: on, Plan: *p.Plan, Cuts: cuts})
}

// Saving is the price of hides bought by the rule of thumb beside that of the
// hides that a layout uses, before markup and tax. Saved is below zero where
// the rule would have bought too little.
type Saving struct {
	RuleHides   int         `json:"rule_hides"`
	LayoutHides int         `json:"layout_hides"`
	ByRule      cost.Money  `json:"by_rule"`
	ByLayout    cost.Money  `json:"by_layout"`
	Saved       cost.Money  `json:"saved"`
	Figure      cost.Figure `json:"figure"` // how it came about
	Kind        cite.Kind   `json:"kind"`
}

// Sewing is the thread of a job: for where its pieces live, how the machine is set
// up, and what the rows of stitching take.
type Sewing struct {
	Fibres []FibreChoice `json:"fibres"`
	// SetUps of the machine, few ones where rows may be sewn alike; what is sewn
	// by hand comes last.
	SetUps  []SetUp     `json:"set_ups"`
	Threads []ThreadUse `json:"threads"`
	// Changes of the machine along the rows whose order of sewing is known.
	Changes thread.SetUpCount `json:"changes,omitzero"`
	Waste   unit.Ratio        `json:"waste"` // contained in Threads
	Kind    cite.Kind         `json:"kind"`
	Basis   []cite.Basis      `json:"basis"` // of what the rows take
}

// FibreChoice is the fibre of the thread for where pieces of furniture live.
type FibreChoice struct {
	Lives  thread.Exposure `json:"lives"`
	Pieces []string        `json:"pieces"`
	Fibre  thread.Fibre    `json:"fibre"`
	Given  bool            `json:"given,omitempty"` // by the job
	// Usual is the fibre for such a place, Reason says why.
	Usual  thread.Fibre `json:"usual"`
	Reason string       `json:"reason"`
	Basis  cite.Basis   `json:"basis"`
}

// SetUp is how the machine is set up for some rows, or the thread for rows sewn by
// hand.
type SetUp struct {
	thread.SetUp
	ByHand bool         `json:"by_hand,omitempty"`
	Why    []Reason     `json:"why"`  // its thread
	Care   thread.Flags `json:"care"` // what does not go together in any of the rows
	Rows   []SewnRow    `json:"rows"`
	Length unit.Length  `json:"length"` // of all rows
	Layers int          `json:"layers"` // at most
	// Basis founds needle, point and stitch length.
	Basis []cite.Basis `json:"basis,omitempty"`
}

// Reason says why in words.
type Reason struct {
	Text  string     `json:"text"`
	Basis cite.Basis `json:"basis"`
}

// SewnRow is a row of stitching.
type SewnRow struct {
	Piece string            `json:"piece"`          // of furniture
	Part  string            `json:"part,omitempty"` // the made-up part whose seams have the letters
	Of    string            `json:"of"`             // the letter of a seam, or the name of a part
	Kind  allowance.RowKind `json:"kind,omitzero"`
	// Share says that the row is what one panel brings of its seams, half of each,
	// since the panel it is sewn to brings the other half.
	Share bool `json:"share,omitempty"`
	// Count is the number of such rows on all pieces of furniture, Length that of
	// one.
	Count  int         `json:"count"`
	Length unit.Length `json:"length"`
	Layers int         `json:"layers"`
}

// ThreadUse is what all rows sewn with a thread take of it, row by row, with
// bobbins and cones where the job says how much they hold.
type ThreadUse struct {
	Thread      thread.Thread      `json:"thread"`
	Length      unit.Length        `json:"length"` // of all rows
	Consumption thread.Consumption `json:"consumption"`
}

// FoamBlock is foam to cut, with the grade to ask for. Foam in layers is a block
// for each, the top one first.
type FoamBlock struct {
	Piece string `json:"piece"`
	// Lives is where the piece will live.
	Lives thread.Exposure `json:"lives,omitzero"`
	Part  string          `json:"part"`
	Layer string          `json:"layer,omitempty"` // of the part; none where it is of one foam
	Count int             `json:"count"`
	// Form is what is cut from the box Cut. Finished is what the cover measures: the
	// core is larger by TakeUp from side to side, which Fit says, and the box round an
	// outline by what its corners reach out.
	Form     FoamForm        `json:"form"`
	Finished foam.Block      `json:"finished"`
	Cut      foam.Block      `json:"cut"`
	Fit      made.CushionFit `json:"fit,omitzero"`
	TakeUp   unit.Length     `json:"take_up,omitzero"`
	Basis    cite.Basis      `json:"basis,omitzero"` // of the take-up, or of a crown
	// Outline is the true one as seen from above, of FoamOutline. Back is the
	// thickness at the back of a wedge.
	Outline shape.Outline `json:"outline,omitzero"`
	Back    unit.Length   `json:"back,omitzero"`
	// Shaped is the volume of all blocks as shaped, Volume what is paid, by the box
	// or by the outline; that of the boxes where whole sheets are paid.
	Shaped    unit.Volume    `json:"shaped"`
	Volume    unit.Volume    `json:"volume"`
	PricedBy  FoamMeasure    `json:"priced_by"`
	Selection foam.Selection `json:"selection"`
	// Pressed is the firmness that the old foam was found to have at the bench.
	Pressed *foam.Estimated[foam.IFD25] `json:"pressed,omitempty"`
	// Stack is what all layers do together under the sitter, on the top one; that of
	// a block of one foam is in its selection.
	Stack    *foam.Sitting `json:"stack,omitempty"`
	Supplier string        `json:"supplier,omitempty"` // who sells the foam, where the job says
	// Wrap is the batting round the part, on the first of its blocks.
	Wrap *FoamWrap `json:"wrap,omitempty"`
}

// Slanting tells whether the corners of the core reach out further from the cover than
// its sides.
func (b FoamBlock) Slanting() bool {
	beyond := max(b.Cut.Length-b.Finished.Length, b.Cut.Width-b.Finished.Width) - b.TakeUp
	return b.Form == FoamOutline && beyond > unit.Millimetre
}

// Name is that of the part and the layer.
func (b FoamBlock) Name() string {
	if b.Layer == "" {
		return b.Part
	}
	return b.Part + ", " + b.Layer
}

// Sitting is what the foam does under the sitter, alone or in its layers; nil
// without a sitter.
func (b FoamBlock) Sitting() *foam.Sitting {
	if b.Stack != nil {
		return b.Stack
	}
	return b.Selection.Sitting
}

// FoamSheets is sheets of one foam to buy whole, with the blocks cut from them.
type FoamSheets struct {
	Blocks   []int       `json:"blocks"` // places in the foam of the order, from 0
	Supplier string      `json:"supplier,omitempty"`
	Order    sheet.Order `json:"order"`
	Volume   unit.Volume `json:"volume"` // of all sheets
	Waste    unit.Ratio  `json:"waste"`  // 1 - boxes / sheets
	Glued    int         `json:"glued"`  // butt joins
}

// FoamWrap is the batting of all blocks of a part.
type FoamWrap struct {
	Rule   wrap.Rule `json:"rule"`
	Cut    wrap.Cut  `json:"cut"`             // for one block
	Sheets int       `json:"sheets"`          // of Cut's length and way round
	Sides  int       `json:"sides,omitempty"` // pieces for the sides, or the ends of a bolster
	Round  bool      `json:"round,omitempty"` // these pieces are round
	Area   unit.Area `json:"area"`            // of all
	// Length to buy from the roll of that width, laid in rows.
	Width    unit.Length `json:"width,omitzero"`
	Length   unit.Length `json:"length,omitzero"`
	Priced   bool        `json:"priced,omitzero"` // it is on the quote
	Supplier string      `json:"supplier,omitempty"`
	// TakesUp says that the wrap is the take-up of the cover; a thinner one counts
	// as bare foam.
	TakesUp bool `json:"takes_up,omitempty"`
}

// Bench is time for one task on all pieces of a kind, or around the bench.
type Bench struct {
	Piece string        `json:"piece,omitempty"` // of furniture; none of a task for the whole job
	Task  string        `json:"task"`
	Count int           `json:"count"` // how often
	Each  unit.Duration `json:"each"`  // of the first
	Time  unit.Duration `json:"time"`  // of all
	// Learning is what each doubling of Count leaves of the time; nil for all of it.
	Learning *unit.Ratio `json:"learning,omitzero"`
	// Does are the tasks of the table of times that it covers; Range and Usual are
	// what is usual for them, on one piece, where that was asked.
	Does      []bench.Task  `json:"does,omitempty"`
	Range     bench.Span    `json:"range,omitzero"`
	Usual     unit.Duration `json:"usual,omitzero"`
	FromTable bool          `json:"from_table,omitempty"` // Each is the usual time
	TaxClass  cost.TaxClass `json:"tax_class"`
	Actual    unit.Duration `json:"actual,omitzero"` // that it took in the end
}

// OptionPrice is another way to do the job, priced, and compared with the
// quote line by line.
type OptionPrice struct {
	Name  string          `json:"name"`
	Goods []GoodsCompared `json:"goods,omitempty"` // each pair of goods for the same pieces
	// Findings have the codes put in, by those in whose place they are.
	Findings map[string]string `json:"findings,omitempty"`
	Labour   []Bench           `json:"labour,omitempty"` // tasks that take another time
	Foam     []FoamBlock       `json:"foam,omitempty"`   // of the fillings put in
	// Cuts are those of the goods put in, and others that the option changes.
	Cuts      []Cut           `json:"cuts"`
	Purchases []Purchase      `json:"purchases"`
	Quote     cost.Quote      `json:"quote"`
	Compare   cost.Comparison `json:"compare"`
}

// GoodsCompared sets two goods for the same pieces side by side: what must be
// bought of each, before markup and tax. Where goods are also used elsewhere,
// all of them count.
type GoodsCompared struct {
	Goods    string     `json:"goods"`
	With     string     `json:"with"`
	Cost     cost.Money `json:"cost"`      // of everything bought of both goods as the job has it
	WithCost cost.Money `json:"with_cost"` // and as the option has it
	Saved    cost.Money `json:"saved"`     // by the option; below zero when it costs more
	Kind     cite.Kind  `json:"kind"`
}
