package caution

import "github.com/coverwright/coverwright/unit/cite"

// forbidding says what is not to be done, or not without a licence.
var forbidding = []row{
	{id: "A1", rank: Forbids, about: "aircraft", where: Everywhere, when: aircraft, customer: 1, readers: shop,
		text:  "Upholstery of an aircraft is licensed work for which a certificated mechanic or repair station answers, and materials, and each cushion with its cover, are burn-tested.",
		rule:  "14 CFR 25.853 (a) and (c) with appendix F; 14 CFR part 43 appendix A (c)",
		basis: on(cite.Practice("part 25, as a test house quotes it"), cite.Memory("part 43"))},
	{id: "V3", rank: Forbids, about: "vehicles", where: Everywhere, when: Piece.vehicle, customer: 2, readers: bench,
		text:  "Never open, resew or re-cover a panel with an airbag opening, which takes the vehicle maker's cover or a qualified workshop, cut no harness, and remember that changed foam or cover can mislead an occupant sensor.",
		basis: on(cite.In("NHTSA-11-000699", "that no standard speaks of covers put on later"), custom)},
	{id: "H3", rank: Forbids, about: "old work", where: Everywhere, when: old, readers: bench,
		text:  "Fire-proofed seats, those of theatres and ships, and heater boxes from before 1980 can hold asbestos cloth or board: stop, and have it tested.",
		basis: on(remembered)},
	{id: "T2", rank: Forbids, about: "seams", where: Everywhere, when: sewn, readers: bench,
		text:  "Never resew seat belts, seams of airbags, child restraints, harness, climbing, lifting or parachute gear by these figures: the governing specification and proof tests apply.",
		basis: on(custom)},
}
