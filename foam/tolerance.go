package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// jointIFD founds the firmness tolerance.
var jointIFD = cite.Basis{Status: cite.CommonPractice, Note: "voluntary guideline of the foam industry, 1994; referee test ASTM D3574 B1"}

// IFDTolerance gives the limits within which foam ordered at a nominal IFD25
// may be delivered: ± 3 lbf at 30 lbf, ± 10 % for firmer grades. The text does
// not name softer grades; for those the 3 lbf are kept. The nominal must be above 3 lbf.
func IFDTolerance(nominal IFD25) (Figure[IFD25], error) {
	return tolerance("nominal", nominal)
}

func tolerance(field string, nominal IFD25) (Figure[IFD25], error) {
	const (
		thirty = IFD25(30 * unit.PoundForce)
		three  = IFD25(3 * unit.PoundForce)
	)
	if err := check.Between(field, nominal, 0, IFD25(firmest)); err != nil {
		return Figure[IFD25]{}, err
	}
	if nominal <= three {
		return Figure[IFD25]{}, check.Refuse(field, nominal.String(), unit.ErrRange, "more than the tolerance of 3 lbf")
	}
	f := Figure[IFD25]{About: "delivered firmness", Basis: jointIFD}
	d := three
	if nominal > thirty {
		d = nominal / 10
	} else if nominal < thirty {
		f.Basis = cite.Basis{Status: cite.CommonPractice, Note: "the joint-industry guideline names 30 lbf and firmer only"}
	}
	f.Range = Range[IFD25]{Low: nominal - d, High: nominal + d}
	return f, nil
}
