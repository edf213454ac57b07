//go:build long

package photo_test

import "testing"

func TestTrialsInFull(t *testing.T) { trials(t, 400) }
