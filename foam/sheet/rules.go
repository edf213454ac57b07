package sheet

import (
	"context"
	"fmt"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Part is a block wanted so many times.
type Part struct {
	Name  string     `json:"name"`
	Block foam.Block `json:"block"`
	Count int        `json:"count"` // 1 to 200
	// Fixed keeps the block's length along the sheet's length.
	Fixed bool `json:"fixed,omitempty"`
}

// Rules says how blocks may be cut and glued.
type Rules struct {
	Stock []Stock     `json:"stock"`
	Kerf  unit.Length `json:"kerf,omitzero"` // lost between neighbours, 0 to 1 in
	// MostPlies is how many sheets may be glued face to face for a thickness,
	// 1 to 6; zero means 1.
	MostPlies int `json:"most_plies,omitzero"`
	// MostJoins is how many butt joins a face may have, 0 to 4.
	MostJoins int `json:"most_joins,omitzero"`
}

const (
	mostCuts  = 2000
	mostParts = mostCuts / 6
	mostStock = 200
)

// check refuses what Lay cannot answer and fills in what zero stands for.
func (r Rules) check(ctx context.Context, parts []Part) (Rules, error) {
	if ctx == nil {
		return r, check.Required("ctx", "a context")
	}
	if err := checkParts(parts); err != nil {
		return r, err
	}
	if len(r.Stock) == 0 {
		return r, check.Required("stock", "at least one sheet")
	}
	if err := check.Count("stock", len(r.Stock), 1, mostStock); err != nil {
		return r, err
	}
	for i, s := range r.Stock {
		if err := s.block().Check(); err != nil {
			return r, unit.InField(fmt.Sprintf("stock[%d]", i), err)
		}
	}
	if err := check.Length("kerf", r.Kerf, 0, unit.Inch); err != nil {
		return r, err
	}
	if r.MostPlies == 0 {
		r.MostPlies = 1
	}
	if err := check.Count("most_plies", r.MostPlies, 1, 6); err != nil {
		return r, err
	}
	return r, check.Count("most_joins", r.MostJoins, 0, 4)
}

func checkParts(parts []Part) error {
	if len(parts) == 0 {
		return check.Required("parts", "at least one part")
	}
	total := 0
	names := map[string]bool{}
	for i, p := range parts {
		field := fmt.Sprintf("parts[%d]", i)
		if err := p.Block.Check(); err != nil {
			return unit.InField(field+".block", err)
		}
		if err := check.Count(field+".count", p.Count, 1, 200); err != nil {
			return err
		}
		if p.Name == "" {
			return check.Required(field+".name", "a name")
		}
		if names[p.Name] {
			return check.Refuse(field+".name", p.Name, unit.ErrRange, "a name of its own")
		}
		names[p.Name] = true
		total += p.Count
	}
	return check.Count("parts", total, 1, mostParts)
}
