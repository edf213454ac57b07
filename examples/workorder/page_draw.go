package main

// The page is drawn in user units of 1/96 in, so that a drawing as wide as the
// print of an A4 or Letter page is pageWide, and type keeps its size on paper.
const (
	pageWide  = 680.0
	panelWide = 330.0
	frontWide = 420
	mapHigh   = 900 // of what a page holds
)
