package cite

// threadSources are the documents that figures of package thread were read in.
var threadSources = []Source{}
