package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

const (
	in = unit.Inch
	mm = unit.Millimetre
)

func must(o shape.Outline, err error) func(t require.TestingT) shape.Outline {
	return func(t require.TestingT) shape.Outline {
		require.NoError(t, err)
		return o
	}
}

func FuzzPathOutline(f *testing.F) {
	for _, s := range []string{
		"M100 200 h200 v-150 a100 50 0 0 0 -200 0 z", "M0 0C50 50 90 20 100 0Z", "m0 0q9 9 18 0t18 0v40h-36z", "M0 0L20 20L20 0L0 20z", "M0 0A5 4 30 016 2", "",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, d string) {
		if len(d) > 2000 {
			return
		}
		o, err := shape.Path(d, mm)
		if err != nil {
			var input *unit.InputError
			require.ErrorAs(t, err, &input)
			return
		}
		require.Positive(t, o.Area())
		require.Positive(t, o.Perimeter())
		_, err = allowance.Panel{Outline: o}.Cut()
		if err != nil {
			var input *unit.InputError
			require.ErrorAs(t, err, &input)
		}
	})
}
