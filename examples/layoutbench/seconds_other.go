//go:build !unix

package main

import "time"

var started = time.Now()

// processorSeconds is the time since the start, where the time of the processors is not told.
func processorSeconds() float64 { return time.Since(started).Seconds() }
