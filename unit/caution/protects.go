package caution

import "github.com/coverwright/coverwright/unit/cite"

// protecting holds what protects those who do the work.
var protecting = []row{
	{id: "F12", rank: Protects, about: "fire", where: Everywhere, when: newFoam, customer: 7, readers: bench,
		text:  "Polyurethane foam burns fast and gives off carbon monoxide and hydrogen cyanide, and foam that passes a smoulder test is not flame-proof.",
		basis: on(custom)},
	{id: "H8", rank: Protects, about: "glue", where: Everywhere, when: newFoam, readers: shop,
		text: "Glue: read the safety data sheet of the container, extract or ventilate, no flame, no pilot light, no smoking, " +
			"let the solvent go before the cover is closed, and ask for a glue free of methylene chloride and 1-bromopropane.", basis: on(custom)},
	{id: "H11", rank: Protects, about: "heat", where: Everywhere, when: newFoam, readers: bench,
		text: "Cut polyurethane foam cold, with saw or knife, for a hot wire makes it give off isocyanates and other harmful fumes; hot wire is for polystyrene and needs extraction even there.", basis: on(custom)},
	{id: "H4", rank: Protects, about: "dust", where: Everywhere, when: func(p Piece) bool { return p.NewFoam || p.MayBeOld }, readers: bench,
		text: "Old foam may crumble and hold flame retardants no longer used: wear a mask, clean with a fine filter, bag it, and do not shred it.", basis: on(custom)},
	{id: "H1", rank: Protects, about: "old paint", where: Everywhere, when: old, readers: bench,
		text: "A piece from before 1978, or a painted one, may have lead in its paint: no dry sanding, work wet or test first; " +
			"the rule on renovation is for housing and rooms for small children, of which loose furniture is no part, and fixed booths and window seats may be.",
		rule: "40 CFR part 745", edition: "73 FR 21692", basis: on(std("FR-73-21692", "the scope; what it says of furniture is a reading of it"))},
	{id: "H2", rank: Protects, about: "old filling", where: Everywhere, when: old, readers: bench,
		text: "Old hair, wool, moss, straw and feather bring dust, mould, moth and droppings: mask, extraction, bag and wash; " +
			"hair from China, Siberia and Russia had to be disinfected in Britain from 1908-04-01 because of anthrax.",
		basis: on(cite.In("HANSARD-1908-02-19", "hair from abroad"), custom)},
	{id: "H5", rank: Protects, about: "springs", where: Everywhere, when: func(p Piece) bool { return p.Springs || p.MayBeOld }, readers: bench,
		text: "Zigzag and coil springs are under tension: protect the eyes, hold with pliers, release one end slowly, and cut twine from the middle.", basis: on(custom)},
	{id: "H6", rank: Protects, about: "stripping and tacking", where: Everywhere, when: framed, readers: bench,
		text: "Protect the eyes, glove the hands against staples, take the gun off the air before clearing it, and clean with air below 30 psi at the nozzle.",
		rule: "29 CFR 1910.242 (b)", basis: on(custom, std("OSHA-1910-242-B", "the pressure"))},
	{id: "H7", rank: Protects, about: "knives and machine", where: Everywhere, when: always, readers: bench,
		text: "Blade away from the hand, needle guard on, machine off and foot off its pedal when threading or changing the needle.", basis: on(custom)},
	{id: "H9", rank: Protects, about: "lifting", where: Everywhere, when: func(p Piece) bool { return p.Large }, readers: bench,
		text: "Two people or a bench lift what is above 23 kg (51 lb), where a sofa has 35 to 70 kg, and trestles stand at the height of the elbow.",
		rule: "load constant of the US lifting equation", basis: on(remembered, custom)},
	{id: "T1", rank: Protects, about: "seams", where: Everywhere, when: sewn, readers: bench, text: SafetySeams, basis: on(custom)},
	{id: "T3", rank: Protects, about: "seams", where: Everywhere, when: sewn, readers: bench,
		text: "Sew a sample with the goods, thread and needle of the job before the first seam.", basis: on(custom)},
	{id: "W1", rank: Protects, about: "frame", where: Everywhere, when: framed, readers: bench,
		text: "Check frame, joints, springs and webbing when the old cover is off; repairs that carry weight, and furniture for children, are work for someone licensed to do it where you are.", basis: on(custom)},
}
