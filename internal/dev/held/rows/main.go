// Command rows runs the check tables it is told, such as foam, or all, and
// stops at the first row that does not hold.
package main

import (
	"fmt"
	"os"
	"slices"

	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/internal/dev/reference/evaluate"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
}

func run(tables []string) error {
	suites, err := evaluate.Suites()
	if err != nil {
		return fmt.Errorf("rows: %w", err)
	}
	for _, s := range suites {
		if len(tables) > 0 && !slices.Contains(tables, s.Package) {
			continue
		}
		for _, row := range s.Rows {
			one := reference.Suite{Package: s.Package, Rows: []reference.Row{row}, Evaluators: s.Evaluators}
			if r := reference.Run([]reference.Suite{one}).Rows[0]; !r.OK {
				return fmt.Errorf("row %s: expected %s, got %s", r.ID, r.Expected, r.Got)
			}
		}
	}
	return nil
}
