// Package thread knows sewing thread for upholstery: sizes in every system,
// the needle that goes with them, stitches, and how much thread a seam takes.
//
// # Sizes
//
// A [Size] is a trade number of bonded thread, such as Size92; a [Thread] is a
// size in a fibre. [Thread.Row] gives its row of the size table. Every figure
// there is a [Cell]: a value with its basis, or a gap that says why there is
// none. A gap is never zero.
//
// The trade number is a tenth of the denier of the finished thread, so size 92
// is 920 den or 102.2 tex. The tex on the label (T-90) is that of the
// undyed, unbonded thread and about a tenth lower. Yardage is computed from
// the finished count.
//
// # Needles and recommendations
//
// A [Needle] is a metric needle size, the blade in hundredths of a millimetre.
// [Recommend] ranks thread, needle and stitch length for goods and layers and
// flags what does not go together.
//
// # Consumption
//
// [Consume] gives needle and under thread of a seam by the geometry of its
// stitch.
//
// # Limits
//
// All figures are for furniture upholstery. Nothing here is fit for seat
// belts, air-bag seams, child restraints, harness, climbing, lifting or
// parachute work: those need the governing specification and proof tests.
package thread
