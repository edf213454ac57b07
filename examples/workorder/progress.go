package main

import (
	"fmt"
	"io"
	"os"
	"sync"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// progress tells how far the layouts have come: on a terminal in one line that
// is written over, otherwise one line for each step of ten per cent.
type progress struct {
	w        io.Writer
	terminal bool
	mu       sync.Mutex
	last     string
	width    int
}

func newProgress(w io.Writer) *progress {
	p := &progress{w: w}
	if f, ok := w.(*os.File); ok {
		info, err := f.Stat()
		p.terminal = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return p
}

func (p *progress) tell(s job.Progress) {
	p.mu.Lock()
	defer p.mu.Unlock()
	step := unit.Ratio(0.1)
	if p.terminal {
		step = 0.01
	}
	done := unit.Ratio(int(s.Done/step+1e-9)) * step
	line := done.PercentText(0, unit.Nearest) + " " + s.Layout
	if line == p.last {
		return
	}
	p.last = line
	if !p.terminal {
		fmt.Fprintln(p.w, line)
		return
	}
	if s.State != "" {
		line += ": " + s.State
	}
	fmt.Fprintf(p.w, "\r%-*s", p.width, line)
	p.width = len([]rune(line))
}

// end clears the line for what comes next.
func (p *progress) end() {
	if p.terminal && p.width > 0 {
		fmt.Fprintf(p.w, "\r%*s\r", p.width, "")
	}
}
