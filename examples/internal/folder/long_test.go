//go:build long

package folder

import "testing"

func TestKilledInFull(t *testing.T) { killed(t, 1) }

func TestFaultInFull(t *testing.T) { faults(t, 1) }
