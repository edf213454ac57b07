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
	{
		Key: "CLDR-CURRENCY", Title: "CLDR supplemental data: currency fractions", Publisher: "Unicode Consortium",
		Locator: "currencyData/fractions: cashDigits and cashRounding",
		Address: "https://github.com/unicode-org/cldr/blob/main/common/supplemental/supplementalData.xml",
	},
	{
		Key: "SSA-POMS-PRODUCTIVE", Title: "POMS LNX 04395.03230, productive work-year", Publisher: "US Social Security Administration",
		Locator: "hours of a work-year", Address: "https://secure.ssa.gov/poms.nSf/lnx/0439503230",
	},
	{
		Key: "BLS-ECEC-2015", Title: "Employer Costs for Employee Compensation", Edition: "June 2015", Publisher: "US Bureau of Labor Statistics",
		Locator: "private industry: wages and benefits an hour", Address: "http://stats.bls.gov/news.release/archives/ecec_09092015.htm",
	},
	{
		Key: "BLS-ECEC-2016", Title: "Employer Costs for Employee Compensation", Edition: "September 2016", Publisher: "US Bureau of Labor Statistics",
		Locator: "civilian workers: wages and benefits an hour", Address: "https://www.bls.gov/news.release/archives/ecec_12082016.htm",
	},
	{
		Key: "BLS-ECEC-2018", Title: "Employer Costs for Employee Compensation", Edition: "September 2018", Publisher: "US Bureau of Labor Statistics",
		Locator: "civilian workers: wages and benefits an hour", Address: "https://www.bls.gov/news.release/archives/ecec_12142018.htm",
	},
	{
		Key: "MA-64I-5", Title: "Massachusetts General Laws, chapter 64I, section 5", Publisher: "Commonwealth of Massachusetts",
		Locator: "rounding rule", Address: "https://lawserver.com/law/state/massachusetts/ma-laws/massachusetts_general_laws_64i_5",
	},
	{
		Key: "HMRC-VATREC12010", Title: "VAT Trader Records manual: rounding of VAT on invoices", Publisher: "HM Revenue and Customs",
		Locator: "VATREC12010", Address: "https://gov.uk/hmrc-internal-manuals/vat-trader-records/vatrec12010",
	},
	{
		Key: "EU-1103-97", Title: "Council Regulation (EC) No 1103/97", Publisher: "Council of the European Union",
		Locator: "article 5, read in Italian", Address: "http://www.e-glossa.it/wiki/regolamento_ce_del_1997_numero_1103_art._5.aspx",
	},
	{
		Key: "AU-GST-REG-168-5", Title: "A New Tax System (Goods and Services Tax) Regulations 2019", Publisher: "Commonwealth of Australia",
		Locator: "168-5.11", Address: "https://ato.gov.au/law/view/document?LocID=%22REG%2F20190417%2F168-5.11%22",
	},
	{
		Key: "BB-CENT", Title: "Withdrawal of the one cent coin: businesses", Publisher: "Central Bank of Barbados",
		Locator: "rounding of the total", Address: "https://centralbank.org.bb/faqs/withdrawal-of-the-one-cent-coin-businesses",
	},
}
