package job

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/foam/sheet"
	"github.com/coverwright/coverwright/unit"
)

// wantedSheet is a block that is cut from whole sheets.
type wantedSheet struct {
	at    unit.Path // of the sheet in the job file
	block int       // place in the order
	size  SheetSpec
	price cost.VolumePrice
}

// sheetKind is what blocks must have in common to be cut from the same sheets.
type sheetKind struct {
	firmness  foam.IFD25
	density   foam.Range[unit.Density]
	wet       bool
	thickness unit.Length
	size      SheetSpec
	price     string
	supplier  string
}

// sheets lays out and prices the sheets that are bought whole, each kind once.
func (s Spec) sheets(ctx context.Context, out *fillings, wanted []wantedSheet) faults {
	var f faults
	var kinds []sheetKind
	groups := map[sheetKind][]wantedSheet{}
	for _, w := range wanted {
		b := out.blocks[w.block]
		k := sheetKind{b.Selection.Target, b.Selection.Density, b.Selection.Request.Wet, b.Cut.Thickness, w.size, w.price.String(), b.Supplier}
		if groups[k] == nil {
			kinds = append(kinds, k)
		}
		groups[k] = append(groups[k], w)
	}
	for _, k := range kinds {
		g := groups[k]
		bought, err := laidSheets(ctx, out.blocks, k, g)
		if err != nil {
			f.addAs(g[0].at, err)
			continue
		}
		source := unit.Path("sheets").At(len(out.sheets))
		line, err := cost.Item[unit.Volume]{Source: string(source), Kind: cost.Foam,
			What:     fmt.Sprintf("foam, %d × %s, for %s", bought.Order.Count, bought.Order.Stock.Name, cutFrom(out.blocks, g)),
			Quantity: bought.Volume, Price: g[0].price, Uplift: s.Quote.uplift(cost.Foam), Shares: bought.shares(out.blocks)}.Line()
		if f.add(g[0].at, err); err == nil {
			out.sheets, out.lines = append(out.sheets, bought), append(out.lines, line)
		}
	}
	return f
}

// laidSheets lays the boxes of the blocks on sheets of one kind.
func laidSheets(ctx context.Context, blocks []FoamBlock, k sheetKind, g []wantedSheet) (FoamSheets, error) {
	out := FoamSheets{Supplier: k.supplier}
	var parts []sheet.Part
	for _, w := range g {
		b := blocks[w.block]
		out.Blocks = append(out.Blocks, w.block)
		// The place makes the name one of its own.
		parts = append(parts, sheet.Part{Name: fmt.Sprintf("%d: %s: %s", w.block+1, b.Piece, b.Name()), Block: b.Cut, Count: b.Count})
	}
	name := k.size.Length.String() + " x " + k.size.Width.String() + " x " + k.thickness.String()
	plan, err := sheet.Lay(ctx, parts, sheet.Rules{Kerf: k.size.Kerf, MostJoins: k.size.Joins,
		Stock: []sheet.Stock{{Name: name, Length: k.size.Length, Width: k.size.Width, Thickness: k.thickness}}})
	if err != nil {
		return out, err
	}
	out.Order, out.Volume, out.Waste, out.Glued = plan.Orders[0], plan.Bought, plan.Waste, plan.Glued
	return out, nil
}

// cutFrom lists the parts that are cut from the sheets.
func cutFrom(blocks []FoamBlock, g []wantedSheet) string {
	var names []string
	for _, w := range g {
		if n := blocks[w.block].Piece + ": " + blocks[w.block].Name(); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	if len(names) > 2 {
		return fmt.Sprintf("%s and %d more", names[0], len(names)-1)
	}
	return strings.Join(names, " and ")
}
