package thread

// Warnings gives what a work order must say about thread and seams.
func Warnings() []string {
	return []string{
		"Thread figures are estimates for furniture upholstery. A load-bearing or safety seam needs a specification by licensed practice and a test.",
		"Never resew seat belts, air-bag seams, child restraints, harness, climbing, lifting or parachute gear by these figures: the governing specification and proof tests apply.",
		"A seat's side seam may be made to tear for an air bag; leave it to the vehicle maker's instructions.",
		"Sew a sample with the goods, thread and needle of the job before the first seam.",
		"Keep the needle guard on; switch the machine off and take the foot off the treadle before threading or changing the needle.",
	}
}
