package cite

// costSources are the documents that figures of package cost were read in.
var costSources = []Source{
	{
		Key: "GDA-ROUNDING", Title: "General Decimal Arithmetic Testcases: rounding", Edition: "2.59", Publisher: "General Decimal Arithmetic",
		Locator: "rounding.decTest, first part",
		Address: "https://github.com/python/cpython/blob/main/Lib/test/decimaltestdata/rounding.decTest",
	},
	{
		Key: "GDA-QUANTIZE", Title: "General Decimal Arithmetic Testcases: quantize", Edition: "2.56", Publisher: "General Decimal Arithmetic",
		Locator: "quantize.decTest, first part",
		Address: "https://github.com/python/cpython/blob/main/Lib/test/decimaltestdata/quantize.decTest",
	},
	{
		Key: "ISO-4217-LIST1", Title: "ISO 4217 List One: current currency and funds codes", Edition: "published 2024-06-25",
		Publisher: "ISO 4217 Maintenance Agency", Locator: "CcyMnrUnts", Address: "https://github.com/freeall/currency-codes/blob/master/iso-4217-list-one.xml",
	},
	{
		Key: "OPM-2087", Title: "Fact Sheet: Computing Hourly Rates of Pay Using the 2,087-Hour Divisor", Publisher: "US Office of Personnel Management",
		Locator: "divisor and rounding rule", Address: "https://www.opm.gov/oca/pay/HTML/2087_divisor.asp",
	},
	{
		Key: "SSUTA-324", Title: "Rounding rule of the streamlined sales tax agreement, section 324, as enacted", Edition: "Rhode Island 44-18.1-25",
		Publisher: "State of Rhode Island", Locator: "44-18.1-25", Address: "https://webserver.rilegislature.gov/Statutes/TITLE44/44-18.1/44-18.1-25.HTM",
	},
	{
		Key: "AU-GST-9-90", Title: "A New Tax System (Goods and Services Tax) Act 1999", Publisher: "Commonwealth of Australia",
		Locator: "section 9-90", Address: "http://www5.austlii.edu.au/au/legis/cth/consol_act/antsasta1999402/s9.90.html",
	},
	{
		Key: "NZ-GST-19O", Title: "Goods and Services Tax Act 1985", Publisher: "New Zealand",
		Locator: "section 19O, plain copy", Address: "https://plainlanguagelaw.ackama.com/acts/DLM81034/LMS849298.html",
	},
	{
		Key: "CA-MINT-ROUNDING", Title: "Rounding", Publisher: "Royal Canadian Mint",
		Locator: "cash totals", Address: "https://www.mint.ca/store/mint/about-the-mint/rounding-6900008",
	},
}
