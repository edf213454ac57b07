package cite

// allowanceSources are the documents that figures of package allowance were read in.
var allowanceSources = []Source{
	{
		Key: "EC57-1125", Title: "EC57-1125 How to Make Slip Covers", Edition: "1957",
		Publisher: "University of Nebraska, agricultural extension", Locator: "page 2",
		Address: "https://docslib.org/doc/3240589/ec57-1125-how-to-make-slip-covers-magdalene-pfister",
	},
	{
		Key: "FM-10-16", Title: "FM 10-16 General Fabric Repair", Edition: "24 May 2000",
		Publisher: "Department of the Army", Locator: "canvas seams and hems",
		Address: "https://www.free-ebooks.net/reference/General-Fabric-Repair/html/4",
	},
	{
		Key: "AC-43.13-1B", Title: "Acceptable Methods, Techniques, and Practices: Aircraft Inspection and Repair", Edition: "AC 43.13-1B",
		Publisher: "Federal Aviation Administration", Locator: "Table 2-2; 2-7, 2-8, 2-43, 2-44",
		Address: "https://www.landseaskyspace.com/ac4313/p2-6.html",
	},
	{
		Key: "TM-10-1670-292-23P", Title: "TM 10-1670-292-23&P, patching",
		Publisher: "Department of the Army", Locator: "patches on cotton equipment",
		Address: "https://parachutemanuals.tpub.com/TM-10-1670-292-23P/css/TM-10-1670-292-23P_199.htm",
	},
	{
		Key: "ELLIPSE-PERIMETER", Title: "Perimeter of an ellipse",
		Publisher: "Wikipedia", Locator: "complete elliptic integral and series",
		Address: "https://en.wikipedia.org/wiki/Perimeter_of_an_ellipse",
	},
	{
		Key: "MINKOWSKI-STEINER", Title: "Minkowski-Steiner formula",
		Publisher: "Wikipedia", Locator: "area of a convex body and its parallel body in the plane",
		Address: "https://en.wikipedia.org/wiki/Steiner-minkowski_formula",
	},
}
