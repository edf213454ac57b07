package pattern

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Sheet is a sheet of paper, upright, and how patterns lie on it.
type Sheet struct {
	Name    string      `json:"name,omitempty"`
	Width   unit.Length `json:"width"`            // up to 100 m
	Height  unit.Length `json:"height"`           // up to 100 m
	Margin  unit.Length `json:"margin,omitzero"`  // left white on every side
	Foot    unit.Length `json:"foot,omitzero"`    // under the window, for a line of text
	Overlap unit.Length `json:"overlap,omitzero"` // what two neighbours both show
	// Every says that no sheet is left out that holds straight lines or nothing.
	Every bool `json:"every,omitzero"`
	// Roll says that it is cut from a roll: Height is the most, and each is as long as
	// it needs to be.
	Roll bool `json:"roll,omitzero"`
}

// A4 gives a sheet of 210 by 297 mm (ISO 216), with edges of 10 mm that printers
// leave white, a foot of 7 mm and an overlap of 10 mm.
func A4() Sheet { return plain("A4", 210*unit.Millimetre, 297*unit.Millimetre) }

// Letter gives a sheet of 8 1/2 by 11 in (ANSI Y14.1 size A), with margin, foot
// and overlap of A4.
func Letter() Sheet { return plain("Letter", 17*unit.Inch/2, 11*unit.Inch) }

func plain(name string, width, height unit.Length) Sheet {
	return Sheet{Name: name, Width: width, Height: height, Margin: 10 * unit.Millimetre, Foot: 7 * unit.Millimetre, Overlap: 10 * unit.Millimetre}
}

// RollOf gives paper from a roll of a width, for a plotter: sheets of up to 5 m, which
// is as long as a page of a PDF file may be, with margin, foot and overlap of A4. No
// sheet is left out.
func RollOf(width unit.Length) Sheet {
	s := plain("roll", width, 5*unit.Metre)
	s.Every, s.Roll = true, true
	return s
}

// leastCell is the least that a sheet must show of its own, each way.
const leastCell = 20 * unit.Millimetre

// Check refuses a sheet whose window has less than 20 mm each way that its
// neighbours do not show too.
func (s Sheet) Check() error {
	fields := []string{"margin", "foot", "overlap"}
	for i, l := range []unit.Length{s.Margin, s.Foot, s.Overlap} {
		if err := check.NotNegative(fields[i], l); err != nil {
			return err
		}
	}
	around := 2*s.Margin + s.Overlap + leastCell
	if err := check.Length("width", s.Width, around, 100*unit.Metre); err != nil {
		return err
	}
	return check.Length("height", s.Height, around+s.Foot, 100*unit.Metre)
}

// TestSquare gives the side of a square to print and measure before anything is
// cut: the longest of 100, 50 and 10 mm that the window of the sheet has room
// for, however it lies.
func (s Sheet) TestSquare() unit.Length {
	room := min(s.Width, s.Height) - 2*s.Margin - s.Foot
	for _, side := range []unit.Length{100 * unit.Millimetre, 50 * unit.Millimetre} {
		if side <= room {
			return side
		}
	}
	return 10 * unit.Millimetre
}

// window gives the size of what a sheet shows.
func (s Sheet) window() shape.Point {
	return shape.Point{X: s.Width - 2*s.Margin, Y: s.Height - 2*s.Margin - s.Foot}
}

// turned gives the sheet lying across.
func (s Sheet) turned() Sheet {
	s.Width, s.Height = s.Height, s.Width
	return s
}
