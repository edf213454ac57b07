package cite

// cautionSources are the documents that rules of package caution were read in;
// those on foam stand with it.
var cautionSources = []Source{
	{
		Key: "CA-BPC-19101", Title: "California Business and Professions Code, section 19101", Edition: "copy through 2024",
		Publisher: "State of California", Locator: "(a) to (c)", Address: "https://legiscan.com",
	},
	{
		Key: "MN-299F", Title: "Minnesota Statutes, fire safety of upholstered furniture", Edition: "2007",
		Publisher: "Minnesota Revisor of Statutes", Locator: "299F.840 to 299F.848",
		Address: "https://www.revisor.mn.gov/statutes/?id=299F.844&year=2007",
	},
	{
		Key: "EN-1728", Title: "Furniture: seating, test methods for the determination of strength and durability", Edition: "EN 1728:2012",
		Publisher: "CEN", Locator: "scope", Address: "https://knowledge.bsigroup.com",
	},
	{
		Key: "FR-73-77492", Title: "Lead in paint and coatings, 16 CFR part 1303, final rule", Edition: "73 FR 77492, 2008",
		Publisher: "US Consumer Product Safety Commission", Locator: "limit and date",
		Address: "http://edocket.access.gpo.gov/2008/E8-30238.htm",
	},
	{
		Key: "CFR-49-571-302", Title: "Flammability of interior materials, 49 CFR 571.302", Edition: "2002-10-01",
		Publisher: "US National Highway Traffic Safety Administration", Locator: "S1 to S4.2",
		Address: "http://edocket.access.gpo.gov/cfr_2002/octqtr/49cfr571.302.htm",
	},
	{
		Key: "NHTSA-BURN-RATE", Title: "Letter of interpretation on the burn rate of interior materials",
		Publisher: "US National Highway Traffic Safety Administration", Locator: "4 in a minute", Address: "https://www.nhtsa.gov/node/127591",
	},
	{
		Key: "NHTSA-1985-04-01", Title: "Letter of interpretation on covers put in by repair businesses", Edition: "1985-04-01",
		Publisher: "US National Highway Traffic Safety Administration", Locator: "the letter", Address: "https://www.nhtsa.gov/es/node/50416",
	},
	{
		Key: "NHTSA-11-000699", Title: "Letter of interpretation on seat covers and airbags", Edition: "11-000699",
		Publisher: "US National Highway Traffic Safety Administration", Locator: "the letter", Address: "https://www.nhtsa.gov/node/43831",
	},
	{
		Key: "FTP-CODE-8", Title: "Fire testing of upholstered furniture to the IMO 2010 FTP Code, part 8",
		Publisher: "RISE Research Institutes of Sweden", Locator: "the page, with guidance on appendix 2 of part 8", Address: "https://www.ri.se/en",
	},
	{
		Key: "CFR-46-177-405", Title: "Small passenger vessels, 46 CFR 177.405", Edition: "as of 2022-10-02",
		Publisher: "US Coast Guard", Locator: "(g)", Address: "https://codes.findlaw.com/cfr/title-46-shipping/cfr-sect-46-177-405/",
	},
	{
		Key: "BSS-6", Title: "Boat Safety Scheme standards for boats that are not private, part 6",
		Publisher: "Boat Safety Scheme", Locator: "6.6 soft furnishings", Address: "https://www.boatsafetyscheme.org",
	},
	{
		Key: "FR-73-21692", Title: "Lead in paint, renovation and repair, 40 CFR part 745, final rule", Edition: "73 FR 21692, 2008",
		Publisher: "US Environmental Protection Agency", Locator: "scope", Address: "http://edocket.access.gpo.gov/2008/E8-8141.htm",
	},
	{
		Key: "HANSARD-1908-02-19", Title: "Death from Anthrax at Lavenham, House of Commons", Edition: "19 February 1908",
		Publisher: "UK Parliament", Locator: "the answer", Address: "https://api.parliament.uk/historic-hansard/commons/1908/feb/19/death-from-anthrax-at-lavenham",
	},
	{
		Key: "RIN-2070-AJ92", Title: "Formaldehyde emission standards for composite wood products, agenda entry", Edition: "2015-04",
		Publisher: "US regulatory agenda", Locator: "abstract", Address: "https://www.reginfo.gov",
	},
	{
		Key: "OSHA-1910-242-B", Title: "29 CFR 1910.242 (b), compressed air used for cleaning, as an inspection record quotes it", Edition: "2017",
		Publisher: "US Occupational Safety and Health Administration", Locator: "text for the citation",
		Address: "https://www.osha.gov/ords/imis/establishment.violation_detail?citation_id=02002&id=1222145.015",
	},
	{
		Key: "CFR-16-1501", Title: "Articles for children under 3 that choke because of small parts, 16 CFR part 1501", Edition: "as of 2021-09-15",
		Publisher: "US Consumer Product Safety Commission", Locator: "1501.1 and 1501.2",
		Address: "https://www.ecfr.gov/current/title-16/chapter-II/subchapter-C/part-1501",
	},
	{
		Key: "FR-2024-17204", Title: "1-Bromopropane; regulation under the Toxic Substances Control Act, proposed rule", Edition: "FR document 2024-17204, 2024-08-08",
		Publisher: "US Environmental Protection Agency", Locator: "abstract, in a copy", Address: "https://federalstatelaw.com/federal-register/2024-17204",
	},
}
