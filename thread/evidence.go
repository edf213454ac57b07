package thread

import (
	"slices"

	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Influence is how much of the variation of thread per stitch a factor
// explains.
type Influence struct {
	Stitch Stitch     `json:"stitch"`
	Factor string     `json:"factor"`
	Share  unit.Ratio `json:"share"`
	Basis  cite.Basis `json:"basis"`
}

var stitchShape = published("IJFTR-STITCH-SHAPE", "abstract")

var influences = []Influence{
	{Lockstitch301, "stitch length", 0.92, stitchShape},
	{Lockstitch301, "thread tension", 0.0218, stitchShape},
	{Lockstitch301, "compressibility of the goods", 0.0153, stitchShape},
}

// Influences lists what thread per stitch depends on, greatest first. The same
// study found stitches rectangular, elliptic, long elliptic and round: the
// square and the elliptic path are the ends between which a seam falls.
func Influences() []Influence { return slices.Clone(influences) }

// ModelFit is how well a kind of model met measured consumption in a study:
// the share of the variation it explains, R², over the stitches tried.
type ModelFit struct {
	Model    string     `json:"model"`
	Stitches string     `json:"stitches"`
	From     unit.Ratio `json:"from"`
	To       unit.Ratio `json:"to"`
	Basis    cite.Basis `json:"basis"`
}

var chainModels = published("AUTEX-CLASS-400", "abstract; inputs are thickness, stitch density, yarn count and stitch width")

var modelFits = []ModelFit{
	{"geometric", "chainstitches 401 to 407", 0.9816, 0.9919, chainModels},
	{"linear regression", "chainstitches 401 to 407", 0.9730, 0.9851, chainModels},
	{"geometric", "cover stitches 602, 605, 607", 0.9878, 0.9938, published("AUTEX-CLASS-600", "abstract")},
}

// ModelFits lists published trials of models of consumption. Geometric models
// did better than regression; none of them was tried on upholstery.
func ModelFits() []ModelFit { return slices.Clone(modelFits) }
