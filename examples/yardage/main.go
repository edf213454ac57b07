// Command yardage is a service that says how much of each goods a job takes. It
// reads a job file, as cost/job/README.md describes it, and answers with what is to
// be bought.
//
//	go -C examples run ./yardage -listen localhost:8080
//	curl --data-binary @stools.json localhost:8080/yardage
//
// What is wrong with the file comes back as a list, each fault with its field and
// line.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run serves until the context ends, and then finishes what it has begun.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	fs := flag.NewFlagSet("yardage", flag.ContinueOnError)
	fs.SetOutput(stderr)
	listen := fs.String("listen", "localhost:8080", "`ADDRESS` to listen at")
	limits := usual
	fs.DurationVar(&limits.within, "within", usual.within, "the longest that one job is worked on; what is found by then is the answer")
	fs.IntVar(&limits.atOnce, "at-once", usual.atOnce, "how many jobs are worked on at a time; others are sent away")
	fs.Int64Var(&limits.bytes, "bytes", usual.bytes, "the largest job file")
	if err := fs.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if err := limits.check(); err != nil {
		fmt.Fprintln(stderr, "yardage:", err)
		return 2
	}
	if err := serve(ctx, *listen, limits, stdout); err != nil {
		fmt.Fprintln(stderr, "yardage:", err)
		return 1
	}
	return 0
}

func serve(ctx context.Context, address string, l limits, stdout io.Writer) error {
	socket, err := new(net.ListenConfig).Listen(ctx, "tcp", address)
	if err != nil {
		return err
	}
	const grace = 10 * time.Second
	server := &http.Server{
		Handler:           handler(l),
		ReadHeaderTimeout: grace, ReadTimeout: 2 * grace, WriteTimeout: 3*grace + l.within, IdleTimeout: 6 * grace,
		MaxHeaderBytes: 1 << 14,
	}
	fmt.Fprintf(stdout, "listening at http://%s/yardage\n", socket.Addr())
	done := make(chan error, 1)
	go func() { done <- server.Serve(socket) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), l.within+grace)
	defer cancel()
	return server.Shutdown(last)
}
