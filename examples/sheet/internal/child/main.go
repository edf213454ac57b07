// Command child is the function filter alone: what the spreadsheet add-in
// starts behind a sheet. It is small and has no C code, so that it is built
// for every platform from any other.
package main

import (
	"fmt"
	"os"

	"github.com/coverwright/coverwright/examples/sheet/internal/serve"
)

func main() {
	if err := serve.Serve(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "child:", err)
		os.Exit(1)
	}
}
