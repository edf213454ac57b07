// Package jobfile reads a job for the programs: its file, that of the shop beneath it,
// and a price list in CSV over that.
package jobfile

import (
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/cost/job"
)

// Files names the files that a job is read from; what is empty is not given.
type Files struct{ Job, Shop, Prices string }

// Flags adds the flags that name them.
func (f *Files) Flags(fs *flag.FlagSet) {
	fs.StringVar(&f.Job, "job", "", "job `FILE.json`, as cost/job/README.md describes it; the demo job when not given")
	fs.StringVar(&f.Shop, "shop", "", "shop `FILE.json`, as cost/job/README.md describes it, that the job is read on top of; the demo job has its own")
	fs.StringVar(&f.Prices, "prices", "", "price list `FILE.csv`, in place of prices of the shop file with the same codes")
}

// ReadShop reads the shop, no shop when there is neither a file nor a price list.
func (f Files) ReadShop() (job.Shop, error) {
	var s job.Shop
	err := reading(f.Shop, func(r io.Reader) error {
		var err error
		s, err = job.ReadShop(r)
		return err
	})
	if err != nil {
		return s, err
	}
	err = reading(f.Prices, func(r io.Reader) error {
		prices, err := cost.ReadPriceListCSV(r)
		if err == nil {
			s, err = s.WithPrices(prices)
		}
		return err
	})
	return s, err
}

// Open opens the job file for a reader; errors of that name the file.
func (f Files) Open(read func(io.Reader) error) error { return reading(f.Job, read) }

func reading(name string, read func(io.Reader) error) error {
	if name == "" {
		return nil
	}
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close() //nolint:errcheck // only read
	if err := read(file); err != nil {
		return fmt.Errorf("%s:\n%w", name, err)
	}
	return nil
}
