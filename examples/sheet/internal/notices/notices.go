// Package notices holds the licence of the project and those of everything
// else that is linked into the program, word for word. The files, and with them
// NOTICES.md of all programs, are written by
//
//	go -C examples generate ./...
//
// and a test fails when one is stale.
package notices

import _ "embed" // for the files

//go:generate go test -run TestNoticesAreFresh -update .

// The names of the files.
const (
	ownFile   = "LICENSE"
	thirdFile = "third-party.txt"
)

//go:embed LICENSE
var own string

//go:embed third-party.txt
var third string

// Own is the licence of the project.
func Own() string { return own }

// ThirdParties names every module of others, and Go itself, with its licence.
func ThirdParties() string { return third }
