package foam

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ServiceClass is a class of ISO 5999 and BS 3379: foam classed by how much
// hardness it loses under 80 000 blows of constant load, not by density.
type ServiceClass struct {
	Class   string `json:"class"`   // X, V, S, A or L
	Service string `json:"service"` // how severe
	For     string `json:"for"`     // what it is recommended for, in short
	// MostLoss is the largest hardness loss allowed; LossBasis says it is
	// recalled, not read.
	MostLoss  unit.Ratio `json:"most_loss"`
	Basis     cite.Basis `json:"basis"`
	LossBasis cite.Basis `json:"loss_basis"`
}

// ServiceClasses lists the classes, the most severe first.
func ServiceClasses() []ServiceClass { return slices.Clone(serviceClasses[:]) }

func serviceClass(class, service, use string, loss unit.Ratio, basis cite.Basis) ServiceClass {
	return ServiceClass{Class: class, Service: service, For: use, MostLoss: loss, Basis: basis, LossBasis: memory}
}

var (
	// recommended founds what a class is for. A table of BS 3379:2005 that was read
	// agrees, but for scatter cushions, and has the cores of domestic mattresses in S.
	recommended = cite.Basis{Status: cite.Standard, Source: "EN-ISO-5999", Note: "Table A.1, recommended applications"}
	padding     = cite.Basis{Status: cite.CommonPractice, Note: "BS 3379:2005 has scatter cushions here; the table of EN ISO 5999 that was read ends with class A"}
)

var serviceClasses = [...]ServiceClass{
	serviceClass("X", "extremely severe", "contract and public transport seats in constant use", 0.12, recommended),
	serviceClass("V", "very severe", "office, cinema, public and drivers' seats", 0.22, recommended),
	serviceClass("S", "severe", "domestic seats, passenger seats, contract backs and arms", 0.32, recommended),
	serviceClass("A", "average", "domestic backs and arms, scatter cushions", 0.39, recommended),
	serviceClass("L", "light", "padding", 0.45, padding),
}

// ServiceClassFor gives the class that suits a use and duty.
func ServiceClassFor(u Use, d Duty) (ServiceClass, error) {
	if err := given("use", u, useNames); err != nil {
		return ServiceClass{}, err
	}
	if err := given("duty", d, dutyNames); err != nil {
		return ServiceClass{}, err
	}
	const x, v, s, a = 0, 1, 2, 3
	class, carries := a, loaded.has(uint8(u))
	switch {
	case carries && d == SevereDuty:
		class = x
	case carries && d == HeavyDuty:
		class = v
	case carries || d == SevereDuty:
		class = s
	}
	return serviceClasses[class], nil
}

// HardnessLoss gives the loss of an indentation force in a fatigue test or in
// service, (before − after) / before. Both must be of the same test.
func HardnessLoss(before, after unit.Force) (unit.Ratio, error) {
	if err := checkForce("before", before); err != nil {
		return 0, err
	}
	if err := check.Between("after", after, 0, before); err != nil {
		return 0, err
	}
	return unit.Ratio(float64(before-after) / float64(before)), nil
}
