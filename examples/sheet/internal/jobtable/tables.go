package jobtable

import "strings"

// plan is how a list of the job stands in the workbook.
type plan struct {
	key, sheet, title, list string
	form                    bool
	fields                  []string // those that stand there always, by their paths
	roll                    []string // lengths by the roll
}

// The sheets, in their order.
const (
	JobSheet      = "Job"
	TermsSheet    = "Terms"
	PiecesSheet   = "Furniture"
	PanelsSheet   = "Panels"
	CushionsSheet = "Cushions"
	PartsSheet    = "Parts"
	SeamsSheet    = "Seams"
	GoodsSheet    = "Covers"
	StockSheet    = "Stock"
	FillingsSheet = "Fillings"
	LabourSheet   = "Work"
	FindingsSheet = "Findings"
	OptionsSheet  = "Options"
)

// planned lists the tables.
var planned = []plan{
	{key: "job", sheet: JobSheet, title: "The job", form: true, fields: words("name number currency customer.name customer.address customer.phone customer.mail due jurisdictions shop.name shop.address shop.phone shop.mail")},
	{key: "sewing", sheet: JobSheet, title: "Thread", list: "sewing", form: true, fields: words("fibre size stitch_length cone bobbin"), roll: words("bobbin")},
	{key: "changes", sheet: JobSheet, title: "Changes that were agreed", list: "changes[]", fields: words("what amount kind agreed")},
	{key: "received", sheet: JobSheet, title: "Money that was received", list: "received[]", fields: words("what amount on how")},
	{key: "terms", sheet: TermsSheet, title: "Rates and terms", list: "quote", form: true, fields: words("labour_rate markup contingency class deposit least step issued valid_days")},
	{key: "taxes", sheet: TermsSheet, title: "Taxes", list: "quote.taxes[]", fields: words("name rate on except")},
	{key: "discounts", sheet: TermsSheet, title: "Discounts", list: "quote.discounts[]", fields: words("name rate amount kinds after_tax")},
	{key: "stages", sheet: TermsSheet, title: "Payments", list: "quote.stages[]", fields: words("name share due")},
	{key: "extras", sheet: TermsSheet, title: "Fixed amounts", list: "quote.extras[]", fields: words("name kind amount piece")},
	{key: "pieces", sheet: PiecesSheet, title: "Pieces of furniture", list: "pieces[]", fields: words("name count from goods goods_for lives filling.use filling.duty filling.base filling.sitter filling.price")},
	{key: "measures", sheet: PiecesSheet, title: "Measures of pieces that start from a kind", list: "pieces[].measures{}"},
	{key: "panels", sheet: PanelsSheet, title: "Panels", list: "pieces[].panels[]", fields: words("name goods count pair width length outline outline.*.width outline.*.height outline.*.bottom outline.*.top outline.*.diameter outline.*.rise edges top right bottom left")},
	{key: "cushions", sheet: CushionsSheet, title: "Cushions and pillows", list: "pieces[].cushions[]", fields: words("name count pair kind width depth thickness left_ear right_ear ear_depth top bottom boxing welt.cord zip foam.use foam.duty foam.base foam.sitter foam.price foam.wrap.loft")},
	{key: "boxings", sheet: PartsSheet, title: "Boxings between panels", list: "pieces[].boxings[]", fields: words("name goods count perimeter depth zip_back")},
	{key: "welts", sheet: PartsSheet, title: "Welts along seams of panels", list: "pieces[].welts[]", fields: words("name goods count cord runs double bias")},
	{key: "skirts", sheet: PartsSheet, title: "Skirts", list: "pieces[].skirts[]", fields: words("name goods count kind sides drop fullness pleat pleats underfold lined")},
	{key: "tufted", sheet: PartsSheet, title: "Deep-buttoned panels", list: "pieces[].tufted[]", fields: words("name goods count width length across down depth border")},
	{key: "channels", sheet: PartsSheet, title: "Panels of channels", list: "pieces[].channels[]", fields: words("name goods count number width length")},
	{key: "seams", sheet: SeamsSheet, title: "Seams", list: "pieces[].seams[]", fields: words("sew to finish cord pattern")},
	{key: "fastenings", sheet: SeamsSheet, title: "Edges on the frame", list: "pieces[].fastenings[]", fields: words("fasten finish on over staple hidden_by")},
	{key: "trims", sheet: SeamsSheet, title: "Trims on the frame", list: "pieces[].trims[]", fields: words("name kind length cord hidden_by")},
	{key: "meets", sheet: SeamsSheet, title: "Edges that meet unsewn", list: "pieces[].meets[]", fields: words("meet in to pattern")},
	{key: "motifs", sheet: SeamsSheet, title: "Motifs", list: "pieces[].motifs[]", fields: words("on at way alike")},
	{key: "goods", sheet: GoodsSheet, title: "Cloth and leather", list: "goods[]", fields: words("id name kind material price supplier fibre width selvage repeat drop nap increment hide_area waste whose"), roll: words("increment longest_strip margin.total")},
	{key: "hides", sheet: StockSheet, title: "Hides", list: "goods[].hides[]", fields: words("name on_offer area grade border")},
	{key: "at_hand", sheet: StockSheet, title: "Lengths at hand", list: "goods[].at_hand[]", fields: words("name length width"), roll: words("length")},
	{key: "foam", sheet: FillingsSheet, title: "Blocks of foam that are in no cushion", list: "pieces[].foam[]", fields: words("name count width depth thickness filling.use filling.duty filling.base filling.sitter filling.price filling.supplier")},
	{key: "labour", sheet: LabourSheet, title: "Time at the bench, for one piece", list: "pieces[].labour[]", fields: words("task time learning actual")},
	{key: "errands", sheet: LabourSheet, title: "Around the bench", list: "errands[]", fields: words("task")},
	{key: "build", sheet: FindingsSheet, title: "How pieces are built inside", list: "pieces[].build", fields: words("way")},
	{key: "prices", sheet: FindingsSheet, title: "Prices of findings", list: "prices[]", fields: words("code kind description price pack supplier")},
	{key: "options", sheet: OptionsSheet, title: "Options", list: "options[]", fields: words("name")},
	{key: "replace", sheet: OptionsSheet, title: "What an option puts in the place of what", list: "options[].replace[]", fields: words("goods with filling labour time piece")},
}

var plans = func() map[string]plan {
	out := map[string]plan{}
	for _, p := range planned {
		out[p.key] = p
	}
	return out
}()

func words(s string) []string { return strings.Fields(s) }

// apart gives what of an object has a table of its own, from inside it.
func apart(list string) map[string]bool {
	out := map[string]bool{}
	prefix := list
	if prefix != "" {
		prefix += "."
	}
	for _, p := range planned {
		if rest, ok := strings.CutPrefix(p.list, prefix); ok && p.list != list {
			name, _, _ := strings.Cut(rest, "[]")
			out[strings.TrimSuffix(name, "{}")] = true
		}
	}
	return out
}

// parent is what rows belong to.
type parent struct{ table, name, says string }

func parentOf(list string) parent {
	switch list {
	case "goods[]":
		return parent{"goods", "goods", "The short name of the goods, as in the table of cloth and leather."}
	case "options[]":
		return parent{"options", "option", "The name of the option."}
	}
	return parent{"pieces", "piece", "The name of the piece of furniture."}
}

// source gives the table whose names a field takes.
func source(path string, f Field) string {
	if f.Kind != Text {
		return ""
	}
	switch path[strings.LastIndexByte(path, '.')+1:] {
	case "goods", "top", "bottom", "boxing", "welt", "lining", "backing", "pull_strip":
		return "goods"
	case "piece":
		return "pieces"
	}
	return ""
}
