package job

import (
	"context"
	"errors"
	"io"
	"slices"

	"github.com/coverwright/coverwright/internal/strictjson"
	"github.com/coverwright/coverwright/unit"
)

// Read reads a spec and works it out. Every fault of the file is reported at
// once: each wraps an *unit.InputError with the path of its field, and names
// its line. Files over 4 MiB and deep nesting are refused.
func Read(ctx context.Context, r io.Reader, o Options) (WorkOrder, error) {
	doc, err := strictjson.Parse(r)
	if err != nil {
		return WorkOrder{}, err
	}
	var spec Spec
	err = doc.Decode(&spec)
	var faults strictjson.Faults
	if err != nil && !errors.As(err, &faults) {
		return WorkOrder{}, err
	}
	var order WorkOrder
	if faults == nil {
		order, err = Build(ctx, spec, o)
	} else {
		err = faultsOf(ctx, spec) // no layout is worth making
	}
	var more Errors
	switch {
	case errors.As(err, &more):
	case err != nil:
		return WorkOrder{}, err
	case faults == nil:
		return order, nil
	}
	// A field that could not be read is empty, and Build complains about
	// that too: keep the first fault only.
	more = slices.DeleteFunc(more, func(e error) bool { return faults != nil && follows(e, faults) })
	located := doc.Locate(more)
	var late strictjson.Faults
	errors.As(located, &late)
	all := slices.Concat(faults, late)
	slices.SortStableFunc(all, func(a, b *strictjson.Fault) int { return a.Line - b.Line })
	return WorkOrder{}, all
}

// faultsOf finds what is wrong with a spec without making layouts.
func faultsOf(ctx context.Context, s Spec) error {
	b := newBuilder(s)
	if err := b.cut(ctx, &planner{}); err != nil || len(b.errs) == 0 {
		return err
	}
	return b.errs
}

// ReadSpec reads a spec without working it out. Every fault of its form is
// reported at once, as Read does; what only Build can tell is not.
func ReadSpec(r io.Reader) (Spec, error) {
	doc, err := strictjson.Parse(r)
	if err != nil {
		return Spec{}, err
	}
	var spec Spec
	if err := doc.Decode(&spec); err != nil {
		return Spec{}, err
	}
	return spec, nil
}

// follows tells whether an error of Build may only be there because a field
// of the same object could not be read.
func follows(err error, faults strictjson.Faults) bool {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return true
	}
	for _, f := range faults {
		var bad *unit.InputError
		if !errors.As(f.Err, &bad) {
			continue
		}
		if bad.Field.Under(in.Field) || in.Field.Under(bad.Field) {
			return true
		}
	}
	return false
}
