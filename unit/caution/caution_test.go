package caution_test

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/caution"
	"github.com/coverwright/coverwright/unit/cite"
)

const (
	us = caution.UnitedStates
	uk = caution.UnitedKingdom
	eu = caution.EuropeanUnion
)

func ids(l caution.List) []string {
	var out []string
	for _, c := range l.Cautions {
		out = append(out, c.ID)
	}
	return out
}

// Each row of the dossier has its trigger: with it the cautions are there, and
// without it they are not.
func TestTriggers(t *testing.T) {
	home := caution.Piece{Name: "chair"}
	with := func(change func(*caution.Piece)) caution.Piece {
		p := home
		change(&p)
		return p
	}
	is := func(u caution.Use) caution.Piece { return with(func(p *caution.Piece) { p.For = []caution.Use{u} }) }
	in := func(l caution.Place) caution.Piece { return with(func(p *caution.Piece) { p.Lives = l }) }
	for _, c := range []struct {
		name      string
		where     caution.Jurisdiction
		piece     caution.Piece
		has, lack string
	}{
		{"a cover only has fire rules too", us, home, "F0 F1 F1L F2 F3 H7", "F4 F5 F7 F12 H8 H4 G1 T1 W1 P0 V0 C2"},
		{"a cover only in the United Kingdom", uk, home, "F5", "F1 F6 F7 R1"},
		{"a cover only in the European Union", eu, home, "F7", "F1 F5 F11"},
		{"the same owner", us, with(func(p *caution.Piece) { p.Owner = caution.SameOwner }), "F2 F3", "F1 F1L"},
		{"a new owner", us, with(func(p *caution.Piece) { p.Owner, p.NewFoam = caution.NewOwner, true }), "F1 F1L", "F2 F4"},
		{"new foam", us, with(func(p *caution.Piece) { p.NewFoam = true }), "F4 F12 G1 G2 H4 H8 H11", "F13 H10 H5 H1"},
		{"a day bed", us, with(func(p *caution.Piece) { p.NewFoam, p.Bed = true, true }), "F13", "B2"},
		{"children in the United States", us, is(caution.Children), "C1 C2", "F6"},
		{"children in the United Kingdom", uk, is(caution.Children), "C2 F5 F6", "C1"},
		{"a public seat in the United States", us, is(caution.Contract), "F1 F8 F9", "F10 F11"},
		{"a public seat in the United Kingdom", uk, is(caution.Contract), "F10", "F5 F8 F11"},
		{"a public seat in the European Union", eu, is(caution.Contract), "F7 F11", "F8 F10"},
		{"a seat of a bus", us, with(func(p *caution.Piece) { p.Lives, p.For = caution.InVehicle, []caution.Use{caution.Contract} }), "V1", "F8 F9"},
		{"a car seat", us, in(caution.InVehicle), "V0 V1 V2 V3", "F1 F2 F3 V4 O1"},
		{"a car seat elsewhere", eu, in(caution.InVehicle), "V0 V3", "V1 V2 F7"},
		{"a saddle", us, with(func(p *caution.Piece) { p.Lives, p.For = caution.InVehicle, []caution.Use{caution.Motorcycle} }), "V4", "V0 V1 V3 F1"},
		{"a boat", uk, in(caution.OnBoat), "B4 B5 B6", "B1 F5"},
		{"a ship", us, with(func(p *caution.Piece) { p.Lives, p.For = caution.OnBoat, []caution.Use{caution.Ship} }), "B1 B3 B6", "B2 B4 B5 F1"},
		{"a berth of a ship", us, with(func(p *caution.Piece) { p.Bed, p.For = true, []caution.Use{caution.Ship} }), "B1 B2 B3", "F13"},
		{"a caravan", uk, is(caution.Caravan), "F5 R1", "V0 V3"},
		{"a motorhome", uk, is(caution.Motorhome), "F5 R1 V0 V3", "V1"},
		{"an aircraft", us, is(caution.Aircraft), "A1", "F1 V0"},
		{"a wheelchair", us, is(caution.Medical), "M1", "A1"},
		{"out of doors", us, in(caution.OutOfDoors), "O1 F3", "F1 F2"},
		{"may be old", uk, with(func(p *caution.Piece) { p.MayBeOld = true }), "H1 H2 H3 H4 H5", "F12 H8"},
		{"springs", uk, with(func(p *caution.Piece) { p.Springs = true }), "H5", "H1"},
		{"a board", us, with(func(p *caution.Piece) { p.Board = true }), "H10", "H6"},
		{"a frame", eu, with(func(p *caution.Piece) { p.Frame = true }), "H6 W1", "H5 H9"},
		{"a sofa", eu, with(func(p *caution.Piece) { p.Large = true }), "H9", "H6"},
		{"seams", eu, with(func(p *caution.Piece) { p.Sewn = true }), "T1 T2 T3", "H6"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l, err := caution.Of([]caution.Jurisdiction{c.where}, c.piece)
			require.NoError(t, err)
			got := ids(l)
			for _, id := range strings.Fields(c.has) {
				assert.Contains(t, got, id)
			}
			for _, id := range strings.Fields(c.lack) {
				assert.NotContains(t, got, id)
			}
		})
	}
}

// Where no place is said a line asks for it, and no law of some place stands there.
func TestPlaceIsAskedFor(t *testing.T) {
	l, err := caution.Of(nil, caution.Piece{Name: "chair"})
	require.NoError(t, err)
	got := ids(l)
	assert.Contains(t, got, "P0")
	for _, id := range []string{"F0", "F1", "F5", "F7"} {
		assert.NotContains(t, got, id)
	}
	l, err = caution.Of(nil)
	require.NoError(t, err)
	assert.Empty(t, l.Cautions)
	assert.NotNil(t, l.Cautions)
}

// A caution that is not for all pieces names those it is for.
func TestPiecesAreNamed(t *testing.T) {
	l, err := caution.Of([]caution.Jurisdiction{us}, caution.Piece{Name: "chair"}, caution.Piece{Name: "car seat", Lives: caution.InVehicle})
	require.NoError(t, err)
	for _, c := range l.Cautions {
		switch c.ID {
		case "F1":
			assert.Equal(t, []string{"chair"}, c.Pieces)
			assert.True(t, strings.HasPrefix(c.String(), "F1 fire, united states (chair): An upholstered indoor seat "))
			assert.True(t, strings.HasSuffix(c.String(), " (16 CFR part 1640, 86 FR 18440, adopting California TB 117-2013, from 2021-06-25; standard, read 2026-11-29)"))
		case "V1":
			assert.Equal(t, []string{"car seat"}, c.Pieces)
		case "F0", "H7":
			assert.Empty(t, c.Pieces)
		}
	}
}

// The standing of each caution is that of the text it was read in.
func TestStanding(t *testing.T) {
	const (
		std  = cite.Standard
		pub  = cite.Published
		der  = cite.Derived
		cp   = cite.CommonPractice
		mem  = cite.FromMemory
		date = "2026-11-29"
	)
	want := map[string][]cite.Status{
		"F0": {cp}, "F1": {std}, "F1L": {std}, "F2": {cp}, "F3": {std}, "F4": {cp}, "F5": {std, cp}, "F6": {std, cp}, "F7": {std, mem}, "F8": {cp, pub},
		"F9": {mem}, "F10": {cp}, "F11": {std, mem}, "F12": {cp}, "F13": {std}, "C1": {std}, "C2": {std, mem}, "M1": {mem},
		"V0": {cp}, "V1": {std, pub}, "V2": {pub}, "V3": {pub, cp}, "V4": {der}, "B1": {pub}, "B2": {std}, "B3": {mem}, "B4": {pub}, "B5": {cp}, "B6": {mem},
		"A1": {cp, mem}, "R1": {cp, der}, "O1": {std}, "G1": {std}, "G2": {pub, cp}, "H1": {std}, "H2": {pub, cp}, "H3": {mem}, "H4": {cp}, "H5": {cp},
		"H6": {cp, std}, "H7": {cp}, "H8": {cp}, "H9": {mem, cp}, "H10": {pub}, "H11": {cp}, "T1": {cp}, "T2": {cp}, "T3": {cp}, "W1": {cp},
	}
	all := caution.All()
	assert.Len(t, all, len(want))
	for _, c := range all {
		var got []cite.Status
		read := false
		for _, b := range c.Basis {
			got = append(got, b.Status)
			read = read || b.Source != ""
			if b.Status == std || b.Status == pub {
				_, ok := cite.Lookup(b.Source)
				assert.True(t, ok, "%s: %q", c.ID, b.Source)
			} else if b.Status != der {
				assert.Empty(t, b.Source, c.ID)
			}
		}
		assert.Equal(t, want[c.ID], got, c.ID)
		assert.Equal(t, read, c.Read == date, c.ID)
	}
}

// Every caution is one sentence, with someone to read it, and says nothing of its
// author.
func TestEveryCautionIsOneSentence(t *testing.T) {
	seen := map[string]bool{}
	last := caution.Forbids
	for _, c := range caution.All() {
		assert.True(t, strings.HasSuffix(c.Text, "."), c.ID)
		assert.NotRegexp(t, `[.!?] [A-Z]`, c.Text, c.ID)
		assert.NotRegexp(t, `(?i)not (checked|read)|\bwe\b|\bI\b`, c.Text, c.ID)
		assert.NotEmpty(t, c.About, c.ID)
		assert.NotEmpty(t, c.Standing(), c.ID)
		assert.True(t, c.For(caution.Bench) || c.For(caution.Office), c.ID)
		assert.GreaterOrEqual(t, c.Rank, last, c.ID)
		assert.False(t, seen[c.ID] || seen[c.Text], c.ID)
		last, seen[c.ID], seen[c.Text] = c.Rank, true, true
	}
}

// What needs a paper asks for it by place.
func TestPapers(t *testing.T) {
	asked := func(j caution.Jurisdiction, p caution.Piece) map[caution.Part]string {
		l, err := caution.Of([]caution.Jurisdiction{j}, p)
		require.NoError(t, err)
		out := map[caution.Part]string{}
		for _, x := range l.Papers {
			out[x.Of] += x.Because + " " + x.Ask + "; "
		}
		return out
	}
	bench := caution.Piece{Name: "bench", NewFoam: true, Frame: true, Owner: caution.NewOwner}
	home := asked(us, bench)
	assert.Contains(t, home[caution.Cover], "F1 report of TB 117-2013 section 1")
	assert.Contains(t, home[caution.Filling], "F1 report of TB 117-2013 section 3")
	assert.Contains(t, home[caution.Lining], "section 4")
	assert.Contains(t, home[caution.Barrier], "section 2")
	assert.Contains(t, home[caution.Glue], "H8 data sheet of the glue, and of a finish")
	bench.NewFoam = false
	assert.Empty(t, asked(us, bench)[caution.Filling], "no filling, no report of it")
	assert.Contains(t, asked(uk, bench)[caution.Barrier], "F5")
	bench.For = []caution.Use{caution.Contract}
	assert.Contains(t, asked(eu, bench)[caution.Cover], "F7 report of EN 1021-1")
	assert.Contains(t, asked(us, bench)[caution.FrameOf], "F8")
	bench.For = []caution.Use{caution.Aircraft}
	assert.Contains(t, asked(us, bench)[caution.Cover], "A1 burn certificates")
	l, err := caution.Of([]caution.Jurisdiction{uk}, caution.Piece{Name: "chair"})
	require.NoError(t, err)
	assert.Contains(t, l.Papers, caution.Paper{Of: caution.Cover, Jurisdiction: uk, Ask: "cigarette and match reports", Because: "F5"})
	assert.Equal(t, "cover, united kingdom: cigarette and match reports (for F5)", caution.Paper{Of: caution.Cover, Jurisdiction: uk, Ask: "cigarette and match reports", Because: "F5"}.String())
}

func anyPiece(t *rapid.T) caution.Piece {
	b := rapid.Bool()
	return caution.Piece{
		Name: rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "name"), For: rapid.SliceOfN(rapid.SampledFrom(caution.Uses()), 0, 8).Draw(t, "for"),
		Lives: rapid.SampledFrom([]caution.Place{caution.UnderRoof, caution.OutOfDoors, caution.OnBoat, caution.InVehicle}).Draw(t, "lives"),
		Owner: caution.Owner(rapid.IntRange(0, 2).Draw(t, "owner")), MayBeOld: b.Draw(t, "old"), NewFoam: b.Draw(t, "foam"), Bed: b.Draw(t, "bed"),
		Sewn: b.Draw(t, "sewn"), Frame: b.Draw(t, "frame"), Large: b.Draw(t, "large"), Springs: b.Draw(t, "springs"), Board: b.Draw(t, "board"),
	}
}

// Of any work: each caution once, in order, at most five for the customer and those
// the first in importance, all with someone in the shop to read it; every paper has
// its caution; and more pieces never take a caution away.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOfN(rapid.SampledFrom([]caution.Jurisdiction{us, uk, eu, caution.Everywhere}), 0, 3).Draw(t, "places")
		pieces := rapid.SliceOfN(rapid.Custom(anyPiece), 1, 4).Draw(t, "pieces")
		l, err := caution.Of(places, pieces...)
		require.NoError(t, err)
		seen := map[string]bool{}
		customers, last := 0, caution.Rank(0)
		mayHave := 0
		for _, c := range l.Cautions {
			require.False(t, seen[c.ID], c.ID)
			require.GreaterOrEqual(t, c.Rank, last)
			require.True(t, c.For(caution.Bench) || c.For(caution.Office))
			if c.For(caution.Customer) {
				customers++
			}
			if c.ID != "P0" {
				known, err := caution.ByID(c.ID)
				require.NoError(t, err)
				if known[0].For(caution.Customer) {
					mayHave++
				}
			}
			require.True(t, c.Jurisdiction == caution.Everywhere || slices.Contains(places, c.Jurisdiction))
			seen[c.ID], last = true, c.Rank
		}
		require.Equal(t, min(mayHave, caution.MostForCustomer), customers)
		papers := map[caution.Paper]bool{}
		for _, p := range l.Papers {
			require.True(t, seen[p.Because], p.Because)
			require.False(t, papers[p], p)
			papers[p] = true
		}
		fewer, err := caution.Of(places, pieces[:len(pieces)-1]...)
		require.NoError(t, err)
		for _, c := range fewer.Cautions {
			require.True(t, seen[c.ID], c.ID)
		}
	})
}

// What kills comes before what the law asks on the customer's few lines.
func TestCustomersFewSentences(t *testing.T) {
	l, err := caution.Of([]caution.Jurisdiction{us},
		caution.Piece{Name: "seat", Lives: caution.InVehicle}, caution.Piece{Name: "cot", For: []caution.Use{caution.Children, caution.Medical}, NewFoam: true},
		caution.Piece{Name: "berth", Lives: caution.OnBoat}, caution.Piece{Name: "cabin", For: []caution.Use{caution.Aircraft}})
	require.NoError(t, err)
	var got []string
	for _, c := range l.Cautions {
		if c.For(caution.Customer) {
			got = append(got, c.ID)
		}
	}
	assert.Equal(t, []string{"A1", "V3", "C2", "M1", "B6"}, got)
}

// What is not known is refused where it stands.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		places []caution.Jurisdiction
		piece  caution.Piece
		field  string
		err    error
	}{
		{[]caution.Jurisdiction{us, 77}, caution.Piece{}, "jurisdictions[1]", unit.ErrUnknown},
		{[]caution.Jurisdiction{0}, caution.Piece{}, "jurisdictions[0]", unit.ErrRequired},
		{nil, caution.Piece{For: []caution.Use{caution.Ship, 99}}, "pieces[0].for[1]", unit.ErrUnknown},
		{nil, caution.Piece{For: []caution.Use{0}}, "pieces[0].for[0]", unit.ErrRequired},
		{nil, caution.Piece{Owner: 9}, "pieces[0].owner", unit.ErrUnknown},
		{nil, caution.Piece{Lives: 9}, "pieces[0].lives", unit.ErrUnknown},
	} {
		_, err := caution.Of(c.places, c.piece)
		require.ErrorIs(t, err, c.err, c.field)
		var in *unit.InputError
		require.ErrorAs(t, err, &in)
		assert.Equal(t, c.field, string(in.Field))
	}
	_, err := caution.ByID("F1", "Z9")
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// Tables are handed out as copies, and a list goes through JSON unchanged.
func TestCopiesAndJSON(t *testing.T) {
	caution.All()[0].Basis[0] = cite.Basis{}
	assert.NotZero(t, caution.All()[0].Basis[0])
	l, err := caution.Of(nil, caution.Piece{Name: "x", NewFoam: true})
	require.NoError(t, err)
	l.Cautions[0].Audience[0], l.Cautions[1].Audience[0], l.Cautions[1].Basis[0] = 0, 0, cite.Basis{}
	again, err := caution.Of(nil, caution.Piece{Name: "x", NewFoam: true})
	require.NoError(t, err)
	assert.NotZero(t, again.Cautions[0].Audience[0])
	assert.NotZero(t, again.Cautions[1].Audience[0])
	assert.NotZero(t, again.Cautions[1].Basis[0])
	text, err := json.Marshal(again)
	require.NoError(t, err)
	var back caution.List
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, again, back)
}

type named interface {
	comparable
	String() string
	MarshalText() ([]byte, error)
}

func roundTrip[E named, P interface {
	*E
	UnmarshalText(text []byte) error
}](t *testing.T, beyond E, all ...E) {
	t.Helper()
	for _, v := range all {
		text, err := v.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, v.String(), string(text))
		var back E
		require.NoError(t, P(&back).UnmarshalText(text))
		assert.Equal(t, v, back)
	}
	_, err := beyond.MarshalText()
	require.ErrorIs(t, err, unit.ErrUnknown)
	assert.Contains(t, beyond.String(), "(")
	var v E
	require.ErrorIs(t, P(&v).UnmarshalText([]byte("Sofa")), unit.ErrUnknown)
}

// Every word of the package is written and read back.
func TestNames(t *testing.T) {
	roundTrip(t, 99, 0, caution.Everywhere, us, uk, eu)
	roundTrip(t, 99, 0, caution.Forbids, caution.Papers, caution.Protects, caution.ThisJob)
	roundTrip(t, 99, 0, caution.Customer, caution.Bench, caution.Office)
	roundTrip(t, 99, caution.Uses()...)
	roundTrip(t, 99, 0, caution.SameOwner, caution.NewOwner)
	roundTrip(t, 99, caution.UnderRoof, caution.OutOfDoors, caution.OnBoat, caution.InVehicle)
	roundTrip(t, 99, 0, caution.Cover, caution.Filling, caution.Lining, caution.Barrier, caution.Glue, caution.FrameOf, caution.Record)
}

// Every type goes through JSON and back.
func TestJSON(t *testing.T) {
	piece := caution.Piece{Name: "a", For: []caution.Use{caution.Ship}, Lives: caution.OnBoat, Owner: caution.NewOwner, MayBeOld: true, NewFoam: true, Bed: true, Sewn: true, Frame: true, Large: true, Springs: true, Board: true}
	l, err := caution.Of(nil, piece, caution.Piece{Name: "b"})
	require.NoError(t, err)
	faults, err := roundtrip.Faults(os.DirFS("."), []any{piece, l, l.Cautions[0], l.Papers[0]})
	require.NoError(t, err)
	assert.Empty(t, faults)
}
