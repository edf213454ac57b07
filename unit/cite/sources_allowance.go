package cite

// allowanceSources are the documents that figures of package allowance were read in.
var allowanceSources = []Source{}
