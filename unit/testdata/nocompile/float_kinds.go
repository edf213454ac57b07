package nocompile

import "github.com/coverwright/coverwright/unit"

func load(f unit.Force) {}

func floatKinds(f unit.Force, p unit.Pressure, d unit.Density, ad unit.AreaDensity, t unit.LinearDensity) {
	load(p)                    // ERROR "cannot use p .*unit\.Pressure.* as unit\.Force"
	load(unit.Pound)           // ERROR "cannot use unit\.Pound .*unit\.Mass.* as unit\.Force"
	_ = f + p                  // ERROR "mismatched types unit\.Force and unit\.Pressure"
	_ = d == ad                // ERROR "mismatched types unit\.Density and unit\.AreaDensity"
	_ = t + d                  // ERROR "mismatched types unit\.LinearDensity and unit\.Density"
	_, _ = d.Mass(unit.Foot)   // ERROR "cannot use unit\.Foot .*unit\.Length.* as unit\.Volume"
	_, _ = ad.Mass(unit.Litre) // ERROR "cannot use unit\.Litre .*unit\.Volume.* as unit\.Area"
	_, _ = t.Mass(unit.Gram)   // ERROR "cannot use unit\.Gram .*unit\.Mass.* as unit\.Length"
}
