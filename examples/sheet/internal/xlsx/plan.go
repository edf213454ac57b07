package xlsx

import (
	"cmp"
	"slices"
)

// change is what is to stand in a cell; nil empties it.
type change struct {
	at Cell
	v  any
}

// plan holds changes in the order of the file.
type plan struct {
	cells []change
	done  int
}

func compare(a, b Cell) int { return cmp.Or(a.Row-b.Row, a.Column-b.Column) }

func newPlan(changes map[Cell]any) *plan {
	p := &plan{}
	for at, v := range changes {
		p.cells = append(p.cells, change{at, v})
	}
	slices.SortFunc(p.cells, func(a, b change) int { return compare(a.at, b.at) })
	return p
}

func (p *plan) empty() bool         { return len(p.cells) == 0 }
func (p *plan) next() bool          { return p.done < len(p.cells) }
func (p *plan) first() change       { return p.cells[p.done] }
func (p *plan) before(row int) bool { return p.next() && p.first().at.Row < row }
func (p *plan) at(row int) bool     { return p.next() && p.first().at.Row == row }

func (p *plan) take() change {
	p.done++
	return p.cells[p.done-1]
}

// fills tells whether something is written in the first row.
func (p *plan) fills(row int) bool {
	for _, c := range p.cells[p.done:] {
		if c.at.Row != row {
			break
		}
		if c.v != nil {
			return true
		}
	}
	return false
}

func (p *plan) dropRow(row int) {
	for p.at(row) {
		p.done++
	}
}
