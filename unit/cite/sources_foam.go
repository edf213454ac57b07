package cite

// foamSources are the documents that figures of package foam were read in.
var foamSources = []Source{
	{
		Key: "JIFSG-IFD", Title: "Joint Industry Foam Standards and Guidelines, acceptable IFD ranges", Edition: "7/94",
		Publisher: "Polyurethane Foam Association", Locator: "appendix: task group on acceptable IFD ranges",
		Address: "http://pfa.org/jifsg/jifsga1.html",
	},
	{
		Key: "JIFSG-10", Title: "Joint Industry Foam Standards and Guidelines, dimensions", Edition: "7/94",
		Publisher: "Polyurethane Foam Association", Locator: "section 10: dimensions",
		Address: "http://pfa.org/jifsg/jifsgs10.html",
	},
	{
		Key: "IFRC-MATTRESS", Title: "Emergency items catalogue: mattress, foam", Edition: "as read 2026",
		Publisher: "International Federation of Red Cross and Red Crescent Societies", Locator: "item specification",
		Address: "https://itemscatalogue.redcross.int/relief--4/household--8/bedding-and-clothes--7/mattress--HFURBEMA.aspx",
	},
	{
		Key: "FR-86-18440", Title: "Standard for the Flammability of Upholstered Furniture, 16 CFR part 1640, direct final rule", Edition: "86 FR 18440, 9 April 2021",
		Publisher: "US Consumer Product Safety Commission", Locator: "dates; sections 1640.1 to 1640.4",
		Address: "https://www.govinfo.gov/content/pkg/FR-2021-04-09/html/2021-06977.htm",
	},
	{
		Key: "CFR-16-1633", Title: "Standard for the Flammability (Open Flame) of Mattress Sets, 16 CFR part 1633", Edition: "2007",
		Publisher: "US Consumer Product Safety Commission", Locator: "section 1633.3",
		Address: "http://edocket.access.gpo.gov/cfr_2007/janqtr/16cfr1633.3.htm",
	},
	{
		Key: "UK-SI-1988-1324", Title: "The Furniture and Furnishings (Fire) (Safety) Regulations 1988", Edition: "S.I. 1988/1324, as made",
		Publisher: "UK legislation", Locator: "regulation 1: commencement; Schedule 1",
		Address: "http://www.legislation.gov.uk/uksi/1988/1324/body/made/data.xht?view=snippet&wrap=true",
	},
	{
		Key: "UK-SI-2025-531", Title: "The Furniture and Furnishings (Fire) (Safety) (Amendment) Regulations 2025", Edition: "S.I. 2025/531",
		Publisher: "UK legislation", Locator: "commencement",
		Address: "https://www.legislation.gov.uk/uksi/2025/531/made/data.xht?view=snippet&wrap=true",
	},
	{
		Key: "EN-1021-2", Title: "Furniture: assessment of the ignitability of upholstered furniture, match flame equivalent", Edition: "EN 1021-2:2014",
		Publisher: "CEN", Locator: "abstract",
		Address: "https://standards.iteh.ai/catalog/standards/sist/9154c97d-6a02-4d44-a4ed-2058f3937576/sist-en-1021-2-2014",
	},
}
