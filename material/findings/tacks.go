package findings

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	tackCounts = []Figure[int]{one("tacks", "box", 1000, cite.Practice("or a pound"))}
	tackMasses = []Figure[unit.Mass]{one("tacks", "box", unit.Pound, cite.Practice("or 1000"))}
)

// TackSize is a size of upholsterer's tacks.
type TackSize struct {
	Name   string      `json:"name"` // such as "2 1/2 oz", once the ounces of iron in 1000
	Length unit.Length `json:"length"`
	// Pound is how many went to a pound by the name, 16 000 / ounces, a fraction
	// left out. Tacks of today differ: of 8 oz about 1200 were counted, not 2000,
	// so count or weigh some before a mass becomes a number.
	Pound int        `json:"pound"`
	Use   string     `json:"use,omitempty"`
	Basis cite.Basis `json:"basis"` // of the length
}

// TackSizes lists the sizes, shortest first.
func TackSizes() []TackSize { return slices.Clone(tackSizes) }

var tackSizes = func() []TackSize {
	memory, read := cite.Memory(""), cite.In("HANDWORK-IN-WOOD", "")
	row := func(name string, tenths int, thirtySeconds unit.Length, use string, basis cite.Basis) TackSize {
		return TackSize{name, thirtySeconds * unit.Inch / 32, 160_000 / tenths, use, basis}
	}
	return []TackSize{
		row("1 oz", 10, 6, "", memory), row("1 1/2 oz", 15, 7, "", memory), row("2 oz", 20, 8, "", read),
		row("2 1/2 oz", 25, 10, "cover, ends of gimp", memory), row("3 oz", 30, 12, "", read), row("4 oz", 40, 14, "burlap", read),
		row("6 oz", 60, 16, "webbing on hard wood", read), row("8 oz", 80, 18, "webbing on hard wood", cite.Practice("")),
		row("10 oz", 100, 20, "webbing, spring twine", memory), row("12 oz", 120, 22, "", memory),
		row("14 oz", 140, 24, "", memory), row("16 oz", 160, 26, "", memory),
	}
}()
