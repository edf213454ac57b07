package main

// changes lists the changes of the figures of a package, in the order of its
// files. One that makes no difference anywhere is none, and two that make the
// same are one.
func (f *finder) changes() []change {
	other := map[*figure]map[string]string{}
	for _, p := range f.places {
		for _, fig := range p.figures {
			if other[fig] == nil {
				other[fig] = map[string]string{}
			}
			for _, how := range []string{byFive, byDigit} {
				other[fig][how] += f.src.other(p, fig, how) + ";"
			}
		}
	}
	var out []change
	for _, fig := range f.figures {
		if fig.limit {
			continue
		}
		texts := other[fig]
		if fig.rebuild {
			texts = map[string]string{byFive: rebuilt(fig, byFive), byDigit: rebuilt(fig, byDigit)}
		}
		for _, how := range []string{byFive, byDigit} {
			if text := texts[how]; text != "" && text != ";" && (how == byFive || text != texts[byFive]) {
				out = append(out, change{src: f.src, figure: fig, what: how, built: fig.rebuild})
			}
		}
	}
	return out
}
