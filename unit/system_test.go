package unit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSystemText(t *testing.T) {
	for s, name := range map[System]string{Inches: "inch", Metric: "metric"} {
		text, err := s.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, name, string(text))
		var back System
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
	}
	assert.Equal(t, "inch", Inches.String())
	assert.Equal(t, "metric", Metric.String())
	assert.Equal(t, "System(2)", System(2).String())
	_, err := System(2).MarshalText()
	require.ErrorIs(t, err, ErrUnknown)
	s := Metric
	require.ErrorIs(t, s.UnmarshalText([]byte("cgs")), ErrUnknown)
	assert.Equal(t, Metric, s)
}
