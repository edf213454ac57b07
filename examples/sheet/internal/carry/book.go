package carry

import (
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
)

// book is a workbook: its sheets, names and texts.
type book struct {
	*pack
	main   string // part of the workbook
	root   *node
	sheets []*sheet
	styles *styles
	texts  []*node  // that cells share
	plain  []string // the same without formats
}

// sheet is a sheet of a workbook.
type sheet struct {
	name, part string
	entry      *node  // of the workbook
	ours       bool   // the program writes it
	origin     string // its name as the program wrote it
	area       xlsx.Area
	scoped     []*node // names of its own
}

// openBook reads what is common to all sheets of a workbook.
func openBook(data []byte) (*book, error) {
	if _, err := xlsx.Open(data); err != nil { // bounds, passwords, what is no workbook
		return nil, err
	}
	p, err := open(data)
	if err != nil {
		return nil, err
	}
	b := &book{pack: p}
	top, err := b.relations("")
	if err != nil {
		return nil, err
	}
	for _, r := range top {
		if r.kind == "officeDocument" {
			b.main = r.target
		}
	}
	if b.root, err = b.change(b.main); err != nil {
		return nil, err
	}
	if ns := b.root.attr("xmlns"); ns != mainNS {
		return nil, refuse("it is in another form of the format (%.100s): save it as an ordinary .xlsx or .xlsm file", ns)
	}
	if err := b.findSheets(); err != nil {
		return nil, err
	}
	if err := b.findNames(); err != nil {
		return nil, err
	}
	return b, b.shared()
}

// shared reads styles and texts.
func (b *book) shared() error {
	rels, err := b.relations(b.main)
	if err != nil {
		return err
	}
	for _, r := range rels {
		switch r.kind {
		case "styles":
			root, err := b.change(r.target)
			if err != nil {
				return err
			}
			b.styles = newStyles(root)
		case "sharedStrings":
			root, err := b.look(r.target)
			if err != nil {
				return err
			}
			b.texts = root.all("si")
			for _, n := range b.texts {
				b.plain = append(b.plain, plainText(n))
			}
		}
	}
	if b.styles == nil {
		return damaged("it has no part of styles")
	}
	return nil
}

func (b *book) findSheets() error {
	rels, err := b.relations(b.main)
	if err != nil {
		return err
	}
	for _, n := range b.root.child("sheets").all("sheet") {
		i := slices.IndexFunc(rels, func(r relation) bool { return r.id == n.rel() })
		if i < 0 || !b.has(rels[i].target) {
			return damaged("the sheet %.100q has no part", n.attr("name"))
		}
		s := &sheet{name: n.attr("name"), part: rels[i].target, entry: n}
		s.origin = s.name
		if b.named(s.name) != nil {
			return damaged("it has two sheets %.100q", s.name)
		}
		b.sheets = append(b.sheets, s)
	}
	if len(b.sheets) == 0 {
		return damaged("it has no sheet")
	}
	return nil
}

// findNames finds the names that belong to a sheet alone.
func (b *book) findNames() error {
	for _, n := range b.root.child("definedNames").all("definedName") {
		scope, some := n.find("localSheetId")
		if !some {
			continue
		}
		i, err := strconv.Atoi(scope)
		if err != nil || i < 0 || i >= len(b.sheets) {
			return damaged("the name %.100q belongs to no sheet", n.attr("name"))
		}
		s := b.sheets[i]
		s.scoped = append(s.scoped, n)
		switch {
		case strings.EqualFold(n.attr("name"), AreaName):
			of, area, ok := xlsx.ParseReference(n.words())
			if !ok || !strings.EqualFold(of, s.name) {
				return refuse("the name %s of the sheet %q refers to %.100q, no region of that sheet: the rows or columns that the program wrote have been deleted", AreaName, s.name, n.words())
			}
			s.ours, s.area = true, area
		case strings.EqualFold(n.attr("name"), OriginName):
			s.origin = strings.ReplaceAll(strings.Trim(strings.TrimPrefix(n.words(), "="), `"`), `""`, `"`)
		}
	}
	return nil
}

func (b *book) named(name string) *sheet {
	for _, s := range b.sheets {
		if strings.EqualFold(s.name, name) {
			return s
		}
	}
	return nil
}

// finish writes the order of the sheets, and the scopes of names and the sheet that is
// shown, which go by that order.
func (b *book) finish(was []*sheet) {
	list := b.root.child("sheets")
	list.kids = nil
	at := map[*sheet]int{}
	for i, s := range b.sheets {
		list.add(s.entry)
		at[s] = i
	}
	now := func(old string) int {
		if i, err := strconv.Atoi(old); err == nil && i >= 0 && i < len(was) {
			if n, ok := at[was[i]]; ok {
				return n
			}
		}
		return 0
	}
	for _, v := range b.root.child("bookViews").all("workbookView") {
		for _, a := range []string{"activeTab", "firstSheet"} {
			if old, some := v.find(a); some {
				v.set(a, strconv.Itoa(now(old)))
			} else if i := now("0"); i > 0 && a == "activeTab" {
				v.set(a, strconv.Itoa(i))
			}
		}
	}
	for i, s := range b.sheets {
		for _, n := range s.scoped {
			n.set("localSheetId", strconv.Itoa(i))
		}
	}
	b.namesInOrder()
	calc := b.root.child("calcPr")
	if calc == nil {
		calc = element("calcPr")
		place(b.root, calc, workbookOrder)
	}
	calc.set("fullCalcOnLoad", "1")
}

// namesInOrder lists all names, as programs want them: by name, then by sheet.
func (b *book) namesInOrder() {
	list := b.root.child("definedNames")
	if list == nil {
		list = element("definedNames")
		place(b.root, list, workbookOrder)
	}
	list.drop(func(n *node) bool { _, scoped := n.find("localSheetId"); return scoped || n.name != "definedName" })
	for _, s := range b.sheets {
		list.add(s.scoped...)
	}
	if len(list.kids) == 0 {
		b.root.drop(func(n *node) bool { return n == list })
	}
	slices.SortStableFunc(list.kids, func(x, y *node) int {
		return strings.Compare(strings.ToLower(x.attr("name")), strings.ToLower(y.attr("name")))
	})
}

// Orders of the children of elements, from the format.
var (
	workbookOrder = []string{"fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets", "functionGroups", "externalReferences", "definedNames", "calcPr", "oleSize", "customWorkbookViews", "pivotCaches", "smartTagPr", "smartTagTypes", "webPublishing", "fileRecoveryPr", "webPublishObjects", "extLst"}
	sheetOrder    = []string{"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection", "protectedRanges", "scenarios", "autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins", "pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing", "legacyDrawing", "legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst"}
	stylesOrder   = []string{"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles", "colors", "extLst"} //nolint:misspell // the format's name
)

// place puts an element among the children of another, after those that the format wants
// before it.
func place(parent, n *node, order []string) {
	rank := func(k *node) int {
		if k.name == "mc:AlternateContent" { // stands for what is in it
			for _, c := range k.kids {
				for _, x := range c.kids {
					if i := slices.Index(order, x.name); i >= 0 {
						return i
					}
				}
			}
		}
		return slices.Index(order, k.name)
	}
	mine := rank(n)
	for i, k := range parent.kids {
		if k.name != "" && rank(k) > mine {
			parent.kids = slices.Insert(parent.kids, i, n)
			return
		}
	}
	parent.add(n)
}

// replace puts an element in the place of those with its name; nil takes them away.
func replace(parent *node, name string, n *node, order []string) {
	parent.drop(func(k *node) bool { return k.name == name })
	if n != nil {
		place(parent, n, order)
	}
}
