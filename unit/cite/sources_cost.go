package cite

// costSources are the documents that figures of package cost were read in.
var costSources = []Source{}
