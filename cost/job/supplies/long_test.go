//go:build long

package supplies_test

import (
	"testing"

	"pgregory.net/rapid"
)

// The law that TestOfEveryJob checks on few draws.
func TestOfEveryJobInFull(t *testing.T) { rapid.Check(t, everyJob) }
