package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// photos are those of one repeat of goods, by id, as -cloth gives them.
type photos map[string][]byte

// add reads ID=FILE. What is no picture is refused with a *unit.InputError.
func (p photos) add(text string) error {
	id, file, found := strings.Cut(text, "=")
	if !found || id == "" || file == "" {
		return &unit.InputError{Field: "cloth", Value: text, Err: unit.ErrSyntax, Want: "ID=FILE"}
	}
	if p[id] != nil {
		return &unit.InputError{Field: "cloth", Value: id, Err: unit.ErrRange, Want: "one photo for each goods"}
	}
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close() //nolint:errcheck // only read
	data, err := io.ReadAll(io.LimitReader(f, pattern.MostPhoto+1))
	if err != nil {
		return err
	}
	if len(data) == 0 {
		return &unit.InputError{Field: "cloth", Value: file, Err: unit.ErrSyntax, Want: "a PNG or JPEG picture"}
	}
	tried := pattern.Cloth{Across: unit.Inch, Photo: data}
	var in *unit.InputError
	if err := tried.Check(); errors.As(err, &in) {
		return &unit.InputError{Field: "cloth", Value: file, Err: in.Err, Want: in.Want}
	}
	p[id] = data
	return nil
}

// check refuses photos of goods that are neither in the order nor in an option.
func (p photos) check(o job.WorkOrder) error {
	var known []string
	lists := [][]job.Purchase{o.Purchases}
	for _, x := range o.Options {
		lists = append(lists, x.Purchases)
	}
	for _, q := range slices.Concat(lists...) {
		if !slices.Contains(known, q.Goods) {
			known = append(known, q.Goods)
		}
	}
	var ids []string
	for id := range p {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		if !slices.Contains(known, id) {
			return &unit.InputError{Field: "cloth", Value: id, Err: unit.ErrUnknown, Want: fmt.Sprintf("goods of the order: %s", strings.Join(known, ", "))}
		}
	}
	return nil
}

// clothsOf gives the goods of an order that have a pattern, as they are seen on the
// furniture.
func clothsOf(o job.WorkOrder, p photos) map[string]pattern.Cloth {
	out := map[string]pattern.Cloth{}
	for _, q := range o.Purchases {
		laid := q.Layouts()
		if len(laid) == 0 || laid[0].Plan.Job.Roll == nil || !laid[0].Plan.Job.Roll.Patterned() {
			continue
		}
		r := *laid[0].Plan.Job.Roll
		out[q.Goods] = pattern.Cloth{Across: r.Columns(), Along: r.Repeat, Lower: r.Drop.Num, Columns: r.Drop.Den, Photo: p[q.Goods]}
	}
	return out
}
