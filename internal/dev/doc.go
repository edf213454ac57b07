// Package dev holds what watches the house. The rules, the check table and the
// small tools are tested here, in one program that is built and linked once; the
// drawings have their own.
package dev

//go:generate go test -run TestAPIIsAsListed|TestPages -update .
