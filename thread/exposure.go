package thread

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit/cite"
)

// Exposure is where a piece will live: what light, weather and water its thread
// must bear. The zero value is indoors.
//
// Its values: Indoors, BehindGlass, Outdoors, OnBoat, InVehicle, Damp.
type Exposure uint8

// Where pieces live.
const (
	// Indoors, away from the sun.
	Indoors Exposure = iota
	// BehindGlass is indoors in the sun.
	BehindGlass
	// Outdoors bears sun and weather.
	Outdoors
	// OnBoat bears sun, weather and water.
	OnBoat
	// InVehicle bears sun through glass, and heat.
	InVehicle
	// Damp is washed often, or stands where it is damp.
	Damp
)

var exposureNames = []string{"indoors", "sun", "outdoors", "boat", "vehicle", "damp"}

// Exposures lists where pieces live.
func Exposures() []Exposure {
	return []Exposure{Indoors, BehindGlass, Outdoors, OnBoat, InVehicle, Damp}
}

// String names the exposure.
func (e Exposure) String() string { return enum.Name(e, "Exposure", exposureNames) }

var exposurePlaces = []string{"indoors", "indoors in the sun", "outdoors", "on a boat", "in a vehicle", "where it is washed or damp"}

// Where says where it is: "on a boat".
func (e Exposure) Where() string { return enum.Name(e, "Exposure", exposurePlaces) }

// MarshalText writes the name. It wraps unit.ErrUnknown.
func (e Exposure) MarshalText() ([]byte, error) { return enum.Text(e, "exposure", exposureNames) }

// UnmarshalText reads what MarshalText writes. It wraps unit.ErrUnknown.
func (e *Exposure) UnmarshalText(text []byte) error {
	return enum.Read(e, text, "exposure", exposureNames)
}

// exposureLine is the fibre for an exposure, and what is wrong with nylon there.
type exposureLine struct {
	fibre  Fibre
	reason string
	basis  cite.Basis
	nylon  Flags
}

var exposureLines = [...]exposureLine{
	Indoors:     {Nylon, "stronger than polyester and better wearing", practice(""), 0},
	BehindGlass: {Polyester, "for nylon loses its strength in light, behind glass too", practice(""), NylonInSun},
	Outdoors:    {Polyester, "for light and weather; ask for a light-stabilised thread with a finish that does not wick; fluoropolymer thread lasts longest", practice(""), NylonInSun},
	OnBoat:      {Polyester, "for light, water and mildew; ask for a light-stabilised thread with a finish that does not wick, never cotton; fluoropolymer thread lasts longest", practice(""), NylonInSun},
	InVehicle:   {Polyester, "for the sun through the glass and the heat; nylon only in seams that are covered", practice(""), NylonInSun},
	Damp:        {Polyester, "for it takes up hardly any water: it does not swell, and holds wet as it does dry", practice(""), NylonInDamp},
}

// Fibre gives the usual fibre of the thread for an exposure, why, and what
// founds it. It wraps unit.ErrUnknown.
func (e Exposure) Fibre() (Fibre, string, cite.Basis, error) {
	if err := enum.Check(e, "exposure", exposureNames); err != nil {
		return 0, "", cite.Basis{}, err
	}
	l := &exposureLines[e]
	return l.fibre, l.reason, l.basis, nil
}
