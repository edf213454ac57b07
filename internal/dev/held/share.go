package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// share gives the changes of the part that is asked for, such as 3/50, or
// today/50, which goes round with the days. Parts take about equal time.
func share(text string, changes []change) ([]change, error) {
	which, parts, ok := strings.Cut(text, "/")
	of, err := strconv.Atoi(parts)
	if !ok || err != nil || of < 1 {
		return nil, fmt.Errorf("-share %q: want 3/50 or today/50", text)
	}
	k := int(time.Now().Unix()/(24*60*60))%of + 1
	if which != "today" {
		if k, err = strconv.Atoi(which); err != nil || k < 1 || k > of {
			return nil, fmt.Errorf("-share %q: want a number from 1 to %d, or today", text, of)
		}
	}
	total := 0
	for _, c := range changes {
		total += c.weight()
	}
	var part []change
	sum := 0
	for _, c := range changes {
		if sum*of/total == k-1 {
			part = append(part, c)
		}
		sum += c.weight()
	}
	return part, nil
}

// weight is about how long a change takes: one that is built anew, long, and one of
// whole jobs, whose tests work many out.
func (c change) weight() int {
	weight := 1
	if c.built {
		weight = 8
	}
	if c.src.path == "cost/job" {
		weight *= 6
	}
	return weight
}
