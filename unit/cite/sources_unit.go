package cite

// unitSources are the documents that figures of package unit were read in.
var unitSources = []Source{
	{
		Key:       "NIST-SP811",
		Title:     "NIST Special Publication 811, Guide for the Use of the International System of Units",
		Edition:   "2008",
		Publisher: "National Institute of Standards and Technology",
		Locator:   "Appendix B.8 and its footnotes, read in copies of the table; a factor counts as read where several agree",
		Address:   "https://www.nist.gov/pml/special-publication-811",
	},
	{
		Key:       "UNECE-R20",
		Title:     "UN/CEFACT Recommendation No. 20, Codes for Units of Measure Used in International Trade",
		Edition:   "Annexes II and III",
		Publisher: "United Nations Economic Commission for Europe",
		Locator:   "row of the common code given in each note",
		Address:   "https://github.com/datasets/unece-units-of-measure",
	},
	{
		Key:       "UCUM",
		Title:     "The Unified Code for Units of Measure",
		Edition:   "ucum-essence.xml",
		Publisher: "UCUM Organization",
		Locator:   "definition of the unit: in 2.54 cm, lb 7000 gr, gr 64.798 91 mg, bf 144 in3, gal 231 in3, g 9.806 65 m/s2",
		Address:   "https://github.com/ucum-org/ucum",
	},
}
