package cite

// materialSources are the documents that figures of package material were
// read in.
var materialSources = []Source{
	{
		Key:       "ASTM-D1814",
		Title:     "ASTM D1814, Standard Test Method for Measuring Thickness of Leather Units",
		Edition:   "D1814-70(2021)",
		Publisher: "ASTM International",
		Locator:   "scope: ounce and iron in parts of an inch",
		Address:   "https://standards.iteh.ai/catalog/standards/astm/c4b0310b-a19b-4783-969a-aace5657bd5b/astm-d1814-70-2021",
	},
	{
		Key:       "BOOKBINDING-DICTIONARY",
		Title:     "Bookbinding and the Conservation of Books: A Dictionary of Descriptive Terminology",
		Edition:   "1982",
		Publisher: "Library of Congress",
		Locator:   "entries on the belly (dt0269) and on footage (dt1409)",
		Address:   "https://cool.culturalheritage.org/don/dt/dt0269.html",
	},
	{
		Key:       "EC77-498",
		Title:     "Working with Leather, EC77-498",
		Edition:   "1977",
		Publisher: "University of Nebraska Cooperative Extension",
		Locator:   "square feet of leather for yards of cloth",
		Address:   "https://docslib.org/doc/6803092/ec77-498-working-with-leather-jane-speece",
	},
}
