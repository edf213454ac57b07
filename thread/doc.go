// Package thread knows sewing thread for upholstery: sizes in every system,
// the needle that goes with them, stitches, how much thread a list of seams
// takes, and what a seam carries.
//
// It stands on package unit alone; package job stands on it.
//
// The README of the folder explains the formulas, each worked once by hand.
//
// # Sizes
//
// A [Size] is a trade number of bonded thread, such as Size92; a [Thread] is a
// size in a fibre. [Thread.Row] gives its row of the size table. Every figure
// there is a [Cell]: a value with its basis, or a gap that says why there is
// none. A gap is never zero. [Specifications] lists what published
// specifications of other threads demand.
//
// The trade number is a tenth of the denier of the finished thread, so size 92
// is 920 den or 102.2 tex. The tex on the label (T-90) is that of the
// undyed, unbonded thread and about a tenth lower. Yardage is computed from
// the finished count.
//
// [ParseSize] and [FindSizes] read a size in any naming and report a text that
// means more than one. [CountSystem] converts counts of any yarn.
//
// # Needles, stitches and recommendations
//
// A [Needle] is a metric needle size, the blade in hundredths of a millimetre.
// [NeedlesFor] pairs it with thread and goods, [StitchDensityFor] and [BackTackFor]
// give stitches. [Recommend] ranks thread, needle and stitch length for goods
// and layers and flags what does not go together; [RecommendSeam] gives the one
// thread of a row of stitching through different goods. The [Exposure] of the
// piece chooses the fibre. [CountSetUps] counts how often the machine is changed.
//
// # Consumption
//
// [Consume] gives needle and under thread of a seam by the geometry of its
// stitch or by a measured ratio, [Total] that of a list of seams with tails,
// back-tacks and waste, the bobbins to wind and where they run out.
//
// # Strength and fibres
//
// [Strength] estimates what a seam carries. [Fibre.Properties] and
// [WeatherLosses] hold heat, moisture, wicking and sunlight as data.
//
// # Limits
//
// All figures are for furniture upholstery. Nothing here is fit for seat
// belts, air-bag seams, child restraints, harness, climbing, lifting or
// parachute work: those need the governing specification and proof tests. The
// documents that strengths and stitches were read in cover such gear; they
// found single figures here and are no leave to sew it.
package thread
