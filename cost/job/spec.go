package job

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/account"
	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job/build"
	"github.com/coverwright/coverwright/cost/stock"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
)

// Spec is a job before it is worked out. It is read from JSON by [ReadSpec], or
// written in Go; the README of this folder describes the file. The zero value is
// refused.
//
// Where a count may be left out, zero is one.
type Spec struct {
	Schema   Schema        `json:"schema" required:"true" hint:"\"coverwright/job/1\""`
	Name     string        `json:"name" required:"true" hint:"what the job is called"`
	Currency cost.Currency `json:"currency" required:"true" hint:"an ISO 4217 code such as USD"`
	// Number, customer, day and letterhead stand at the top of the order.
	Number   string    `json:"number,omitzero"`   // of the job, as the shop counts
	Customer *Party    `json:"customer,omitzero"` // whom it is for
	Due      cost.Date `json:"due,omitzero"`      // the day the work is to be ready
	Shop     *Party    `json:"shop,omitzero"`     // whose work it is
	// Jurisdictions are the places whose rules go on the work order, which asks for
	// them when there are none. What holds everywhere goes on it always.
	Jurisdictions []caution.Jurisdiction `json:"jurisdictions,omitempty"`
	Goods         []GoodsSpec            `json:"goods" required:"true" hint:"a list of goods"`
	Pieces        []Furniture            `json:"pieces" required:"true" hint:"a list of pieces of furniture"`
	Sewing        SewingSpec             `json:"sewing,omitzero"` // the thread; recommended when not given
	// Options are other ways to do the job, priced beside it.
	Options []OptionSpec `json:"options,omitempty"`
	// Bench are times of the shop's own, in place of the usual ones of package bench
	// and beside them.
	Bench   *bench.Table  `json:"bench,omitzero"`
	Errands []bench.Visit `json:"errands,omitempty"` // tasks around the bench
	Quote   QuoteSpec     `json:"quote" required:"true" hint:"rates, taxes and terms"`
	// Prices are what the shop pays for what it buys beside goods and foam, by code.
	Prices cost.PriceList `json:"prices,omitzero"`
	// Defaults are what the shop does where the job does not say otherwise.
	Defaults *DefaultsSpec `json:"defaults,omitzero"`
	// Findings are how the shop uses findings, by their names, in place of what is usual.
	Findings map[string]build.Use `json:"findings,omitempty"`
	// Copy says how the shop wants the papers that the customer gets.
	Copy *account.Copy `json:"customer_copy,omitzero"`
	account.Account
}

// GoodsSpec is a cover on offer, sold from a roll or as hides. Panels name it by
// its ID.
type GoodsSpec struct {
	ID   string    `json:"id" required:"true" hint:"a short name that panels refer to"`
	Kind GoodsKind `json:"kind" required:"true" hint:"roll or hide"`
	Name string    `json:"name" required:"true" hint:"what the supplier calls it"`
	// Supplier is who sells it; not known when not given.
	Supplier string `json:"supplier,omitzero"`
	// Material chooses needle, stitch and stretch.
	Material thread.Goods `json:"material" required:"true" hint:"one of light woven, woven, canvas, vinyl, leather, heavy leather"`
	Fibre    string       `json:"fibre,omitzero"` // what it is made of, for the customer, such as 60 % linen, 40 % cotton
	// Thickness of one layer, for the thread; 1 mm when not given.
	Thickness Thickness `json:"thickness,omitzero"`
	// Price is per length for a roll ("68.00 USD/yd"), per area for hides
	// ("9.50 USD/sq ft").
	// Only a customer's own need none.
	Price GoodsPrice `json:"price,omitzero"`
	Dated cost.Date  `json:"dated,omitzero"` // the day of the price
	// Whose the goods are: the shop's when not given. A customer's own are not charged,
	// and none are bought: the order says what is lacking.
	Whose stock.Whose `json:"whose,omitzero"`
	// Charged is how the shop's goods at hand are charged: a roll as if it was bought, and
	// hides not at all, when not given.
	Charged stock.Charged `json:"charged,omitzero"`
	// Handling is the fee for work with a customer's own goods; none when not given.
	Handling *stock.Handling `json:"handling,omitempty"`
	// Keep is the least leftover that is worth keeping; 12 x 18 in when not given.
	Keep *stock.Keep `json:"keep,omitempty"`
	// Ease is how much fullness the goods take in a seam. When it is not given,
	// leather is soft leather, vinyl and heavy leather are firm leather, canvas is
	// coated woven, and all else is firm woven.
	Ease     *allowance.EaseClass `json:"ease,omitzero"`
	TwoFaced bool                 `json:"two_faced,omitzero"` // either side may be seen
	// Stretch is the share left out of each panel in both directions. When it
	// is not given, leather gets the customary rule and other goods nothing.
	// Cushions keep their size: their foam is cut larger instead.
	Stretch *unit.Ratio `json:"stretch,omitzero"`
	// LongestStrip limits boxing, zip and welt strips; when not given, the
	// usable width of a roll, 72 in of a hide.
	LongestStrip unit.Length `json:"longest_strip,omitzero"`

	// Actual is how much of what was bought was used in the end.
	Actual Used `json:"actual,omitzero"`

	// Gap is kept between pieces for the knife.
	Gap unit.Length `json:"gap,omitzero"`

	// Of a roll.

	Width   unit.Length `json:"width,omitzero"`   // of a roll, selvages included; a roll must have one
	Selvage unit.Length `json:"selvage,omitzero"` // of a roll: the unused edge on each side
	// Repeat is the vertical repeat of the pattern as it is seen on the furniture:
	// along the roll, or across goods that run sideways.
	Repeat unit.Length `json:"repeat,omitzero"`
	// RepeatAcross is the horizontal repeat of the pattern as it is seen on the
	// furniture, from one column of motifs to the next.
	RepeatAcross unit.Length `json:"repeat_across,omitzero"`
	// RepeatLevel may be given in place of RepeatAcross where the pattern drops:
	// the distance across to the next motif at the same height, which is twice as
	// far at a half drop.
	RepeatLevel unit.Length `json:"repeat_level,omitzero"`
	// Drop is how far the next column of motifs to the right lies lower, as a part
	// of Repeat.
	Drop Drop `json:"drop,omitzero"`
	// FirstMotif is where a motif lies: from the left edge of the usable width,
	// and from the end that is cut first, with the face up and that end nearest to
	// you. In that corner when not given, as where the pattern starts at the
	// selvage.
	FirstMotif shape.Point `json:"first_motif,omitzero"`
	// UnknownStart says that the bolt may start anywhere in the pattern: the
	// layout chooses where, and one repeat more is bought. FirstMotif then gives
	// the distance across alone.
	UnknownStart bool `json:"unknown_start,omitzero"`
	// Up is where the top of the pattern or of the nap points: up the roll when
	// not given, else the goods are railroaded.
	Up     material.Up `json:"up,omitzero"`
	Nap    bool        `json:"nap,omitzero"`     // of a roll: the pile has one direction
	OneWay bool        `json:"one_way,omitzero"` // of a roll: the motifs have a top, so that no panel may be turned
	// Even says that every motif is its own mirror image left for right, as of
	// even stripes and balanced plaids.
	Even bool `json:"even,omitzero"`
	// Shrinkage is the share of its length the cloth loses before it is cut.
	Shrinkage unit.Ratio `json:"shrinkage,omitzero"`
	// Increment is the step the seller cuts to; 1/8 yd when not given, 10 cm
	// for goods priced by the metre.
	Increment unit.Length `json:"increment,omitzero"`
	// AtHand are lengths of the goods that need not be bought.
	AtHand []stock.Length `json:"at_hand,omitempty"`
	// Margin is what is bought beyond the layout. When it is not given, 2 in to square
	// each end, and 1/8 yd for one flaw in each full 20 yd, as is customary; an empty
	// one is none.
	Margin *material.WorkingMargin `json:"margin,omitempty"`
	Flaws  []stock.Flaw            `json:"flaws,omitempty"` // of a roll: places that nothing may lie on
	// Shades are groups of panels to be cut from neighbouring places of a roll.
	Shades []ShadeSpec `json:"shades,omitempty"`

	// Of hides.

	// Skin is what HideArea is the area of; whole hide when not given. Its usual
	// shape stands for hides that are not measured.
	Skin material.SkinKind `json:"skin,omitzero"`
	// HideArea is the mean area of hides that are not measured. There must be
	// this or Hides.
	HideArea unit.Area `json:"hide_area,omitzero"`
	// HideSpread is the standard deviation of the area from hide to hide, for the
	// forecast; at most a quarter of HideArea.
	HideSpread unit.Area `json:"hide_spread,omitzero"`
	// Confidence is that of the forecast; 90 % when not given.
	Confidence *unit.Ratio `json:"confidence,omitzero"`
	// Hides are the hides at hand or on offer, as measured. When they do not
	// suffice, hides of HideArea are added, if it is given.
	Hides []HideSpec `json:"hides,omitempty"`
	// Waste is the share of the hides that is lost by the rule of thumb; when
	// not given, a third, as is customary.
	Waste *unit.Ratio `json:"waste,omitzero"`
	// BuyBy is what the order follows: the layout when not given.
	BuyBy BuyBy `json:"buy_by,omitzero"`
}

// ShadeSpec is a group of panels that must be cut from neighbouring places. Panels
// name it.
type ShadeSpec struct {
	Name   string      `json:"name" required:"true" hint:"a name that panels refer to"`
	Window unit.Length `json:"window" required:"true" hint:"the length of roll that all of them lie within"`
}

// HideSpec is one hide as it lies on the table: Y along the backbone towards the
// neck, X across. What is seen in the photo of its outline needs no marks of its
// own there: holes, marks in the leather and regions that are photos are then
// points of that one.
type HideSpec struct {
	Name string `json:"name" required:"true" hint:"the number on the hide, or another name"`
	// OnOffer says that the hide must be bought; others are at hand, are used
	// first and cost nothing more.
	OnOffer bool `json:"on_offer,omitempty"`
	// Outline is the border as measured. Without one the hide has the usual
	// shape of its kind at its area.
	Outline *shape.Form `json:"outline,omitzero"`
	// Backbone is how far from the origin of the outline, across the hide, the backbone
	// runs: the layout is then measured from it, else from the left edge.
	Backbone *unit.Length      `json:"backbone,omitempty"`
	Skin     material.SkinKind `json:"skin,omitzero"` // what it is; a whole hide when there is no outline either
	Area     unit.Area         `json:"area,omitzero"` // as marked on it; that inside the outline when not given
	// Border is a rim that is not used.
	Border  unit.Length    `json:"border,omitzero"`
	Holes   []shape.Form   `json:"holes,omitempty"`   // shapes with their place
	Defects []DefectSpec   `json:"defects,omitempty"` // marks in the leather
	Grade   material.Grade `json:"grade,omitzero"`    // outside all zones; prime when not given
	Zones   []ZoneSpec     `json:"zones,omitempty"`   // regions with a grade of their own
	Stretch []StretchSpec  `json:"stretch,omitempty"` // which way it gives most, where that is known
}

// DefectSpec is a mark on a hide: an outline, or a round place with its diameter.
type DefectSpec struct {
	Kind     material.DefectKind `json:"kind,omitzero"`     // other when not given
	Severity material.Severity   `json:"severity,omitzero"` // what is usual for the kind when not given
	Outline  *shape.Form         `json:"outline,omitzero"`  // with its place; or At and Across
	At       *shape.Point        `json:"at,omitzero"`       // the middle of a round mark
	Seen     *shape.Pixel        `json:"seen,omitzero"`     // the middle of a round mark, in the photo of the outline
	Across   unit.Length         `json:"across,omitzero"`   // the diameter of a round mark
	Note     string              `json:"note,omitzero"`     // for the cutter
}

// ZoneSpec is a region of a hide with a grade of its own.
type ZoneSpec struct {
	Name    string         `json:"name,omitzero"` // such as neck folds
	Grade   material.Grade `json:"grade" required:"true" hint:"one of prime, good, fair, rough"`
	Outline shape.Form     `json:"outline" required:"true" hint:"the outline of the region"`
}

// StretchSpec says which way the leather gives most: in a region, or in the
// rest of the hide when it has no outline.
type StretchSpec struct {
	Outline   *shape.Form `json:"outline,omitzero"` // the region; the rest of the hide when not given
	Direction unit.Angle  `json:"direction" required:"true" hint:"an angle from across the backbone, such as \"90 deg\""`
}

// Furniture is a piece of furniture, or several alike: from a kind, or of parts
// that are all given.
type Furniture struct {
	Name  string `json:"name" required:"true" hint:"what the piece is called"`
	Count int    `json:"count,omitzero" least:"1"` // 1 when not given
	KindSpec
	// Lives is where the piece will live: it chooses the fibre of the thread, and
	// which rules the order speaks of. Indoors when not given.
	Lives thread.Exposure `json:"lives,omitzero"`
	// TakeOff is how the old cover came off.
	TakeOff *TakeOffSpec `json:"take_off,omitzero"`
	// For is who or what the piece is for where that is more than a home: it
	// chooses rules, papers and cautions of the order.
	For []caution.Use `json:"for,omitempty"`
	// Owner is who has the piece afterwards: same or new. The order speaks of
	// both when not given.
	Owner caution.Owner `json:"owner,omitzero"`
	// MayBeOld says that frame, paint or filling may be from before 1980, or that
	// the piece is painted.
	MayBeOld bool           `json:"may_be_old,omitzero"`
	Panels   []PanelSpec    `json:"panels,omitempty"`   // single panels
	Cushions []CushionSpec  `json:"cushions,omitempty"` // cushions and pillows
	Boxings  []BoxingSpec   `json:"boxings,omitempty"`  // strips between plates that are panels of their own
	Welts    []WeltSpec     `json:"welts,omitempty"`    // welt or piping along seams of panels
	Skirts   []SkirtSpec    `json:"skirts,omitempty"`   // skirts
	Tufted   []TuftedSpec   `json:"tufted,omitempty"`   // panels of deep-buttoned diamonds
	Channels []ChannelsSpec `json:"channels,omitempty"` // panels of upright filled channels

	// The cover as one thing. Where edges are sewn or fastened, every edge that
	// is to be sewn has just one seam or fastening.

	Seams      []SeamSpec      `json:"seams,omitempty"`      // edges that are sewn together
	Fastenings []FasteningSpec `json:"fastenings,omitempty"` // edges held by the frame or by themselves
	Trims      []TrimSpec      `json:"trims,omitempty"`      // welt, gimp and nails on the frame
	Meets      []MeetSpec      `json:"meets,omitempty"`      // edges that lie against each other unsewn
	// Motifs say where the pattern is to lie: seams and meets with a pattern carry it
	// on from there.
	Motifs []MotifSpec `json:"motifs,omitempty"`

	// Build is how the piece is built under its cover, which findings follow from: of
	// a kind, its way alone, such as board or webbed, or what is given here in the
	// place of what is usual for it.
	Build *build.Spec `json:"build,omitzero"`

	Foam   FoamList     `json:"foam,omitempty"`   // blocks of foam that are in no cushion; or of a kind the thickness of its foam
	Labour []LabourSpec `json:"labour,omitempty"` // time at the bench
	// Usual sets the time that is usual beside the labour, or prices the piece by it
	// where there is none.
	Usual *bench.Ask `json:"usual,omitzero"`
	// Rough prices a piece from a kind without any measures, as by telephone. Such a
	// piece has goods and a count, and neither parts nor layout.
	Rough *RoughSpec `json:"rough,omitzero"`
}

// SeamSpec is a seam between edges of panels. An edge is written as the panel, a
// dot and the edge, with what of it counts: "deck.front", "inside arm left.top
// from 2 in to 14 in". Several edges sewn in one run have " + " between them, in
// order anticlockwise. The start of one side meets the end of the other. Of a
// pair without a hand, the seam stands for both.
type SeamSpec struct {
	Name string         `json:"name,omitzero"` // of the shop's own; seams are lettered anyway
	Sew  allowance.Side `json:"sew" required:"true" hint:"an edge such as \"deck.front\""`
	To   allowance.Side `json:"to,omitzero"`  // the other side; half a zip has none
	And  allowance.Side `json:"and,omitzero"` // a third member, such as the lining behind two channels
	// Finish is how they are joined; a plain seam when not given.
	Finish SeamFinish `json:"finish,omitzero"`
	// Cord is the diameter of the cord of a welted seam.
	Cord unit.Length `json:"cord,omitzero"`
	Welt string      `json:"welt,omitzero"` // goods of the welt; those of the first edge when not given
	Bias bool        `json:"bias,omitzero"` // of the welt: cut at 45 degrees, as one continuous strip
	// Row is how far from the seam a top-stitched row lies; 3/16 in when not
	// given.
	Row     unit.Length `json:"row,omitzero"`
	Backing string      `json:"backing,omitzero"` // goods under the rows of a double top-stitched seam
	Zip     string      `json:"zip,omitzero"`     // names the zip that one edge is sewn to; another seam names it too
	// Fullness is the longer side per length of the shorter in a gathered seam.
	Fullness  unit.Ratio  `json:"fullness,omitzero"`
	Stretched bool        `json:"stretched,omitzero"` // the shorter side is stretched to the longer
	FlatEnds  unit.Length `json:"flat_ends,omitzero"` // of each end that takes no ease; 1 in when not given
	CrossingSpec
}

// CrossingSpec says how a pattern runs across a seam or from one edge to another.
type CrossingSpec struct {
	// Pattern is which way it runs on; none when not given.
	Pattern allowance.PatternWay    `json:"pattern,omitzero"`
	Point   allowance.CrossingPoint `json:"point,omitzero"`  // where the two sides must agree; the middle when not given
	Gap     unit.Length             `json:"gap,omitzero"`    // of pattern that is lost to the eye between the two
	Hidden  bool                    `json:"hidden,omitzero"` // the place is not seen, so that it may give way first
}

// FasteningSpec holds edges to the frame or to themselves.
type FasteningSpec struct {
	// Fasten are the edges, each held by itself; a run of several has " + "
	// between them.
	Fasten []allowance.Side `json:"fasten" required:"true" hint:"a list of edges such as \"inside back.top\""`
	// Finish is how they are held; pulled over when not given.
	Finish allowance.FasteningKind `json:"finish,omitzero"`
	On     string                  `json:"on,omitzero"`     // what of the frame, such as "top rail"
	Over   *unit.Length            `json:"over,omitzero"`   // goes over or through the rails, in place of what is usual
	Staple *unit.Length            `json:"staple,omitzero"` // is stapled or turned, in place of what is usual
	// Rail is the thickness of the rail that the edge goes round; an edge turned
	// below a rail needs it.
	Rail     unit.Length `json:"rail,omitzero"`
	Handling unit.Length `json:"handling,omitzero"`   // left outside for the hand and trimmed off
	HiddenBy []string    `json:"hidden_by,omitempty"` // the panels that hide the edge and are fitted after it
	// PullStrip is goods, by their id, for a strip that is sewn on and does the
	// pulling: the panel ends where it goes out of sight. For edges pulled over or
	// pushed through.
	PullStrip string `json:"pull_strip,omitzero"`
}

// TrimSpec is welt, gimp or nails along the frame.
type TrimSpec struct {
	Name string             `json:"name" required:"true" hint:"where it goes"`
	Kind allowance.TrimKind `json:"kind,omitzero"` // welt when not given
	// Length of one piece of furniture.
	Length   unit.Length `json:"length" required:"true" hint:"how long it is"`
	Cord     unit.Length `json:"cord,omitzero"`       // the diameter of the cord of a welt
	Welt     string      `json:"welt,omitzero"`       // goods of the welt
	Bias     bool        `json:"bias,omitzero"`       // of the welt: cut at 45 degrees, as one continuous strip
	HiddenBy []string    `json:"hidden_by,omitempty"` // the panels that hide its edge and are fitted after it
	Covers   []string    `json:"covers,omitempty"`    // the panels whose edges it covers; it is put on after them
}

// MeetSpec is two edges, or lines inside them, that lie against each other
// unsewn, as a back behind a cushion.
type MeetSpec struct {
	Meet allowance.Side `json:"meet" required:"true" hint:"an edge such as \"inside back.bottom\""`
	In   unit.Length    `json:"in,omitzero"` // how far inside the edge the line lies
	To   allowance.Side `json:"to" required:"true" hint:"an edge such as \"seat.back\""`
	ToIn unit.Length    `json:"to_in,omitzero"` // how far inside that edge the line lies
	CrossingSpec
}

// MotifSpec wants a motif on a point of a panel. Panels that no motif is asked for on,
// and that no pattern runs into, lie anywhere on the pattern.
type MotifSpec struct {
	On string `json:"on" required:"true" hint:"a panel such as \"inside back\" or \"seat cushion 2.top plate\""`
	// At is the point of the finished panel, from the lower left corner of the box
	// round it, inside or outside of it; its middle when not given.
	At *shape.Point  `json:"at,omitzero"`
	Or []shape.Point `json:"or,omitempty"` // other points that will do, where no pattern runs into or out of the panel
	// Way is how it binds: across for stripes, along for levels; both when not
	// given.
	Way allowance.PatternWay `json:"way,omitzero"`
	// Alike is a name that several share: their points show the same part of the
	// pattern, whichever serves the layout best.
	Alike string `json:"alike,omitzero"`
}

// PanelSpec is a panel of the cover, as it will be seen in place: a rectangle by
// its width across the goods and its length along them, up the roll, or any
// outline.
type PanelSpec struct {
	Name    string      `json:"name" required:"true" hint:"what the panel is called"`
	Goods   string      `json:"goods" required:"true" hint:"the id of goods"`
	Count   int         `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Width   unit.Length `json:"width,omitzero"`           // of a rectangle, finished, across the goods
	Length  unit.Length `json:"length,omitzero"`          // of a rectangle, finished, along the goods
	Outline *shape.Form `json:"outline,omitzero"`         // in place of width and length
	// Ripped says that the outline, or width and length, is what was traced of the old
	// panel, and what of it: the finished panel follows from that, and all else in this
	// list is of the finished one.
	Ripped *allowance.Ripped `json:"ripped,omitzero"`
	// TakeOff is what was noted of the old panel.
	TakeOff *TakenOff `json:"take_off,omitzero"`
	// Edges is the finish all round; a plain seam when not given.
	Edges  allowance.Edge  `json:"edges,omitzero"`
	Top    *allowance.Edge `json:"top,omitzero"`    // in place of Edges at the top
	Right  *allowance.Edge `json:"right,omitzero"`  // in place of Edges on the right
	Bottom *allowance.Edge `json:"bottom,omitzero"` // in place of Edges at the bottom
	Left   *allowance.Edge `json:"left,omitzero"`   // in place of Edges on the left
	// ByEdge holds the finish of single edges by their names, in place of Edges.
	ByEdge map[string]allowance.Edge `json:"by_edge,omitempty"`
	// Corner is how the cut line goes round corners; mitred when not given.
	Corner  shape.Corner      `json:"corner,omitzero"`
	Notches []allowance.Notch `json:"notches,omitempty"` // marks at the edge, to be met when sewing
	// Lines inside the panel that are sewn or fastened as edges are.
	Lines  []allowance.InnerLine `json:"lines,omitempty"`
	Across *allowance.Stretch    `json:"across,omitzero"` // fit of the width, in place of the stretch of the goods
	Along  *allowance.Stretch    `json:"along,omitzero"`  // fit of the length, in place of the stretch of the goods
	// Pair cuts every second copy mirrored, left and right.
	Pair bool `json:"pair,omitzero"`

	// On a roll.

	// MayRailroad lets the panel lie across plain goods. It is refused on
	// goods with nap or repeat.
	MayRailroad bool `json:"may_railroad,omitzero"`
	// Unmatched lets the panel lie off the repeat of patterned goods.
	Unmatched bool `json:"unmatched,omitzero"`
	// Motif is the point of the finished panel that must lie on a motif, from
	// the lower left corner of the box round it. Motifs of the piece can say more.
	Motif *shape.Point `json:"motif,omitzero"`
	Shade string       `json:"shade,omitzero"` // the name of a shade group of the goods
	// Join lets a panel be joined from narrower or from shorter ones. Where a motif is asked for on
	// it, or a pattern runs into it, the pattern runs on over the joins; otherwise the
	// panel lies off the repeat and its joins do not match.
	Join *Joining `json:"join,omitzero"`

	// On hides.

	// Grain is which way the panel may lie; either way along the backbone when
	// not given.
	Grain Grain `json:"grain,omitzero"`
	// Grade is the poorest grade the panel may lie on; prime when not given.
	Grade material.Grade `json:"grade,omitzero"`
	// Marks is the worst mark that may lie on the panel; none when not given.
	Marks   material.Severity   `json:"marks,omitzero"`
	Stretch *layout.StretchWish `json:"stretch,omitzero"` // asks for leather that gives in one direction
}

// Joining says how a panel may be joined from segments. One that is too wide for the goods
// has no more of them than the fewest equal ones that fit, and one that fits is whole; a
// length is divided where that saves goods. A panel that lies on a pattern and is wider than its place there
// has a centre as wide as can be and equal sides.
type Joining struct {
	AlongWidth bool         `json:"along_width,omitzero"` // divides the width; otherwise the length
	Allowance  *unit.Length `json:"allowance,omitzero"`   // added to both segments; that of a plain seam when not given
	Least      unit.Length  `json:"least" required:"true" hint:"the least finished length of a segment"`
	Most       int          `json:"most" required:"true" hint:"the most joins in a panel, at least 2 where it lies on a pattern"`
}

// CushionSpec is a cushion or pillow, boxed unless Kind says otherwise.
type CushionSpec struct {
	Name  string           `json:"name" required:"true" hint:"what the cushion is called"`
	Count int              `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Pair  bool             `json:"pair,omitzero"`            // each is two: the left one as drawn, and its mirror image
	Kind  made.CushionKind `json:"kind,omitzero"`            // boxed when not given
	Width unit.Length      `json:"width,omitzero"`           // finished, along the front, ears included; of a bolster, its length
	Depth unit.Length      `json:"depth,omitzero"`           // finished, from front to back; of a bolster, its diameter; not of a round one
	// LeftEar is how far the cushion stands out before the sitter's left arm: a T
	// has both ears, the end cushion of a sofa one.
	LeftEar  unit.Length `json:"left_ear,omitzero"`
	RightEar unit.Length `json:"right_ear,omitzero"` // how far it stands out before the right arm
	EarDepth unit.Length `json:"ear_depth,omitzero"` // of the ears, from front to back
	// Outline is the plate of a boxed or a knife-edge cushion of another shape
	// than a rectangle, in place of width and depth.
	Outline *shape.Form `json:"outline,omitzero"`
	// Thickness is the finished height of the boxing; not of a knife edge or a
	// bolster.
	Thickness unit.Length `json:"thickness,omitzero"`
	// BackThickness makes a boxed cushion of width and depth a wedge, whose
	// Thickness is that at the front.
	BackThickness unit.Length `json:"back_thickness,omitzero"`

	Top    string       `json:"top" required:"true" hint:"the id of goods"`
	Bottom string       `json:"bottom,omitzero"` // goods; as the top when not given
	Boxing string       `json:"boxing,omitzero"` // goods of the boxing, or of the ends of a bolster; as the top when not given
	Welt   *CushionWelt `json:"welt,omitzero"`   // in its seams; none when not given
	// TopStitch sews the allowances down on the plates, in seams without welt.
	TopStitch bool         `json:"top_stitch,omitzero"`
	Seam      *unit.Length `json:"seam,omitzero"`     // the allowance of every seam but the zip; 1/2 in when not given
	ZipSeam   *unit.Length `json:"zip_seam,omitzero"` // the allowance along the zip; 3/4 in when not given
	Zip       bool         `json:"zip,omitzero"`      // opens at the back; closed by hand there when not given
	// ZipEdge is the edge of the outline that is the back, where it opens; the one
	// called back or top when not given.
	ZipEdge   string      `json:"zip_edge,omitzero"`
	ZipBack   unit.Length `json:"zip_back,omitzero"`   // the finished length that opens; worked out when not given
	FrontEdge string      `json:"front_edge,omitzero"` // the edge of the outline that is the front, best one piece of boxing; the one called front or bottom when not given
	// Least is the least finished length of a piece of boxing that is joined; 6 in
	// when not given.
	Least  *unit.Length `json:"least,omitzero"`
	Pocket unit.Length  `json:"pocket,omitzero"` // how far the boxing laps over each end of the zip; none when not given
	// Fit is how tight the cover sits on its filling; snug when not given.
	Fit    made.CushionFit `json:"fit,omitzero"`
	TakeUp *unit.Length    `json:"take_up,omitzero"` // how much larger the filling is than the cover, in place of that of the fit
	// Attached is the edge of a boxed or a knife-edge cushion at which it is sewn to the
	// piece, in the seam of its lower plate: a seam of the piece names it as the upper
	// plate does, as in "back cushion.front". None when not given.
	Attached string `json:"attached,omitzero"`
	// FillingGiven says that width and depth are those of the filling: the cover is
	// made smaller by what it is squeezed.
	FillingGiven bool `json:"filling_given,omitzero"`
	// Taper draws the corners of a knife edge in, so that they do not stand out when
	// it is filled: 1/2 in is usual over loose filling, 3/4 in over foam. None when
	// not given.
	Taper unit.Length `json:"taper,omitzero"`
	// Rise is how far the filling of a boxed cushion stands above its boxing in the
	// middle; where leather or vinyl would not stretch over it, the plates are bowed.
	Rise         unit.Length `json:"rise,omitzero"`
	GatheredEnds bool        `json:"gathered_ends,omitzero"` // draws the ends of a bolster up to buttons, in place of round ends
	// Pattern is which way the pattern of a boxed cushion runs on from the top over
	// the boxing at the front; not at all when not given.
	Pattern allowance.PatternWay `json:"pattern,omitzero"`
	// RoundFront gives a waterfall cushion a half-round front.
	RoundFront bool `json:"round_front,omitzero"`
	// MayRailroad lets the plates lie across plain goods.
	MayRailroad bool `json:"may_railroad,omitzero"`
	// Join lets rectangular plates that are too long for the goods be joined, as panels
	// are.
	Join  *Joining          `json:"join,omitzero"`
	Grain Grain             `json:"grain,omitzero"` // of leather, as that of a panel; strips lie any way
	Grade material.Grade    `json:"grade,omitzero"` // of leather, for all parts, as that of a panel
	Marks material.Severity `json:"marks,omitzero"` // on leather, for all parts, as that of a panel
	Foam  *FillingSpec      `json:"foam,omitzero"`  // none when not given
	// PillowForm fills a knife-edge cushion with a form that is bought.
	PillowForm *PillowFormSpec `json:"pillow_form,omitzero"`
}

// PillowFormSpec is a pillow form that is bought.
type PillowFormSpec struct {
	Price    cost.Money `json:"price,omitzero"`    // of one; it is not on the quote when not given
	Supplier string     `json:"supplier,omitzero"` // who sells it; not known when not given
}

// CushionWelt is the covered cord in the seams of a cushion.
type CushionWelt struct {
	Cord  unit.Length `json:"cord" required:"true" hint:"the diameter of the cord, such as \"5/32 in\""`
	Goods string      `json:"goods,omitzero"` // as the top when not given
	Bias  bool        `json:"bias,omitzero"`  // cut at 45 degrees, as one continuous strip
}

// BoxingSpec is a strip between two plates that are panels of their own.
type BoxingSpec struct {
	Name      string      `json:"name" required:"true" hint:"what it is called"`
	Goods     string      `json:"goods" required:"true" hint:"the id of goods"`
	Count     int         `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Perimeter unit.Length `json:"perimeter" required:"true" hint:"the seam line all round"`
	Depth     unit.Length `json:"depth" required:"true" hint:"the finished height"`
	ZipBack   unit.Length `json:"zip_back,omitzero"` // length of the back that opens; none when not given
}

// WeltSpec is covered cord, or piping, along seams of panels.
type WeltSpec struct {
	Name  string        `json:"name" required:"true" hint:"where it goes"`
	Goods string        `json:"goods" required:"true" hint:"the id of goods"`
	Count int           `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Cord  unit.Length   `json:"cord" required:"true" hint:"the diameter of the cord, such as \"5/32 in\""`
	Runs  []unit.Length `json:"runs" required:"true" hint:"the length of each seam that has it"`
	// Double lays two cords side by side under one strip.
	Double bool `json:"double,omitzero"`
	Bias   bool `json:"bias,omitzero"` // cut at 45 degrees, as one continuous strip
}

// SkirtSpec hangs from a seam all round: gathered, pleated, or plain with a kick
// pleat at each corner.
type SkirtSpec struct {
	Name   string          `json:"name" required:"true" hint:"what it is called"`
	Goods  string          `json:"goods" required:"true" hint:"the id of goods"`
	Count  int             `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Kind   made.SkirtKind  `json:"kind" required:"true" hint:"one of gathered, pleated, kick pleat"`
	Sides  []unit.Length   `json:"sides" required:"true" hint:"the length of each side of the seam it hangs from"`
	Drop   unit.Length     `json:"drop" required:"true" hint:"the finished depth"`
	Top    allowance.Edge  `json:"top,omitzero"`    // a plain seam when not given
	Bottom *allowance.Edge `json:"bottom,omitzero"` // a double hem when not given
	// Fullness is cloth over seam of a gathered skirt, such as 2.
	Fullness  unit.Ratio     `json:"fullness,omitzero"`
	Pleat     made.PleatKind `json:"pleat,omitzero"`     // of a pleated skirt: how pleats fold; knife pleats when not given
	Pleats    int            `json:"pleats,omitzero"`    // of a pleated skirt: how many there are all round
	Underfold unit.Length    `json:"underfold,omitzero"` // of a pleated skirt: how deep each fold is
	// Lined cuts the panels of a kick pleat skirt double, folded at the hem.
	Lined bool `json:"lined,omitzero"`
	// Pattern is which way the pattern of a kick pleat skirt runs on over the joins of
	// its panels, and level round its corners; not at all when not given.
	Pattern allowance.PatternWay `json:"pattern,omitzero"`
}

// TuftedSpec is a panel of deep-buttoned diamonds.
type TuftedSpec struct {
	Name   string        `json:"name" required:"true" hint:"what it is called"`
	Goods  string        `json:"goods" required:"true" hint:"the id of goods"`
	Count  int           `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Width  unit.Length   `json:"width" required:"true" hint:"the finished width"`
	Length unit.Length   `json:"length" required:"true" hint:"the finished length"`
	Across int           `json:"across" required:"true" hint:"diamonds side by side"`
	Down   int           `json:"down" required:"true" hint:"diamonds one above the other"`
	Depth  unit.Length   `json:"depth" required:"true" hint:"how deep the buttons lie"`
	Border unit.Length   `json:"border,omitzero"` // plain cloth round the diamonds; none when not given
	Rule   made.TuftRule `json:"rule" required:"true" hint:"one of half again, twice the depth, once the depth, groove"`
	// Tack is added all round; that of a pull-over when not given.
	Tack *unit.Length `json:"tack,omitzero"`
}

// ChannelsSpec is a panel of upright filled channels.
type ChannelsSpec struct {
	Name    string              `json:"name" required:"true" hint:"what it is called"`
	Goods   string              `json:"goods" required:"true" hint:"the id of goods"`
	Count   int                 `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Width   unit.Length         `json:"width" required:"true" hint:"the finished width"`
	Length  unit.Length         `json:"length" required:"true" hint:"the finished length"`
	Number  int                 `json:"number" required:"true" hint:"how many channels"`
	Rise    unit.Length         `json:"rise" required:"true" hint:"how far the filling rises"`
	Profile made.ChannelProfile `json:"profile,omitzero"` // an arc when not given
	// TopWidth is the width at the top of channels that taper for a curved back; as
	// the width when not given.
	TopWidth unit.Length `json:"top_width,omitzero"`
	// OnePiece stitches one piece through, or as few as the goods allow, joined along
	// channels; otherwise every channel is a piece.
	OnePiece bool   `json:"one_piece,omitzero"`
	Lining   string `json:"lining,omitzero"` // goods behind, sewn in at every line; none when not given
	// Pull is added at top, bottom and the outer edges; 2 in when not given.
	Pull *unit.Length `json:"pull,omitzero"`
}

// FillingSpec says what foam is wanted and what it costs.
type FillingSpec struct {
	Use  foam.Use  `json:"use" required:"true" hint:"one of seat, back, arm, headrest, bed, berth, bench, booth"`
	Duty foam.Duty `json:"duty" required:"true" hint:"one of light, normal, heavy, severe"`
	Base foam.Base `json:"base" required:"true" hint:"one of board, webbing, springs"`
	// Sitter is the heaviest usual occupant of a seat, bench, booth or berth; not
	// known when zero.
	Sitter unit.Mass `json:"sitter,omitzero"`
	// WantedFirmness is one to match, such as that of the old foam; the usual one
	// when not given.
	WantedFirmness *FirmnessSpec `json:"wanted_firmness,omitzero"`
	// Layers are sheets glued face to face, the top one first, together as thick as
	// the whole; one foam when not given.
	Layers []LayerSpec `json:"layers,omitempty"`
	// Crowns are bevelled pieces of the same foam under the wrap that raise the
	// middle: 1 on the top, 2 on both faces.
	Crowns int `json:"crowns,omitzero"`
	// Rolled is the thickness of the sheet that fills a bolster rolled up; a cylinder
	// when not given.
	Rolled unit.Length      `json:"rolled,omitzero"`
	Wrap   *WrapSpec        `json:"wrap,omitzero"` // batting round the foam; none when not given
	Price  cost.VolumePrice `json:"price" required:"true" hint:"a price per volume such as \"3.40 USD/bd ft\""`
	// PricedBy is what of a block is paid: its box when not given, or whole sheets
	// where Sheet says of what size.
	PricedBy FoamMeasure `json:"priced_by,omitzero"`
	// Sheet is the stock that is bought whole, as thick as the block. Blocks of one
	// foam, price, supplier and sheet share them.
	Sheet    *SheetSpec `json:"sheet,omitzero"`
	Supplier string     `json:"supplier,omitzero"` // who sells the foam; not known when not given
}

// SheetSpec is a sheet of foam as the merchant has it.
//
// It is laid out by sheet.Lay, which lays the boxes of the blocks.
type SheetSpec struct {
	Length unit.Length `json:"length" required:"true" hint:"the length of the sheet"`
	Width  unit.Length `json:"width" required:"true" hint:"the width of the sheet"`
	Kerf   unit.Length `json:"kerf,omitzero"`  // lost between neighbours; nothing when not given
	Joins  int         `json:"joins,omitzero"` // butt joins that a face may have; none when not given
}

// FirmnessSpec is a firmness of foam: as a test gives it, or as a press at the
// bench tells it.
type FirmnessSpec struct {
	IFD25 foam.IFD25 `json:"ifd25,omitzero"` // at 25 % such as "33 lbf"; or Press
	Press *PressSpec `json:"press,omitzero"` // of the old foam
}

// PressSpec is a weight on a round disc on the middle of the old foam. Press the
// foam down to three quarters twice and let it rest six minutes first.
//
// It is read by foam.IdentifyIFD25.
type PressSpec struct {
	Disc      unit.Length `json:"disc" required:"true" hint:"the diameter of the disc, 10 to 35 cm"`
	Weight    unit.Mass   `json:"weight" required:"true" hint:"disc and all"`
	Sink      unit.Length `json:"sink" required:"true" hint:"after a minute, 5 to 65 % of the thickness"`
	Thickness unit.Length `json:"thickness" required:"true" hint:"of the old foam, 1 in or more"`
	SinkError unit.Length `json:"sink_error,omitzero"` // how far the reading of the sink may be off; taken as exact when not given
}

// LayerSpec is one sheet of layered foam.
type LayerSpec struct {
	Name      string      `json:"name" required:"true" hint:"what the layer is called, such as \"soft top\""`
	Thickness unit.Length `json:"thickness" required:"true" hint:"the thickness of the layer"`
	// Use chooses the firmness that is usual for it; that of the filling when not
	// given.
	Use            foam.Use         `json:"use,omitzero"`
	WantedFirmness *FirmnessSpec    `json:"wanted_firmness,omitzero"` // in place of what is usual
	Price          cost.VolumePrice `json:"price,omitzero"`           // that of the filling when not given
}

// WrapSpec is batting round a block of foam: over both faces and the front edge,
// and round a bolster.
//
// It is cut by wrap.CutFor and wrap.CutRound.
type WrapSpec struct {
	// Loft is the thickness of one layer, not pressed. All layers together under
	// 1/2 in count as bare foam; from there on the wrap is the take-up of the
	// cover.
	Loft    unit.Length  `json:"loft" required:"true" hint:"the thickness of the batting such as \"3/4 in\""`
	Layers  int          `json:"layers,omitzero" least:"1"` // 1 when not given
	Back    bool         `json:"back,omitzero"`             // over the back edge too
	Sides   bool         `json:"sides,omitzero"`            // pieces of their own on the two sides, or on the ends of a bolster
	Overlap *unit.Length `json:"overlap,omitzero"`          // where it meets or tucks in; 1 in when not given
	// Width is that of the batting on the roll; the length to buy is not counted
	// without it.
	Width unit.Length `json:"width,omitzero"`
	Price GoodsPrice  `json:"price,omitzero"` // per area, or per length of a roll; not priced when not given
	// Supplier is who sells the batting; that of the foam when not given.
	Supplier string `json:"supplier,omitzero"`
}

// FoamSpec is a block of foam for a piece, by its finished size or by its outline
// as seen from above, with the front below.
type FoamSpec struct {
	Name      string      `json:"name" required:"true" hint:"what the block is called"`
	Count     int         `json:"count,omitzero" least:"1"` // for each piece; 1 when not given
	Width     unit.Length `json:"width,omitzero"`           // finished, along the front
	Depth     unit.Length `json:"depth,omitzero"`           // finished, from front to back
	Outline   *shape.Form `json:"outline,omitzero"`         // in place of width and depth
	Thickness unit.Length `json:"thickness" required:"true" hint:"thickness of the foam"`
	// BackThickness makes it a wedge: Thickness is that at the front.
	BackThickness unit.Length `json:"back_thickness,omitzero"`
	Filling       FillingSpec `json:"filling" required:"true" hint:"use, duty, base and price"`
}

// LabourSpec is time at the bench for one piece.
type LabourSpec struct {
	Task string        `json:"task" required:"true" hint:"what is done"`
	Time unit.Duration `json:"time" required:"true" hint:"a time such as \"14.5 h\""`
	// Does are the tasks of the table of times that the time covers, so that it can be
	// set beside what is usual for them; each task in one entry of a piece.
	Does []bench.Task `json:"does,omitempty"`
	// Learning is what each doubling of the number of pieces leaves of the
	// time of one (unit model), such as 95 %; every piece takes Time when it is
	// not given.
	Learning *unit.Ratio `json:"learning,omitzero"`
	// Actual is the time that it took in the end, on all pieces.
	Actual unit.Duration `json:"actual,omitzero"`
}

// OptionSpec is another way to do the job: the same work with something replaced.
type OptionSpec struct {
	Name    string    `json:"name" required:"true" hint:"what the option is called"`
	Replace []Replace `json:"replace" required:"true" hint:"what to replace"`
}

// Replace puts one thing in the place of another: goods, a filling, a finding, or the
// time of a task. What changes nothing is refused.
type Replace struct {
	Goods   string        `json:"goods,omitzero"`   // the id of goods, wherever they are used
	Filling string        `json:"filling,omitzero"` // the name of a cushion or a block of foam
	Finding string        `json:"finding,omitzero"` // the code of a finding
	Labour  string        `json:"labour,omitzero"`  // the name of a task
	With    string        `json:"with,omitzero"`    // the id of other goods, or the code of another entry of the price list
	Foam    *FillingSpec  `json:"foam,omitzero"`    // fills the part instead
	Time    unit.Duration `json:"time,omitzero"`    // the task takes instead, for one piece
	Piece   string        `json:"piece,omitzero"`   // where filling or labour is replaced; everywhere when not given
}

// SewingSpec chooses the thread; empty fields leave it to the recommendation.
type SewingSpec struct {
	Fibre *thread.Fibre `json:"fibre,omitzero"` // as recommended when not given
	StitchWish
	// TopStitch is what top-stitching has of its own; when not given, thread one
	// size heavier than that of its seam, and the longest stitch that is usual.
	TopStitch StitchWish `json:"top_stitch,omitzero"`
	// Stitch is the stitch type; a lockstitch when not given.
	Stitch *thread.Stitch `json:"stitch,omitzero"`
	// Waste is added to the thread the seams take; 15 % when not given.
	Waste *unit.Ratio `json:"waste,omitzero"`
	// Tail is the thread left at each end of a row; 3 in when not given.
	Tail   *unit.Length `json:"tail,omitzero"`
	Bobbin unit.Length  `json:"bobbin,omitzero"` // thread on a full bobbin; bobbins are not counted without it
	Cone   unit.Mass    `json:"cone,omitzero"`   // net mass of thread on a full cone; cones are not counted without it
}

// StitchWish is size and length of stitches.
type StitchWish struct {
	Size         *thread.Size `json:"size,omitzero"`          // of the thread; as recommended when not given
	StitchLength unit.Length  `json:"stitch_length,omitzero"` // as recommended when not given
}

// QuoteSpec says how quantities become a price. It needs a LabourRate or a
// ShopRate that builds one up.
type QuoteSpec struct {
	LabourRate cost.HourPrice `json:"labour_rate,omitzero"` // what an hour is charged at; or ShopRate
	ShopRate   *ShopRateSpec  `json:"shop_rate,omitzero"`   // what builds it up
	// Markup is added to the cost of goods, foam and findings; nothing when not
	// given.
	Markup unit.Ratio `json:"markup,omitzero"`
	// MarkupBy is added to some kinds of lines in place of Markup.
	MarkupBy *MarkupSpec `json:"markup_by,omitzero"`
	// Extras are fixed amounts, without markup.
	Extras []ExtraSpec `json:"extras,omitempty"`
	// Sundries is one sum for small findings.
	Sundries *build.Sundries `json:"sundries,omitzero"`
	// Taxes fall on amounts with their markup.
	Taxes []TaxSpec `json:"taxes,omitempty"`
	// TaxLevel says where tax is rounded; per invoice when not given.
	TaxLevel cost.TaxLevel `json:"tax_level,omitzero"`
	// PricesIncludeTax says that rates and prices contain the taxes already.
	PricesIncludeTax bool `json:"prices_include_tax,omitzero"`
	// Contingency is added to all other lines for what cannot be seen yet.
	Contingency unit.Ratio `json:"contingency,omitzero"`
	// Class says how well the job is known, 5 a guess to 1 everything in
	// hand; it gives the range of the quote. None when not given.
	Class     int            `json:"class,omitzero"`
	Discounts []DiscountSpec `json:"discounts,omitempty"` // taken off, in this order
	// Deposit is the share of the total with tax that is due before work starts.
	Deposit *unit.Ratio `json:"deposit,omitzero"`
	// DepositCovers are kinds of lines that the deposit pays at least, such as goods:
	// it is the larger of its share and their subtotal, before discounts and tax.
	DepositCovers []cost.Kind `json:"deposit_covers,omitempty"`
	Stages        []StageSpec `json:"stages,omitempty"` // payments, in place of Deposit
	// Least is the least that is charged for the job, and Step what its price is
	// rounded up to, each by a line of its own. The price is meant as it is said:
	// without taxes, or with them where prices include them; discounts before tax
	// are off. Taxes fall on these lines where they name their kinds.
	Least     cost.Money `json:"least,omitzero"`
	Step      cost.Money `json:"step,omitzero"`       // what the price is rounded up to, such as 5.00 USD
	Issued    cost.Date  `json:"issued,omitzero"`     // the day of the quote
	ValidDays int        `json:"valid_days,omitzero"` // how many days the quote holds
	// Cash shows the total as it is paid in cash.
	Cash bool `json:"cash,omitzero"`
	// CashIn is the same by the rule of a place, such as Ireland. Totals in euros
	// need it: they are paid to the cent where no place is named.
	CashIn string `json:"cash_in,omitzero"`
	// Rounding of every line and tax; half-up when not given.
	Rounding cost.Rounding `json:"rounding,omitzero"`
}

// ShopRateSpec builds up the rate of an hour from wage, burden and overhead.
//
// It is worked out by rate.ShopRate.
type ShopRateSpec struct {
	Wage     cost.HourPrice `json:"wage" required:"true" hint:"an hourly wage such as \"20.00 USD/h\""`
	Burden   unit.Ratio     `json:"burden,omitzero"`   // share on the wage: taxes, insurance, holidays
	Overhead cost.Money     `json:"overhead,omitzero"` // of a year
	Hours    unit.Duration  `json:"hours,omitzero"`    // productive hours of a year, all workers
	Margin   *unit.Ratio    `json:"margin,omitzero"`   // of the rate that is charged; or Markup
	Markup   *unit.Ratio    `json:"markup,omitzero"`   // on the rate at cost; not both
}

// DiscountSpec is taken off, as a rate or as an amount.
type DiscountSpec struct {
	Name     string      `json:"name" required:"true" hint:"what the discount is for"`
	Rate     unit.Ratio  `json:"rate,omitzero"`      // a share; or Amount
	Amount   cost.Money  `json:"amount,omitzero"`    // a fixed amount
	Kinds    []cost.Kind `json:"kinds,omitempty"`    // the lines it is taken off; all when not given
	AfterTax bool        `json:"after_tax,omitzero"` // taken off the total with tax
}

// StageSpec is one payment; the last may leave its share out and takes the rest.
type StageSpec struct {
	Name  string     `json:"name" required:"true" hint:"what the payment is called"`
	Share unit.Ratio `json:"share,omitzero"` // of the total; the rest when not given, in the last stage only
	Due   string     `json:"due,omitzero"`   // when, in words
}

// ExtraSpec is a fixed amount on the quote, such as delivery or findings.
type ExtraSpec struct {
	Kind   cost.Kind  `json:"kind" required:"true" hint:"a kind of line, such as delivery"`
	Name   string     `json:"name" required:"true" hint:"what it is for"`
	Amount cost.Money `json:"amount" required:"true" hint:"an amount such as \"85.00 USD\""`
	// Piece is the piece of furniture that it is for; the whole job when not given.
	Piece string `json:"piece,omitzero"`
}

// TaxSpec is charged on the lines of some kinds.
type TaxSpec struct {
	Name string      `json:"name" required:"true" hint:"what the tax is called"`
	Rate unit.Ratio  `json:"rate" required:"true" hint:"a rate such as \"6.25 %\""`
	On   []cost.Kind `json:"on" required:"true" hint:"kinds of lines"`
	// Except are classes of labour that it does not fall on: fabrication labour, or
	// repair and application labour. Usual times have the one or the other, and labour
	// that says which tasks it does.
	Except []cost.TaxClass `json:"except,omitempty"`
}
