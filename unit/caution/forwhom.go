package caution

// forWhom holds what children and patients need.
var forWhom = []row{
	{id: "C1", rank: Papers, about: "children's furniture", where: UnitedStates, when: children, readers: shop,
		text: "Coating on furniture and on goods for children has at most 0.009 % lead (90 ppm).",
		rule: "16 CFR part 1303", edition: "73 FR 77492", from: "2009-08-14", basis: on(std("FR-73-77492", ""))},
	{id: "C2", rank: Papers, about: "children's furniture", where: Everywhere, when: children, customer: 5, readers: shop,
		text: "No loose buttons, beads or nails within reach of children, and the sliders of zips hidden or captive.",
		rule: "16 CFR part 1501", basis: on(std("CFR-16-1501", "small parts of what children under 3 use"), remembered)},
	{id: "M1", rank: Papers, about: "medical seating", where: Everywhere, when: func(p Piece) bool { return p.is(Medical) }, customer: 3, readers: shop,
		text: "The clinician or the maker decides foam and cover of wheelchairs and of medical and pressure-relief seating.", basis: on(remembered)},
}
