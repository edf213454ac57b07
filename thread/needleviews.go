package thread

import "slices"

// NeedleView is another custom of the trade for a size of thread, kept beside
// NeedlesFor where the two differ.
type NeedleView struct {
	Work    string      `json:"work"`
	Size    Size        `json:"size"`
	Needles NeedleRange `json:"needles"`
}

var needleViews = []NeedleView{
	{"saddlery", Size33, NeedleRange{80, 90, fitPractice}},
	{"saddlery", Size46, NeedleRange{80, 90, fitPractice}},
	{"saddlery", Size69, NeedleRange{90, 110, fitPractice}},
	{"saddlery", Size92, NeedleRange{100, 110, fitPractice}},
	{"saddlery", Size138, NeedleRange{130, 150, fitPractice}},
	{"saddlery", Size207, NeedleRange{160, 180, fitPractice}},
	{"boot work, decorative", Size33, NeedleRange{65, 70, fitPractice}},
	{"stiff thread in leather", Size69, NeedleRange{100, 125, practice("16, 18 or 20 by the stiffness of the thread")}},
	{"filament polyester", Size138, NeedleRange{125, 140, fitPractice}},
}

// NeedleViews lists where customs differ from NeedlesFor: make a sample.
func NeedleViews() []NeedleView { return slices.Clone(needleViews) }
