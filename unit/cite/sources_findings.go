package cite

// findingsSources are the documents that figures of package findings were read in.
var findingsSources = []Source{
	{
		Key: "UPHOLSTERY-FOR-SCHOOLS", Title: "Furniture Upholstery for Schools (E. A. Johnson)", Edition: "Peoria 1919",
		Publisher: "The Manual Arts Press; textbook by an assistant professor of Bradley Polytechnic Institute", Locator: "chapters II to VIII",
		Address: "https://www.gutenberg.org/ebooks/70339",
	},
	{
		Key: "HANDWORK-IN-WOOD", Title: "Handwork in Wood (W. Noyes)", Edition: "Peoria 1910",
		Publisher: "The Manual Arts Press; textbook by an assistant professor of Teachers College, Columbia University", Locator: "fastenings: tacks",
		Address: "https://bitlit.ru/page/en/william-noyes/handwork-in-wood/105",
	},
	{
		Key: "OLD-CHAIRS-AND-COUCHES", Title: "Upholstering Old Chairs and Couches",
		Publisher: "University of New Hampshire", Locator: "webbing and gimp, as reprinted in a home manual",
		Address: "https://chestofbooks.com/architecture/Better-Homes/Upholstering-Old-Chairs-And-Couches.html",
	},
	{
		Key: "CCC-C-467C", Title: "Federal specification CCC-C-467C, burlap", Edition: "1972; cancelled 1994",
		Publisher: "General Services Administration", Locator: "1.2.1",
		Address: "https://studylib.net/doc/12073070",
	},
	{
		Key: "MIL-B-20289D", Title: "MIL-B-20289D, buttons, insignia, plastic", Edition: "10 September 1990",
		Publisher: "Department of the Navy, U.S. Marine Corps", Locator: "1.2: a line is one-fortieth of an inch",
		Address: "http://m.mydoc123.com/p-977203.html",
	},
	{
		Key: "A-A-55126B", Title: "A-A-55126B, hook and loop fastening tapes", Edition: "2006",
		Publisher: "Department of Defense", Locator: "3.9",
		Address: "https://notionsapparelfindings.emilspec.com/A-A-55126/page7.html",
	},
	{
		Key: "TM-10-1670-299-20P", Title: "TM 10-1670-299-20&P, installing a snap fastener",
		Publisher: "Department of the Army", Locator: "page 67: the parts of a fastener",
		Address: "https://parachutemanuals.tpub.com/TM-10-1670-299-20P/css/TM-10-1670-299-20P_67.htm",
	},
}
