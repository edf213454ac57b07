package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Block is a rectangular block of foam.
type Block struct {
	Length    unit.Length `json:"length"`
	Width     unit.Length `json:"width"`
	Thickness unit.Length `json:"thickness"`
}

// Check gives nil when all three sides are above zero and at most 1 km.
func (b Block) Check() error {
	if err := check.Positive("length", b.Length); err != nil {
		return err
	}
	if err := check.Positive("width", b.Width); err != nil {
		return err
	}
	return check.Positive("thickness", b.Thickness)
}

// Face gives length × width.
func (b Block) Face() (unit.Area, error) {
	if err := b.Check(); err != nil {
		return 0, err
	}
	return b.Length.By(b.Width)
}

// Volume gives V = length × width × thickness. Volume.BoardFeet and
// [unit.BoardFoot] give it as foam is sold.
func (b Block) Volume() (unit.Volume, error) {
	a, err := b.Face()
	if err != nil {
		return 0, err
	}
	return a.Deep(b.Thickness)
}

// Envelope gives b itself: the smallest block the shape is cut from.
func (b Block) Envelope() (Block, error) { return b, b.Check() }

// Shape is a solid that can be cut from foam.
type Shape interface {
	// Volume gives the volume of the finished shape.
	Volume() (unit.Volume, error)
	// Envelope gives the smallest block the shape is cut from.
	Envelope() (Block, error)
}

// MassOf gives m = density × volume of a shape. The density must be 1 to
// 250 kg/m³.
func MassOf(s Shape, d unit.Density) (unit.Mass, error) {
	if s == nil {
		return 0, check.Required("shape", "a shape such as a Block")
	}
	if err := checkDensity("density", d); err != nil {
		return 0, err
	}
	v, err := s.Volume()
	if err != nil {
		return 0, unit.InField("shape", err)
	}
	return d.Mass(v)
}
