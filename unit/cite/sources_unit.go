package cite

// unitSources are the documents that figures of package unit were read in.
var unitSources = []Source{}
