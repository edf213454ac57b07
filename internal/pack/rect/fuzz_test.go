package rect

import (
	"context"
	"errors"
	"testing"
)

// FuzzSolve reads a job from bytes: no input may panic, and every plan is verified by Solve.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{20, 0, 0, 0, 0, 0, 0, 2, 12, 1, 0, 0, 7, 12, 1, 0, 0})
	f.Add([]byte{54, 1, 27, 27, 3, 4, 1, 25, 32, 2, 5, 3, 15, 24, 4, 15, 0, 99, 8, 1, 1, 0x40})
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 100 {
			return
		}
		next := func() int64 {
			if len(data) == 0 {
				return 0
			}
			v := int64(int8(data[0]))
			data = data[1:]
			return v
		}
		j := &Job{Width: next(), Gap: next()}
		j.Repeat = Repeat{PeriodX: next(), PeriodY: next(), OriginX: next(), OriginY: next()}
		if flags := next(); flags&1 != 0 {
			j.Repeat.DropNum, j.Repeat.DropDen = next(), next()
		} else if flags&2 != 0 {
			j.Flaws = append(j.Flaws, Flaw{next(), next(), next(), next()})
			j.Groups = append(j.Groups, Group{next()})
			j.MaxLength = 5 * next()
		}
		for len(data) > 0 {
			p := Piece{W: next(), H: next(), Count: int(next()), Turns: Turns(next())}
			m := next()
			p.Match, p.Spots = Axes(m&3), []Spot{{X: m, Y: -m}, {X: -m, Y: m, Turns: Turns(m >> 2 & 15)}}
			if m&0x40 != 0 {
				p.Split = &Split{Along: Axes(m >> 2 & 3), Allowance: m >> 4 & 3, Min: next(), MaxSeams: int(next())}
			}
			if m&0x20 != 0 {
				p.Group = 1
			}
			j.Pieces = append(j.Pieces, p)
		}
		p, err := Solve(context.Background(), j, Options{Effort: 0.0002})
		switch {
		case err != nil:
			if !errors.As(err, new(*InputError)) && !errors.Is(err, ErrNoLayout) {
				t.Fatal(err)
			}
		case p.Length < p.Bound:
			t.Fatalf("length %d below the bound %d", p.Length, p.Bound)
		}
	})
}
