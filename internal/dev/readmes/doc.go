// Package readmes holds the documents of the repository to what is there: its
// tests run the programs and the jobs that they show, and look up the links, the
// packages and the names.
package readmes
