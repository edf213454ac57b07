// Package gate bounds how many searches work at the same time. It changes when
// they work and never what they find: searches exchange their results at fixed
// amounts of work, whoever gets there first.
package gate

// Gate lets a number of searches through at once. The zero value lets all.
type Gate struct{ places chan struct{} }

// New gives a gate with n places; n of 0 or less lets all through.
func New(n int) Gate {
	if n <= 0 {
		return Gate{}
	}
	return Gate{make(chan struct{}, n)}
}

// Enter waits for a place.
func (g Gate) Enter() {
	if g.places != nil {
		g.places <- struct{}{}
	}
}

// Leave gives the place back.
func (g Gate) Leave() {
	if g.places != nil {
		<-g.places
	}
}

// Do works inside the gate.
func (g Gate) Do(work func()) {
	g.Enter()
	defer g.Leave()
	work()
}
