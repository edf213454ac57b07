package cite

// materialSources are the documents that figures of package material were read in.
var materialSources = []Source{}
