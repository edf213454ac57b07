// Package dev holds what watches the house. The tests of its small tools stand
// here, in one program; the rules, the check table and the drawings have their own.
package dev
