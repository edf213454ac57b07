package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"time"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/unit"
)

// limits keep one caller from taking the machine.
type limits struct {
	within time.Duration
	atOnce int
	bytes  int64
}

var usual = limits{within: 10 * time.Second, atOnce: 2, bytes: 1 << 20}

func (l limits) check() error {
	if l.within <= 0 || l.atOnce < 1 || l.bytes < 1 {
		return errors.New("-within, -at-once and -bytes must be above zero")
	}
	return nil
}

// answer is what comes back for a job.
type answer struct {
	Name  string  `json:"name"`
	Goods []goods `json:"goods"`
	// Stopped says that time ran out: the layouts are right, but longer work
	// might have found shorter ones.
	Stopped bool `json:"stopped,omitempty"`
}

// goods is how much to buy of one kind of goods.
type goods struct {
	ID     string      `json:"goods"`
	Name   string      `json:"name"`
	Buy    string      `json:"buy"`             // as a shop writes it
	Length unit.Length `json:"length,omitzero"` // of a roll
	Area   unit.Area   `json:"area,omitzero"`   // of hides
	Hides  int         `json:"hides,omitzero"`
	// Answers are all that are known, with what each is worth; the last is bought by.
	Answers []job.Answer `json:"answers"`
}

// refusal is what comes back for a job that is wrong, or that was not worked on.
type refusal struct {
	Error  string  `json:"error"`
	Faults []fault `json:"faults,omitempty"`
}

// fault is one thing wrong with a job file.
type fault struct {
	Field   string `json:"field,omitempty"` // such as pieces[1].panels[0].width
	Line    int    `json:"line,omitzero"`
	Value   string `json:"value,omitempty"`
	Want    string `json:"want,omitempty"`
	Message string `json:"message"`
}

// handler serves POST /yardage.
func handler(l limits) http.Handler {
	places := make(chan struct{}, l.atOnce)
	mux := http.NewServeMux()
	mux.HandleFunc("POST /yardage", func(w http.ResponseWriter, r *http.Request) {
		select {
		case places <- struct{}{}:
			defer func() { <-places }()
		default:
			w.Header().Set("Retry-After", "1")
			reply(w, http.StatusServiceUnavailable, refusal{Error: "all places are taken"})
			return
		}
		// A caller that goes away ends the work as well.
		ctx, cancel := context.WithTimeout(r.Context(), l.within)
		defer cancel()
		order, err := job.Read(ctx, http.MaxBytesReader(w, r.Body, l.bytes), job.Options{Effort: 0.1, NoMatching: true, Workers: 1})
		if err != nil {
			status, body := refused(err)
			reply(w, status, body)
			return
		}
		reply(w, http.StatusOK, answerOf(order))
	})
	return mux
}

func reply(w http.ResponseWriter, status int, body any) {
	text, err := json.MarshalIndent(body, "", "  ")
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(append(text, '\n')) //nolint:errcheck // the caller has gone
}

// answerOf takes what is to be bought from an order.
func answerOf(o job.WorkOrder) answer {
	a := answer{Name: o.Name, Stopped: o.Stopped, Goods: []goods{}}
	for _, p := range o.Purchases {
		g := goods{ID: p.Goods, Name: p.Name, Length: p.Length, Area: p.Area, Hides: p.Hides, Answers: p.Answers}
		switch {
		case p.Length > 0:
			g.Buy = p.Length.Yardage(unit.Up)
		case p.Hides == 1:
			g.Buy = fmt.Sprintf("1 hide, %s", p.Area.Decimal(unit.SquareFoot, 1, unit.Up))
		case p.Hides > 1:
			g.Buy = fmt.Sprintf("%d hides, %s", p.Hides, p.Area.Decimal(unit.SquareFoot, 1, unit.Up))
		default:
			g.Buy = "nothing"
		}
		a.Goods = append(a.Goods, g)
	}
	return a
}

// refused says why, and whose fault it is.
func refused(err error) (int, refusal) {
	var large *http.MaxBytesError
	var faults job.Faults
	var unreadable *job.Fault
	switch {
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge, refusal{Error: fmt.Sprintf("the job file has more than %d bytes", large.Limit)}
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return http.StatusServiceUnavailable, refusal{Error: "time ran out before there was any layout"}
	case errors.As(err, &faults):
	case errors.As(err, &unreadable):
		faults = job.Faults{unreadable}
	default:
		return http.StatusInternalServerError, refusal{Error: err.Error()}
	}
	out := refusal{Error: "the job file has faults"}
	for _, f := range faults {
		line := fault{Line: f.Line, Message: f.Error()}
		var input *unit.InputError
		if errors.As(f, &input) {
			line.Field, line.Value, line.Want = string(input.Field), input.Value, input.Want
		}
		out.Faults = append(out.Faults, line)
	}
	return http.StatusBadRequest, out
}
