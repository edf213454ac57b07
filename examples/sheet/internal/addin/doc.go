// Package addin makes the spreadsheet add-in: an .oxt file with the interface
// description, the registry file with names and help, a Python shim, the
// notices, and for each platform the program sheet, which the shim starts as a
// child process that serves.
//
// All but programs and notices is made from the function table and committed in the
// folder generated; a test fails when a file there is stale. To make them anew:
//
//	go -C examples generate ./...
//
// The type library XShop.rdb is compiled from XShop.idl by the tests with the
// tag libreoffice, which compare it with the committed one, or with -update
// write it.
package addin

//go:generate go test -run TestGeneratedFilesAreFresh -update .
