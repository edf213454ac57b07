package shape_test

import (
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/unit"
)

func drawLength(lo, hi unit.Length) *rapid.Generator[unit.Length] {
	return rapid.Map(rapid.Int64Range(int64(lo), int64(hi)), func(n int64) unit.Length { return unit.Length(n) })
}
