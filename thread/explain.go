package thread

import "fmt"

// Explain says in words why thread, needle and stitch were chosen and what
// founds each, one line for each; then one line for each flag.
func (p Recommendation) Explain() []string {
	fibre := fmt.Sprintf("fibre %v: %s", p.Thread.Fibre, p.FibreReason)
	if p.FibreBasis.Status != 0 {
		fibre += fmt.Sprintf(" (%v)", p.FibreBasis.Status)
	}
	out := []string{
		fmt.Sprintf("thread %v: %s (%v)", p.Thread, p.Reason, p.Basis.Status),
		fibre,
		fmt.Sprintf("needle %v of %v to %v, point %v: usual for size %v in these goods (%v)", p.Needle, p.Needles.From, p.Needles.To, p.Point, p.Thread.Size, p.Needles.Basis.Status),
		fmt.Sprintf("stitch %v: %v to %v are usual in these goods (%v)", p.StitchLength, p.Density.From, p.Density.To, p.Density.Basis.Status),
	}
	for _, f := range p.Flags.Texts() {
		out = append(out, "caution: "+f)
	}
	return out
}
