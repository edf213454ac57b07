package workbook

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/examples/sheet/internal/carry"
	"github.com/coverwright/coverwright/examples/sheet/internal/xlsx"
	"github.com/coverwright/coverwright/unit"
)

// Updated is a workbook that was brought up to date.
type Updated struct {
	Data []byte
	// Wrong are the cells that make the job wrong: the workbook then is the one that was
	// given, with a note on each of them.
	Wrong []Wrong
	// Remarks say what of the owner's stands elsewhere now.
	Remarks []string
	Order   job.WorkOrder
	Job     []byte // the text of the job, right or wrong
}

// MostBytes is the size of the largest workbook that is read.
const MostBytes = xlsx.MostBytes

// Update reads the job of a workbook from its tables, works it out again and writes the
// workbook with all that follows, in the formats that its owner gave it. The units are
// those that the workbook is in.
func Update(ctx context.Context, data []byte, jo job.Options, o Options) (Updated, error) {
	var out Updated
	w, wrong, err := ReadJob(data)
	if err != nil {
		return out, err
	}
	out.Job = w.Text
	order, err := job.Read(ctx, bytes.NewReader(w.Text), jo)
	var faults job.Faults
	if errors.As(err, &faults) {
		wrong = append(wrong, w.wrong(faults)...)
	} else if err != nil {
		return out, err
	}
	if len(wrong) > 0 {
		slices.SortStableFunc(wrong, func(a, b Wrong) int {
			return cmp.Or(slices.Index(w.sheets, a.Sheet)-slices.Index(w.sheets, b.Sheet), a.Cell.Row-b.Cell.Row, a.Cell.Column-b.Cell.Column)
		})
		out.Wrong = wrong
		var notes []carry.Note
		for _, x := range wrong {
			notes = append(notes, carry.Note{Sheet: x.Sheet, Cell: x.Cell.String(), Text: x.Says})
		}
		out.Data, out.Remarks, err = carry.Mend(data, notes)
		return out, err
	}
	spec, err := job.ReadSpec(bytes.NewReader(w.Text))
	if err != nil {
		return out, err
	}
	if o.Metric = w.Metric; o.As == 0 {
		o.As = w.As
	}
	var fresh bytes.Buffer
	if _, err := Quote(&fresh, spec, order, o); err != nil {
		return out, err
	}
	out.Order = order
	out.Data, out.Remarks, err = carry.Over(data, fresh.Bytes())
	return out, err
}

// wrong puts the faults of a job on the cells that they are of.
func (w Written) wrong(faults job.Faults) []Wrong {
	var out []Wrong
	for _, f := range faults {
		var in *unit.InputError
		if !errors.As(f, &in) {
			out = append(out, Wrong{w.Spot(""), f.Err.Error()})
			continue
		}
		out = append(out, Wrong{w.Spot(in.Field), strings.TrimPrefix(in.Error(), string(in.Field)+": ")})
	}
	return out
}
