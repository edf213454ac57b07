// Package few checks laws on fewer draws than rapid does by itself, so that the
// tests of dear laws stay short. Behind the tag "long" the same laws run on all.
package few

import (
	"flag"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Check checks a law as rapid.Check does, on at most n draws. No other law of
// the package may run at the same time.
func Check(t *testing.T, n int, law func(*rapid.T)) {
	t.Helper()
	checks := flag.Lookup("rapid.checks").Value
	asked := checks.String()
	defer func() { set(t, checks, asked) }()
	if all, err := strconv.Atoi(asked); err != nil || n < all {
		set(t, checks, strconv.Itoa(n))
	}
	rapid.Check(t, law)
}

func set(t *testing.T, v flag.Value, to string) {
	t.Helper()
	if err := v.Set(to); err != nil {
		t.Fatal(err)
	}
}
