package cite

// foamSources are the documents that figures of package foam were read in.
var foamSources = []Source{
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
	{
		Key: "FR-89-39254", Title: "Methylene Chloride; Regulation Under the Toxic Substances Control Act, final rule", Edition: "89 FR 39254, 8 May 2024",
		Publisher: "US Environmental Protection Agency", Locator: "dates; executive summary",
		Address: "https://govinfo.gov/content/pkg/FR-2024-05-08/html/2024-09606.htm",
	},
	{
		Key: "EN-ISO-2439", Title: "Flexible cellular polymeric materials: determination of hardness (indentation technique)", Edition: "EN ISO 2439:2008",
		Publisher: "CEN", Locator: "abstract",
		Address: "https://standards.iteh.ai/catalog/standards/cen/5c4a81be-e74b-448b-b21a-0b3778cdfc18/en-iso-2439-2008",
	},
	{
		Key: "EN-ISO-5999", Title: "Flexible cellular polymeric materials: polyurethane foam for load-bearing applications excluding carpet underlay", Edition: "EN ISO 5999:2013",
		Publisher: "CEN", Locator: "Table A.1, recommended applications, as printed by a testing institute for furniture",
		Address: "https://catas.com/en-GB/news/polyurethane-foams-the-en-iso-5999-standard",
	},
	{
		Key: "ISO-3386-1", Title: "Polymeric materials, cellular flexible: stress-strain characteristics in compression, low-density materials", Edition: "UNE-EN ISO 3386-1:2026, identical with ISO 3386-1:2025",
		Publisher: "ISO", Locator: "scope",
		Address: "https://www.intertekinform.com/en-us/standards/une-en-iso-3386-1-2026-17167_saig_une_une_4017977/",
	},
	{
		Key: "ASTM-D5672", Title: "Testing flexible cellular materials, indentation force deflection at 25 mm deflection", Edition: "D5672-03",
		Publisher: "ASTM", Locator: "scope",
		Address: "http://m.mydoc123.com/p-520403.html",
	},
	{
		Key: "GB-T-10802", Title: "General flexible polyether polyurethane cellular plastics", Edition: "GB/T 10802-2006",
		Publisher: "Standardization Administration of China", Locator: "3.1 classification",
		Address: "http://bzfyw.com/site/bz/standard/GBT10802-2006.html",
	},
	{
		Key: "MIL-PRF-20092", Title: "Rubber or plastic sheets and assembled and molded shapes, synthetic, foam or sponge, open cell", Edition: "MIL-PRF-20092M, 27 September 2004",
		Publisher: "US Department of Defense", Locator: "Table IV",
		Address: "https://rubberfabricatedmaterials.emilspec.com/MIL-PRF-20092/page12.html",
	},
	{
		Key: "CID-A-A-51305", Title: "Commercial item description: foam pad with mattress cover for an ambulance stretcher", Edition: "A-A-51305, 19 January 1990",
		Publisher: "US General Services Administration", Locator: "salient characteristics",
		Address: "https://hospitalfurnitureeqptutensilssup.emilspec.com/A-A-51305",
	},
	{
		Key: "NZ-TOUCHSTONE", Title: "Furniture fillings: standards for fitness for purpose", Edition: "May 2009",
		Publisher: "Standards New Zealand", Locator: "article",
		Address: "https://www.standards.govt.nz/touchstone/business/2009/may/furniture-fillings-standards-for-fitness-for-purpose/",
	},
	{
		Key: "SEAT-LOAD", Title: "Human-seat interface analysis of upper and lower body weight distribution", Edition: "abstract; the page that was read names neither journal nor authors",
		Publisher: "research article, fifteen volunteers", Locator: "abstract",
		Address: "https://discovery.researcher.life/article/human-seat-interface-analysis-of-upper-and-lower-body-weight-distribution/c763d67091c532fc917336c1744a4c89",
	},
	{
		Key: "FAA-AM-62-1", Title: "An analysis of sitting areas and pressures of man (Swearingen, Wheelwright, Garner)", Edition: "DOT/FAA/AM-62/1, January 1962",
		Publisher: "Civil Aerospace Medical Institute, Federal Aviation Administration", Locator: "abstract",
		Address: "https://www.faa.gov/data_research/research/med_humanfacs/oamtechreports/1960s/1962/196201",
	},
	{
		Key: "BIORES-15-7992", Title: "Cushioning capability analysis of seat foundations considering the sitter's anthropometric dimensions", Edition: "15(4), 2020, 7992-8007",
		Publisher: "BioResources", Locator: "abstract",
		Address: "https://bioresources.cnr.ncsu.edu/resources/cushioning-capability-analysis-of-seat-foundations-considering-the-sitters-anthropometric-dimensions/",
	},
	{
		Key: "BIORES-18-7731", Title: "Finite element analysis of compressive stress-strain relations in elastic materials for seat foundation", Edition: "18(4), 2023, 7731-7744",
		Publisher: "BioResources", Locator: "abstract",
		Address: "https://bioresources.cnr.ncsu.edu/?p=44195",
	},
}
