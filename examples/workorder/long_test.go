//go:build long

package main

import (
	"testing"

	"pgregory.net/rapid"
)

func TestPageOfAnyNameInFull(t *testing.T) { rapid.Check(t, pageOfAnyName(t)) }
