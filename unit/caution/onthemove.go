package caution

import "github.com/coverwright/coverwright/unit/cite"

// onTheMove holds vehicles, boats, ships, caravans and what stands out of doors.
var onTheMove = []row{
	{id: "V0", rank: Papers, about: "vehicles", where: Everywhere, when: Piece.vehicle, customer: 13, readers: office,
		text: "Vehicles have rules of their own for what seats and linings are made of, fire among them, of which rules for furniture in homes say nothing: " +
			"read the text in force where the vehicle is registered, and ask its inspectors or its maker when in doubt.", basis: on(custom)},
	{id: "V1", rank: Papers, about: "vehicles", where: UnitedStates, when: Piece.vehicle, readers: office,
		text:  "Material within 13 mm of the air of the cabin of a car, van, truck or bus burns at most 102 mm (4 in) a minute.",
		rule:  "49 CFR 571.302 S4.2 and S4.3",
		basis: on(std("CFR-49-571-302", "scope and S4.2, edition of 2002"), cite.In("NHTSA-BURN-RATE", "4 in a minute"))},
	{id: "V2", rank: Papers, about: "vehicles", where: UnitedStates, when: Piece.vehicle, readers: shop,
		text: "A repair business must not knowingly make an element of safety inoperative, and covers count that a shop puts in, those of the owner's own hand do not.",
		rule: "letter of the agency", edition: "1985-04-01", basis: on(cite.In("NHTSA-1985-04-01", ""))},
	{id: "V4", rank: Papers, about: "motorcycles", where: UnitedStates, when: func(p Piece) bool { return p.is(Motorcycle) }, readers: office,
		text: "Motorcycles are not in the list of vehicles whose seats have the burn rate of cars.",
		rule: "49 CFR 571.302 S3", basis: on(cite.Basis{Status: cite.Derived, Source: "CFR-49-571-302", Note: "from its list of vehicles"})},
	{id: "B1", rank: Papers, about: "ships", where: Everywhere, when: ship, customer: 6, readers: office,
		text: "Cover and filling are tested together by cigarette and by a match flame of 20 s that must be out within 120 s without smouldering at 1 h, and the European approval shows as a wheel mark.",
		rule: "IMO 2010 FTP Code, annex 1 part 8; Directive 2014/90/EU", basis: on(cite.In("FTP-CODE-8", "a laboratory's page and guidance on the code"))},
	{id: "B2", rank: Papers, about: "ships", where: UnitedStates, when: func(p Piece) bool { return ship(p) && p.Bed }, readers: office,
		text: "A mattress of a small passenger vessel meets 16 CFR part 1632 without polyurethane foam, or IMO resolution A.688(17).",
		rule: "46 CFR 177.405 (g)", basis: on(std("CFR-46-177-405", ""))},
	{id: "B3", rank: Papers, about: "ships", where: UnitedStates, when: ship, readers: office,
		text: "Seats of larger passenger vessels are fire-resistant furnishings.", rule: "46 CFR 116.423", basis: on(remembered)},
	{id: "B4", rank: Papers, about: "boats", where: UnitedKingdom, when: Piece.boat, readers: office,
		text: "For inland boats covers to EN 1021-1 and EN 1021-2 and low-hazard foam are recommended, which can bind boats for hire.",
		rule: "boat safety scheme 6.6", basis: on(cite.In("BSS-6", ""))},
	{id: "B5", rank: Papers, about: "boats", where: Everywhere, when: Piece.boat, customer: 14, readers: shop,
		text: "For a private boat no general fire rule was found, and salt, sun and water ask for polyester thread, goods that bear sunlight, plastic zips and stainless fastenings.", basis: on(custom)},
	{id: "B6", rank: Papers, about: "boats", where: Everywhere, when: func(p Piece) bool { return p.boat() || ship(p) }, customer: 4, readers: bench,
		text: "A cushion is no buoyancy aid unless it is approved as one, and approved ones are not reworked.", basis: on(remembered)},
	{id: "R1", rank: Papers, about: "caravans", where: UnitedKingdom, when: func(p Piece) bool { return p.is(Caravan, Motorhome) }, customer: 17, readers: office,
		text: "The rules for furniture reach that of caravans, and a motorhome is a vehicle besides.", rule: "S.I. 1988/1324",
		basis: on(custom, cite.Basis{Status: cite.Derived, Note: "the motorhome"})},
	{id: "O1", rank: Papers, about: "outdoors", where: UnitedStates, when: func(p Piece) bool { return p.furniture() && p.Lives == OutOfDoors }, customer: 11, readers: shop,
		text: "What is not meant for indoors is outside the federal rule, and must bear fading and mildew and let water drain.", rule: "16 CFR part 1640",
		edition: "86 FR 18440, definition of indoor use", basis: on(std("FR-86-18440", "the scope"))},
}

// goods holds rules on what goes into a piece beside cover and foam.
var goods = []row{
	{id: "G1", rank: Papers, about: "glue", where: UnitedStates, when: newFoam, readers: office,
		text: "Methylene chloride, once usual in foam adhesives, is kept from consumers, and its use in trade is restricted or banned in steps: check the dates now in force.",
		rule: "40 CFR part 751", edition: "89 FR 39254, methylene chloride", from: "2024-07-08", basis: on(std("FR-89-39254", ""))},
	{id: "G2", rank: Papers, about: "glue", where: UnitedStates, when: newFoam, readers: office,
		text: "A ban on most uses of 1-bromopropane, spray adhesives among them, was proposed in August 2024: ask what is in force.",
		rule: "89 FR 65066", edition: "proposed rule", basis: on(cite.In("FR-2024-17204", "the proposal and its day"), cite.Practice("the page of the register"))},
	{id: "H10", rank: Papers, about: "boards", where: UnitedStates, when: func(p Piece) bool { return p.Board }, readers: office,
		text: "New hardwood plywood, fibreboard and particleboard are bought as tested for formaldehyde.",
		rule: "40 CFR part 770", basis: on(cite.In("RIN-2070-AJ92", "the kinds of board"))},
}
