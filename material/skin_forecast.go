package material

import (
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SkinSupply says how large the skins are that will come. The zero value is
// refused.
type SkinSupply struct {
	// Mean is the area of a skin on average; not needed beside Sample.
	Mean unit.Area `json:"mean,omitzero"`
	// Spread is the standard deviation of the area from skin to skin, at most a
	// quarter of Mean; zero for skins all alike.
	Spread unit.Area `json:"spread,omitzero"`
	// Sample are areas of skins measured before, 2 to 200: each skin to come is
	// taken to be like one of them, all equally likely. Not together with Mean
	// and Spread.
	Sample []unit.Area `json:"sample,omitempty"`
}

// SkinForecast is how many skins to buy before they have been seen.
type SkinForecast struct {
	Net        unit.Area  `json:"net"` // of the panels
	Yield      YieldRange `json:"yield"`
	Confidence unit.Ratio `json:"confidence"` // asked for
	// Skins suffice with the confidence at the low end of the yield,
	// SkinsAtBest at the high end.
	Skins       int `json:"skins"`
	SkinsAtBest int `json:"skins_at_best"`
	// Chance is the probability that Skins suffice at the low end of the yield.
	// With a sample the true one is from Chance to Chance + ChanceError, to nine
	// digits.
	Chance      unit.Ratio `json:"chance"`
	ChanceError unit.Ratio `json:"chance_error"`
	Area        unit.Area  `json:"area"` // of Skins on average
	Kind        cite.Kind  `json:"kind"` // always cite.Estimate
}

// mostForecast and mostSampled bound the skins of a forecast.
const (
	mostForecast = 500
	mostSampled  = 100
)

// ForecastSkins gives the least number of skins n whose usable area covers the
// panels with a confidence, when areas differ from skin to skin. With net area
// N, yield y and the areas A₁ … Aₙ:
//
//	P(A₁ + … + Aₙ >= N / y) >= confidence
//
// From mean m and spread s the sum is taken as normal, which it is when areas
// are: P = Φ((n m - N/y) / (s √n)). A normal area may be below zero; with s at
// most m/4 that is under 32 in a million, the error of the model. From a sample
// the distribution of the sum is worked out by convolution on a grid of a tenth
// of a square foot, or 1/20 000 of the area needed where that is more, areas
// rounded down for Chance and up for its error.
//
// The yield is the same for all skins of a job, unknown within its range, so it
// does not average out: both ends are given. Net is above zero, at most 1000
// m²; confidence is from 50 % to 99.9 %; at most 500 skins, 100 from a sample. It wraps
// unit.ErrRange, unit.ErrRequired or unit.ErrNotFinite.
func ForecastSkins(net unit.Area, s SkinSupply, y YieldRange, confidence unit.Ratio) (SkinForecast, error) {
	if err := check.Above("net", net, 1000*unit.SquareMetre); err != nil {
		return SkinForecast{}, err
	}
	if err := check.Ratio("yield.from", y.From, 0.05, 1); err != nil {
		return SkinForecast{}, err
	}
	if err := check.Ratio("yield.to", y.To, y.From, 1); err != nil {
		return SkinForecast{}, err
	}
	if err := check.Ratio("confidence", confidence, 0.5, 0.999); err != nil {
		return SkinForecast{}, err
	}
	if err := s.check(); err != nil {
		return SkinForecast{}, unit.InField("supply", err)
	}
	f := SkinForecast{Net: net, Yield: y, Confidence: confidence, Kind: cite.Estimate}
	var err error
	var chance [2]float64
	if f.Skins, chance, err = s.enough(net, y.From, confidence); err != nil {
		return SkinForecast{}, err
	}
	if f.SkinsAtBest, _, err = s.enough(net, y.To, confidence); err != nil {
		return SkinForecast{}, err
	}
	f.Chance, f.ChanceError = nineDigits(chance[0]), nineDigits(max(chance[1]-chance[0], 0))
	f.Area, err = s.MeanArea().MulDiv(f.Skins, 1, unit.Nearest)
	return f, err
}

// nineDigits rounds a chance, so that it is the same on every machine.
func nineDigits(p float64) unit.Ratio { return unit.Ratio(math.Round(p*1e9) / 1e9) }

func (s SkinSupply) check() error {
	if len(s.Sample) == 0 {
		if err := check.Between("mean", s.Mean, leastSkin, mostSkin); err != nil {
			return err
		}
		return check.Between("spread", s.Spread, 0, s.Mean/4)
	}
	if s.Mean != 0 || s.Spread != 0 {
		return check.Refuse("sample", fmt.Sprintf("%d areas", len(s.Sample)), unit.ErrRange, "no mean or spread beside it")
	}
	if err := check.Count("sample", len(s.Sample), 2, 200); err != nil {
		return err
	}
	for i, a := range s.Sample {
		if err := check.Between(fmt.Sprintf("sample[%d]", i), a, leastSkin, mostSkin); err != nil {
			return err
		}
	}
	return nil
}

// MeanArea gives the area of a skin on average.
func (s SkinSupply) MeanArea() unit.Area {
	if len(s.Sample) == 0 {
		return s.Mean
	}
	var sum unit.Area // 200 of mostSkin at most
	for _, a := range s.Sample {
		sum += a
	}
	return sum / unit.Area(len(s.Sample))
}

// enough gives the least number of skins and the bounds of its chance.
func (s SkinSupply) enough(net unit.Area, yield, confidence unit.Ratio) (int, [2]float64, error) {
	target := float64(net) / float64(yield)
	most := mostForecast
	if len(s.Sample) > 0 {
		most = mostSampled
	}
	tooMany := check.Refuse("net", net.String(), unit.ErrRange, fmt.Sprintf("a job of at most %d skins", most))
	if target > float64(most)*float64(s.MeanArea()) {
		return 0, [2]float64{}, tooMany
	}
	var sums *sampleSums
	if len(s.Sample) > 0 {
		sums = newSampleSums(s.Sample, target)
	}
	for n := 1; n <= 2*most; n++ {
		var p [2]float64
		if sums != nil {
			p = sums.next()
		} else {
			p[0] = normalAtLeast(float64(float64(n)*float64(s.Mean))-target, float64(s.Spread)*math.Sqrt(float64(n)))
			p[1] = p[0]
		}
		if p[0] >= float64(confidence) {
			return n, p, nil
		}
	}
	return 0, [2]float64{}, tooMany
}

// normalAtLeast gives the chance that a normal sum reaches its target, for its
// Mean over the target and its spread.
func normalAtLeast(over, spread float64) float64 {
	if spread == 0 {
		if over >= -0.5 { // half a quantum of area
			return 1
		}
		return 0
	}
	return 0.5 * math.Erfc(-over/(spread*math.Sqrt2))
}

// sampleGrid is the finest grid of the convolution, mostPlaces the number of its
// places.
const (
	sampleGrid = float64(unit.SquareFoot / 10)
	mostPlaces = 20_000
)

// sampleSums holds the distribution of the sum of areas drawn from a sample,
// rounded down (side 0) and up (side 1) to the grid; sums that reach the target
// are counted in the last place.
type sampleSums struct {
	top   int // place of the target: the first at or over it
	share [2][]placeShare
	sum   [2][]float64
	least [2]int // the lowest place that is not empty
}

type placeShare struct {
	place int
	share float64
}

func newSampleSums(sample []unit.Area, target float64) *sampleSums {
	grid := max(sampleGrid, target/mostPlaces)
	s := &sampleSums{top: int(math.Ceil(target/grid - 1e-9))}
	sorted := slices.Sorted(slices.Values(sample))
	for side := range 2 {
		for _, a := range sorted {
			at := int(math.Floor(float64(a)/grid + 1e-12))
			if side == 1 {
				at = int(math.Ceil(float64(a)/grid - 1e-12))
			}
			if n := len(s.share[side]); n == 0 || s.share[side][n-1].place != at {
				s.share[side] = append(s.share[side], placeShare{place: at})
			}
			s.share[side][len(s.share[side])-1].share += 1 / float64(len(sample))
		}
		s.sum[side] = make([]float64, s.top+1)
		s.sum[side][0] = 1
	}
	return s
}

// next adds one skin and gives the bounds of the chance to reach the target.
func (s *sampleSums) next() [2]float64 {
	var out [2]float64
	for side := range 2 {
		was, next := s.sum[side], make([]float64, s.top+1)
		for _, w := range s.share[side] {
			for i := s.least[side]; i <= s.top; i++ {
				if was[i] != 0 {
					next[min(i+w.place, s.top)] += float64(was[i] * w.share)
				}
			}
		}
		s.least[side] = min(s.least[side]+s.share[side][0].place, s.top)
		s.sum[side] = next
		out[side] = min(next[s.top], 1)
	}
	return out
}
