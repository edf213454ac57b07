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
// once, as Faults: each wraps an *unit.InputError with the path of its field, and
// names its line. What is no JSON, is over 4 MiB or nests too deeply is refused with one
// *Fault, which also wraps an error of the reader. A context that ends gives what Build
// says.
func Read(ctx context.Context, r io.Reader, o Options) (WorkOrder, error) {
	return Shop{}.Read(ctx, r, o)
}

// readDoc works out the job of a document.
func readDoc(ctx context.Context, doc *strictjson.Document, o Options) (WorkOrder, error) {
	var spec Spec
	err := doc.Decode(&spec)
	var faults Faults
	if err != nil && !errors.As(err, &faults) {
		return WorkOrder{}, err
	}
	if faults == nil {
		order, err := Build(ctx, spec, o)
		var found Faults
		if errors.As(err, &found) {
			return WorkOrder{}, doc.Locate(causes(found))
		}
		return order, err
	}
	// Whatever else is wrong comes at once, but no layout is worth making.
	_, err = prepare(ctx, spec)
	var more Faults
	if err != nil && !errors.As(err, &more) {
		return WorkOrder{}, err
	}
	// A field that could not be read is empty, and that is a fault too: keep the
	// first only.
	more = slices.DeleteFunc(more, func(f *Fault) bool { return follows(doc.Place(f.Err), faults) })
	var late Faults
	errors.As(doc.Locate(causes(more)), &late)
	all := slices.Concat(faults, late)
	all.Sort()
	return WorkOrder{}, all
}

// causes gives the errors behind faults that have no line yet.
func causes(fs Faults) []error {
	out := make([]error, len(fs))
	for i, f := range fs {
		out[i] = f.Err
	}
	return out
}

// ReadSpec reads a spec without working it out. Every fault of its form is
// reported at once, as Read does; what only Build can tell is not.
func ReadSpec(r io.Reader) (Spec, error) {
	return Shop{}.ReadSpec(r)
}

// follows tells whether an error of Build may only be there because a field
// of the same object could not be read.
func follows(late *Fault, faults Faults) bool {
	var in *unit.InputError
	if !errors.As(late, &in) {
		return true
	}
	for _, f := range faults {
		var bad *unit.InputError
		if f.File != late.File || !errors.As(f.Err, &bad) {
			continue
		}
		if bad.Field.Under(in.Field) || in.Field.Under(bad.Field) {
			return true
		}
	}
	return false
}
