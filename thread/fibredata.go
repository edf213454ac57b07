package thread

import (
	"math"
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Temperature is a temperature in degrees Celsius. Its zero value is the
// freezing point of water.
type Temperature float64

// FahrenheitOf gives a temperature of f degrees Fahrenheit: (f - 32) / 1.8. It
// wraps unit.ErrNotFinite.
func FahrenheitOf(f float64) (Temperature, error) {
	t := Temperature((f - 32) / 1.8)
	if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
		return 0, check.Refuse("temperature", floatText(f), unit.ErrNotFinite, "a finite temperature")
	}
	return t, nil
}

// Celsius gives t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Fahrenheit gives t in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(1.8*t) + 32 }

// String writes t to a tenth of a degree Celsius.
func (t Temperature) String() string {
	return strconv.FormatFloat(float64(t), 'f', 1, 64) + " °C"
}

// MarshalText writes t without loss, such as "82.5 °C". It wraps
// unit.ErrNotFinite.
func (t Temperature) MarshalText() ([]byte, error) {
	if math.IsNaN(float64(t)) || math.IsInf(float64(t), 0) {
		return nil, check.Refuse("temperature", floatText(float64(t)), unit.ErrNotFinite, "a finite temperature")
	}
	return []byte(floatText(float64(t)) + " °C"), nil
}

// UnmarshalText reads a temperature in °C. It wraps unit.ErrMissingUnit or
// unit.ErrSyntax.
func (t *Temperature) UnmarshalText(text []byte) error {
	x, err := parseUnit("temperature", string(text), " °C")
	if err == nil {
		*t = Temperature(x)
	}
	return err
}

func fahrenheit(f float64, b cite.Basis) Cell[Temperature] {
	return cell(Temperature((f-32)/1.8), b)
}

// Properties is what is known of a fibre.
type Properties struct {
	Fibre Fibre `json:"fibre"`
	// Melts is the melting point, SpecifiedMelt the least one a
	// specification accepts, Sticks where the fibre softens.
	Melts         Cell[Temperature] `json:"melts"`
	SpecifiedMelt Cell[Temperature] `json:"specified_melt"`
	Sticks        Cell[Temperature] `json:"sticks"`
	// SlingLimit is the temperature above which slings of the fibre are taken
	// out of service.
	SlingLimit Cell[Temperature] `json:"sling_limit"`
	// Regain is the moisture the dry fibre takes up from the air.
	Regain Cell[unit.Ratio] `json:"regain"`
	// Density of the fibre itself.
	Density Cell[unit.Density] `json:"density"`
	// Stretch before breaking.
	StretchFrom Cell[unit.Ratio] `json:"stretch_from"`
	StretchTo   Cell[unit.Ratio] `json:"stretch_to"`
	// Indoors, Outdoors say where the fibre is the usual choice.
	Indoors  Cell[bool] `json:"indoors"`
	Outdoors Cell[bool] `json:"outdoors"`
	// NonWicking tells whether a specification knows the thread with a finish
	// that does not wick.
	NonWicking Cell[bool] `json:"non_wicking"`
}

var (
	navyNylon = published("NAVEDTRA-14218", "properties of nylon")
	slingRule = standard("CFR29-1926.251", "paragraph (e): synthetic web slings")
)

var properties = [...]Properties{
	{
		Fibre:         Nylon,
		Melts:         fahrenheit(482, navyNylon),
		SpecifiedMelt: fahrenheit(472, standard("A-A-59826", "section 3")),
		Sticks:        fahrenheit(445, practice("")),
		SlingLimit:    fahrenheit(180, slingRule),
		Regain:        cell(4.2*unit.Percent, navyNylon),
		Density:       cell(1140*unit.KilogramPerCubicMetre, practice("nylon 6-6")),
		StretchFrom:   cell(18*unit.Percent, navyNylon),
		StretchTo:     cell(40*unit.Percent, navyNylon),
		Indoors:       cell(true, practice("")),
		Outdoors:      cell(false, practice("sunlight destroys it")),
		NonWicking:    cell(true, standard("A-A-59826", "class B, types I and II")),
	},
	{
		Fibre:         Polyester,
		Melts:         fahrenheit(483, practice("")),
		SpecifiedMelt: gap[Temperature]("not read"),
		Sticks:        fahrenheit(440, practice("")),
		SlingLimit:    fahrenheit(180, slingRule),
		Regain:        cell(0.4*unit.Percent, practice("")),
		Density:       cell(1380*unit.KilogramPerCubicMetre, practice("")),
		StretchFrom:   gap[unit.Ratio]("not read"),
		StretchTo:     gap[unit.Ratio]("not read"),
		Indoors:       cell(false, practice("nylon is stronger and wears better")),
		Outdoors:      cell(true, practice("no fibre is immune; fluoropolymer thread lasts longest")),
		NonWicking:    cell(true, standard("MIL-DTL-32072", "subclass B")),
	},
}

// Properties gives what is known of a fibre. It wraps unit.ErrUnknown.
func (f Fibre) Properties() (Properties, error) {
	if err := f.check("fibre"); err != nil {
		return Properties{}, err
	}
	return properties[f-1], nil
}

// WeatherLoss is the strength lost to weather.
type WeatherLoss struct {
	Material string `json:"material"`
	Place    string `json:"place"`
	Days     int    `json:"days"`
	// Lost is the share of the strength lost, from the best sample to the
	// worst; both are the same where one figure was read.
	LostFrom Cell[unit.Ratio] `json:"lost_from"`
	LostTo   Cell[unit.Ratio] `json:"lost_to"`
}

func lost(material, place string, days int, from, to unit.Ratio, b cite.Basis) WeatherLoss {
	return WeatherLoss{material, place, days, cell(from, b), cell(to, b)}
}

var (
	thinCloth = practice("thin parachute cloth in summer; thick thread shields its core and loses less")
	weathered = published("DAMAGE-UNDYED-1981", "abstract; all samples, cotton included")
)

var weatherLosses = []WeatherLoss{
	lost("nylon cloth", "outdoors", 7, 0.52, 0.52, thinCloth),
	lost("nylon cloth", "outdoors", 14, 0.71, 0.71, thinCloth),
	lost("nylon cloth", "outdoors", 21, 0.94, 0.94, thinCloth),
	lost("nylon cloth", "behind glass", 7, 0.40, 0.40, thinCloth),
	lost("nylon cloth", "behind glass", 14, 0.61, 0.61, thinCloth),
	lost("nylon cloth", "behind glass", 21, 0.85, 0.85, thinCloth),
	lost("nylon, polyester and cotton cloth, undyed", "outdoors", 120, 0.29, 0.87, weathered),
}

// WeatherLosses lists strength lost to weather.
func WeatherLosses() []WeatherLoss { return slices.Clone(weatherLosses) }
