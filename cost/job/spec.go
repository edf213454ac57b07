package job

import (
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// SpecSchema is the value of a spec's schema field that this version reads.
const SpecSchema = "coverwright/job/1"

// Spec is a job before it is worked out. It is read from JSON by [Read]; the
// README describes the file. The zero value is refused.
type Spec struct {
	Schema   string        `json:"schema" required:"true" hint:"\"coverwright/job/1\""`
	Name     string        `json:"name" required:"true" hint:"what the job is called"`
	Currency cost.Currency `json:"currency" required:"true" hint:"an ISO 4217 code such as USD"`
	// Jurisdictions are the places whose fire rules go on the work order;
	// empty for all that are known.
	Jurisdictions []foam.Jurisdiction `json:"jurisdictions"`
	Goods         []Goods             `json:"goods" required:"true" hint:"a list of goods"`
	Pieces        []Piece             `json:"pieces" required:"true" hint:"a list of pieces of furniture"`
	Sewing        Sewing              `json:"sewing"`
	Quote         QuoteSpec           `json:"quote" required:"true" hint:"rates, taxes and terms"`
}

// Goods is a cover on offer, sold from a roll or as hides. Panels name it by
// its ID.
type Goods struct {
	ID   string    `json:"id" required:"true" hint:"a short name that panels refer to"`
	Kind GoodsKind `json:"kind" required:"true" hint:"roll or hide"`
	Name string    `json:"name" required:"true" hint:"what the supplier calls it"`
	// Material chooses needle, stitch and stretch.
	Material thread.Goods `json:"material" required:"true" hint:"what it is made of"`
	// Thickness of one layer, for the thread; 1 mm when not given.
	Thickness Thickness `json:"thickness"`
	// Price is per length for a roll ("68.00 USD/yd"), per area for hides
	// ("9.50 USD/sq ft").
	Price string `json:"price" required:"true" hint:"a price such as \"68.00 USD/yd\""`
	// Stretch is the share left out of each panel in both directions. When it
	// is not given, leather gets the customary rule and other goods nothing.
	Stretch *unit.Ratio `json:"stretch"`
	// LongestStrip limits boxing and welt strips; when not given, the usable
	// width of a roll, 54 in of a hide.
	LongestStrip unit.Length `json:"longest_strip"`

	// Of a roll.
	Width     unit.Length `json:"width"`
	Selvage   unit.Length `json:"selvage"`
	Repeat    unit.Length `json:"repeat"`
	Nap       bool        `json:"nap"`
	Increment unit.Length `json:"increment"`

	// Of hides.
	HideArea unit.Area `json:"hide_area"`
	// Waste is the share of the hides that is lost; when not given, a third,
	// as is customary.
	Waste *unit.Ratio `json:"waste"`
}

// Piece is a piece of furniture, or several alike.
type Piece struct {
	Name     string    `json:"name" required:"true" hint:"what the piece is called"`
	Count    *int      `json:"count"` // 1 when not given
	Panels   []Panel   `json:"panels"`
	Cushions []Cushion `json:"cushions"`
	Foam     []Foam    `json:"foam"`
	Labour   []Labour  `json:"labour"`
}

// Panel is a rectangular panel of the cover, as it will be seen in place.
// Width is across the goods, length along them, up the roll.
type Panel struct {
	Name   string      `json:"name" required:"true" hint:"what the panel is called"`
	Goods  string      `json:"goods" required:"true" hint:"the id of goods"`
	Count  *int        `json:"count"` // for each piece; 1 when not given
	Width  unit.Length `json:"width" required:"true" hint:"a length such as \"25 5/8 in\""`
	Length unit.Length `json:"length" required:"true" hint:"a length such as \"25 5/8 in\""`
	// Edges is the finish all round, Top to Left of single edges; a plain
	// seam when none is given.
	Edges  *Edge `json:"edges"`
	Top    *Edge `json:"top"`
	Right  *Edge `json:"right"`
	Bottom *Edge `json:"bottom"`
	Left   *Edge `json:"left"`
	// MayRailroad lets the panel lie across plain goods.
	MayRailroad bool `json:"may_railroad"`
	// Unmatched lets the panel lie off the repeat of patterned goods.
	Unmatched bool `json:"unmatched"`
}

// Cushion is a boxed cushion: two plates, a boxing strip between them, welt
// in both seams when it is asked for.
type Cushion struct {
	Name      string      `json:"name" required:"true" hint:"what the cushion is called"`
	Count     *int        `json:"count"`
	Width     unit.Length `json:"width" required:"true" hint:"finished width along the front"`
	Depth     unit.Length `json:"depth" required:"true" hint:"finished depth from front to back"`
	Thickness unit.Length `json:"thickness" required:"true" hint:"finished height of the boxing"`
	Top       string      `json:"top" required:"true" hint:"the id of goods"`
	Bottom    string      `json:"bottom"` // goods; as the top when not given
	Boxing    string      `json:"boxing"` // goods; as the top when not given
	Welt      *Welt       `json:"welt"`
	Zip       bool        `json:"zip"` // a zip across the back
	// MayRailroad lets the plates lie across plain goods.
	MayRailroad bool     `json:"may_railroad"`
	Foam        *Filling `json:"foam"`
}

// Welt is the covered cord in the seams of a cushion.
type Welt struct {
	Cord  unit.Length `json:"cord" required:"true" hint:"the diameter of the cord, such as \"5/32 in\""`
	Goods string      `json:"goods"` // as the top when not given
}

// Filling says what foam is wanted and what it costs.
type Filling struct {
	Use    foam.Use  `json:"use" required:"true" hint:"what it is for"`
	Duty   foam.Duty `json:"duty" required:"true" hint:"how hard it is used"`
	Base   foam.Base `json:"base" required:"true" hint:"what it lies on"`
	Sitter unit.Mass `json:"sitter"` // the heaviest usual occupant; not known when zero
	Price  string    `json:"price" required:"true" hint:"a price such as \"3.20 USD/bd ft\""`
}

// Foam is a block of foam for a piece, by its finished size.
type Foam struct {
	Name      string      `json:"name" required:"true" hint:"what the block is called"`
	Count     *int        `json:"count"`
	Width     unit.Length `json:"width" required:"true" hint:"finished width"`
	Depth     unit.Length `json:"depth" required:"true" hint:"finished depth"`
	Thickness unit.Length `json:"thickness" required:"true" hint:"thickness of the foam"`
	Filling   Filling     `json:"filling" required:"true" hint:"use, duty, base and price"`
}

// Labour is time at the bench for one piece.
type Labour struct {
	Task string        `json:"task" required:"true" hint:"what is done"`
	Time unit.Duration `json:"time" required:"true" hint:"a time such as \"14.5 h\""`
}

// Sewing chooses the thread; empty fields leave it to the recommendation.
type Sewing struct {
	Fibre *thread.Fibre `json:"fibre"`
	Size  *thread.Size  `json:"size"`
	// Stitch is the stitch type; a lockstitch when not given.
	Stitch *thread.Stitch `json:"stitch"`
	// Waste is added to the thread the seams take; 15 % when not given.
	Waste *unit.Ratio `json:"waste"`
	// Tail is the thread left at each end of a row; 3 in when not given.
	Tail *unit.Length `json:"tail"`
	// Bobbin is the thread on a full bobbin, Cone the net mass of thread on a
	// full cone; bobbins and cones are not counted without them.
	Bobbin unit.Length `json:"bobbin"`
	Cone   unit.Mass   `json:"cone"`
}

// QuoteSpec says how quantities become a price.
type QuoteSpec struct {
	LabourRate string `json:"labour_rate" required:"true" hint:"a rate such as \"64.55 USD/h\""`
	// Markup is added to the cost of goods and foam; nothing when not given.
	Markup unit.Ratio `json:"markup"`
	Extras []Extra    `json:"extras"`
	Taxes  []Tax      `json:"taxes"`
	// Deposit is the share due before work starts; none when not given.
	Deposit *unit.Ratio `json:"deposit"`
	// Rounding of every line and tax; half-up when not given.
	Rounding cost.Rounding `json:"rounding"`
}

// Extra is a fixed amount on the quote, such as delivery or findings.
type Extra struct {
	Kind   cost.Kind  `json:"kind" required:"true" hint:"a kind of line"`
	Name   string     `json:"name" required:"true" hint:"what it is for"`
	Amount cost.Money `json:"amount" required:"true" hint:"an amount such as \"85.00 USD\""`
}

// Tax is charged on the lines of some kinds.
type Tax struct {
	Name string      `json:"name" required:"true" hint:"what the tax is called"`
	Rate unit.Ratio  `json:"rate" required:"true" hint:"a rate such as \"6.25 %\""`
	On   []cost.Kind `json:"on" required:"true" hint:"kinds of lines"`
}
