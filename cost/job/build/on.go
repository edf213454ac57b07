package build

import "github.com/coverwright/coverwright/internal/enum"

// On is what carries a seat, a back or an arm. The zero value is none.
//
// Its values: Board, Webbing, ElasticWebbing, Zigzag, Coils, Burlap, AsFound.
type On uint8

const (
	Board          On = iota + 1 // a board, which takes nothing
	Webbing                      // woven webbing, with burlap over it
	ElasticWebbing               // elastic webbing, one way
	Zigzag                       // zigzag springs, with burlap over them
	Coils                        // coil springs on webbing, tied, with burlap over them
	Burlap                       // burlap alone, as in arms
	AsFound                      // what is there is kept
)

var onNames = []string{"", "board", "webbing", "elastic webbing", "zigzag springs", "coil springs", "burlap", "as found"}

// String gives the name, and none for the zero value.
func (o On) String() string { return enum.Name(o, "on", onNames) }

// MarshalText writes the name; what is not known is an error.
func (o On) MarshalText() ([]byte, error) { return enum.Text(o, "on", onNames) }

// UnmarshalText reads what MarshalText writes.
func (o *On) UnmarshalText(text []byte) error { return enum.Read(o, text, "on", onNames) }
