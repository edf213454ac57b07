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
		Key: "BE-ROUNDING", Title: "Rounding of cash payments (Afronden van cashbetalingen)", Publisher: "Federal Public Service Economy, Belgium",
		Locator: "duty since 1 December 2019; nearest multiple of five cents",
		Address: "https://economie.fgov.be/nl/themas/verkoop/prijsbeleid/betalingen/afronding-van-cashbetalingen/afronden-van-cashbetalingen",
	},
	{
		Key: "CZ-HELLER", Title: "Termination of validity of 50-heller coins", Publisher: "Czech National Bank",
		Locator: "coins out of use and the duty to round to the nearest in circulation",
		Address: "https://www.cnb.cz/en/banknotes-and-coins/coins/information/termination-of-validity-of-50-heller-coins/",
	},
	{
		Key: "DK-BEK-928", Title: "Order on the abolition of the 25-øre coin (Bekendtgørelse nr. 928)", Edition: "19 September 2008",
		Publisher: "Ministry of Economic and Business Affairs, Denmark", Locator: "section 2",
		Address: "https://nalunaarutit.gl/rigslovgivning/2008/bekendtgoerelse-nr-928-af-19_09_2008?sc_lang=da",
	},
	{
		Key: "MNB-COINS", Title: "One and two forint coins will be accepted until 1 March", Edition: "2008",
		Publisher: "Magyar Nemzeti Bank", Locator: "totals to the nearest amount divisible by 5",
		Address: "http://www.mnb.hu/en/banknotes-and-coins/coins/coins-in-circulation/one-and-two-forint-coins-will-be-accepted-until-1-march",
	},
	{
		Key: "NO-2011-294", Title: "Regulation on the withdrawal of the 50-øre coin (FOR-2011-03-16-294)", Edition: "16 March 2011",
		Publisher: "Norges Bank", Locator: "section 2: 1 to 49 øre down, 50 to 99 up",
		Address: "https://lovdata.no/dokument/SF/forskrift/2011-03-16-294",
	},
	{
		Key: "RBNZ-COINS", Title: "Introducing smaller, lighter coins", Edition: "July 2006", Publisher: "Reserve Bank of New Zealand",
		Locator: "coins that are no longer legal tender", Address: "https://www.rbnz.govt.nz/hub/news/2006/07/introducing-smaller-lighter-coins",
	},
	{
		Key: "ACCC-ROUNDING", Title: "Rounding and EFTPOS transactions, media release", Publisher: "Australian Competition and Consumer Commission",
		Locator: "principles for cash", Address: "http://www.accc.gov.au/media-release/rounding-and-eftpos-transactions",
	},
	{
		Key: "BOF-EURO-COINS", Title: "Euro coins", Publisher: "Bank of Finland",
		Locator: "rounding rules", Address: "https://www.suomenpankki.fi/en/money-and-payments/euro-coins/",
	},
	{
		Key: "RIKSBANK-50-ORE", Title: "50-öre coin to be abolished in 2010", Edition: "2009", Publisher: "Sveriges Riksbank",
		Locator: "1 to 49 öre down, 50 to 99 up", Address: "http://www.riksbank.se/en/Press-and-published/Notices/2009/50-ore-coin-to-be-abolished-in-2010/",
	},
	{
		Key: "SNB-COINS", Title: "Questions and answers on coins", Publisher: "Swiss National Bank",
		Locator: "coins in circulation", Address: "https://www.snb.ch/en/services-events/digital-services/faq-overview/qas_muenzen",
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
		Key: "MA-64H-4", Title: "Massachusetts General Laws, chapter 64H, section 4", Edition: "amended by Acts 2009, c. 27", Publisher: "Commonwealth of Massachusetts",
		Locator: "rounding rule of the sales tax",
		Address: "https://print.casetext.com/statute/general-laws-of-massachusetts/part-i-administration-of-the-government/title-ix-taxation/chapter-64h-tax-on-retail-sales-of-certain-tangible-personal-property/section-64h4-formula",
	},
	{
		Key: "HMRC-VATREC", Title: "VAT Trader Records manual: rounding on invoices and at retailers", Publisher: "HM Revenue and Customs",
		Locator: "VATREC12010: the concession; VATREC12030: up and down", Address: "https://gov.uk/hmrc-internal-manuals/vat-trader-records/vatrec12030",
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
	{
		Key: "OPENSTAX-PREALGEBRA", Title: "Prealgebra 2e",
		Publisher: "OpenStax, Rice University", Locator: "worked examples and answers of 6.3, 7.5, 9.4, 9.5 and 9.6",
		Address: "https://github.com/openstax/osbooks-prealgebra-bundle",
	},
	{
		Key: "OPENSTAX-MANAGERIAL", Title: "Principles of Accounting, Volume 2: Managerial Accounting",
		Publisher: "OpenStax, Rice University", Locator: "worked examples of 3.2, 3.5 and 4.4",
		Address: "https://github.com/openstax/osbooks-principles-accounting-bundle",
	},
}
