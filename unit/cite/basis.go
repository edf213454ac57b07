package cite

// In founds a figure read in a document of the list; note says where in it, or
// how it was read.
func In(source, note string) Basis { return Basis{Status: Published, Source: source, Note: note} }

// Practice founds a rule of the trade, without a source.
func Practice(note string) Basis { return Basis{Status: CommonPractice, Note: note} }

// Memory founds what is merely remembered.
func Memory(note string) Basis { return Basis{Status: FromMemory, Note: note} }
