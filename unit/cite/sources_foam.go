package cite

// foamSources are the documents that figures of package foam were read in.
var foamSources = []Source{}
