package foam

import "github.com/coverwright/coverwright/unit/cite"

// Draining founds what is said of foam that gets wet: reticulated or closed-cell
// foam is usual there. Common practice; no figure of a standard was read for it.
func Draining() cite.Basis {
	return cite.Practice("reticulated or closed-cell foam where rain or spray reaches it")
}

// wet says that ordinary foam is not for places that get wet.
func (s *Selection) wet() {
	if s.Request.Wet {
		s.because(Reason{Kind: DrainsUsual})
	}
}
