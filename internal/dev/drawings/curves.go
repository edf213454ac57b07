package main

import (
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// curves shows two foams, as package foam draws them.
func curves() (string, error) {
	of := func(i25, i65 unit.Force) foam.Curve {
		return foam.Curve{IFD25: foam.IFD25(i25), IFD65: foam.IFD65(i65)}
	}
	return foam.DrawCurves(
		foam.NamedCurve{Name: "30 and 60 lbf, S = 2", Curve: of(30*unit.PoundForce, 60*unit.PoundForce)},
		foam.NamedCurve{Name: "30 and 84 lbf, S = 2.8", Curve: of(30*unit.PoundForce, 84*unit.PoundForce)},
	)
}
