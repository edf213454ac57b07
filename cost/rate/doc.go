// Package rate says what an hour at the bench costs and how a shop finds that
// out.
//
// It stands on packages unit and cost; package job stands on it.
//
// # The hour
//
// [ShopRate] builds the price of an hour from the wage up, [LoadedRate] from
// the sales down, and [MachineHour] prices a machine. [WorkYear] gives the
// hours that can be sold, [Burden] what comes on top of a wage.
//
// # Overhead
//
// [OverheadPool] adds up what is overhead, [OverheadPer] and [OverheadShare]
// spread it over a base, [OverheadBudget] has a fixed part and one that grows,
// [OverApplied] compares with what it came to. [JobCost] and [AddUp] put the
// parts of a job together.
//
// # How much, at what price
//
// [BreakEven] and [TargetPrice] say how much must be sold and at what price,
// [MarginOfSafety] how far sales may fall.
//
// # Time
//
// [StandardTime] makes a planned time of an observed one, [Learning] and
// [Repeats] give the time of repeated pieces. No source was found for the
// learning rate of reupholstery: it is yours to give. Hours in use in the trade
// are in package bench.
package rate
