package pattern

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	_ "image/jpeg" // the kinds of pictures that a Cloth takes
	_ "image/png"
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Cloth is goods with a pattern as they are seen on the furniture, whichever way
// they are cut from the roll. The motifs of column i lie at
//
//	x = i Across,   y = (j - i Lower/Columns) Along     for all whole i and j
//
// from one of them. A distance of zero means that the pattern does not change that
// way; one of the two is not.
type Cloth struct {
	Across unit.Length `json:"across,omitzero"` // from column to column, up to 3 m
	Along  unit.Length `json:"along,omitzero"`  // from motif to motif up a column, up to 3 m
	// The next column to the right lies Lower/Columns of Along lower, so that they
	// are level again after Columns, up to 64. Both are zero without a drop.
	Lower   int `json:"lower,omitzero"`
	Columns int `json:"columns,omitzero"`
	// Photo is a PNG or JPEG file of one repeat, of Columns columns where there is
	// a drop, with a motif in each corner: its whole picture is fitted to that. Up to
	// 8 MB; none draws a figure at every motif.
	Photo []byte `json:"photo,omitempty"`
}

// MostPhoto is the size of the largest photo of a cloth, in bytes.
const MostPhoto = 8 << 20

const mostRepeat = 3 * unit.Metre

// Check gives what is wrong with a cloth: *unit.InputError values that name across,
// along, lower, columns or photo.
func (c Cloth) Check() error {
	if err := check.Length("across", c.Across, 0, mostRepeat); err != nil {
		return err
	}
	if err := check.Length("along", c.Along, 0, mostRepeat); err != nil {
		return err
	}
	switch {
	case c.Across == 0 && c.Along == 0:
		return check.Required("across", "a repeat across or along")
	case c.Lower == 0 && c.Columns == 0:
	case c.Across == 0 || c.Along == 0:
		return check.Refuse("columns", fmt.Sprint(c.Columns), unit.ErrRange, "none: a drop needs both repeats")
	default:
		if err := check.Count("columns", c.Columns, 2, 64); err != nil {
			return err
		}
		if err := check.Count("lower", c.Lower, 1, c.Columns-1); err != nil {
			return err
		}
	}
	if len(c.Photo) == 0 {
		return nil
	}
	_, _, err := c.photo()
	return err
}

// photo gives what the photo is and its size in points.
func (c Cloth) photo() (kind string, size image.Config, err error) {
	if len(c.Photo) > MostPhoto {
		return "", size, check.Refuse("photo", fmt.Sprintf("%d bytes", len(c.Photo)), unit.ErrRange, "at most 8 MB")
	}
	size, kind, err = image.DecodeConfig(bytes.NewReader(c.Photo))
	if err != nil || kind != "png" && kind != "jpeg" || size.Width < 1 || size.Height < 1 {
		return "", size, check.Refuse("photo", fmt.Sprintf("%d bytes", len(c.Photo)), unit.ErrSyntax, "a PNG or JPEG picture")
	}
	return kind, size, nil
}

// tile gives the photo as a picture in the drawing, and what it is a picture of.
// Where the pattern does not change in one direction the photo keeps its shape.
func (c Cloth) tile() (data string, across, along float64, err error) {
	kind, size, err := c.photo()
	if err != nil {
		return "", 0, 0, err
	}
	across, along = float64(c.Across)*float64(max(c.Columns, 1)), float64(c.Along)
	if c.Across == 0 {
		across = along * float64(size.Width) / float64(size.Height)
	}
	if c.Along == 0 {
		along = across * float64(size.Height) / float64(size.Width)
	}
	return "data:image/" + kind + ";base64," + base64.StdEncoding.EncodeToString(c.Photo), across, along, nil
}

// columnsIn gives the columns of motifs from one place to another across, counted
// from that of a motif.
func (c Cloth) columnsIn(motif, from, to float64) (first, last int) {
	h := float64(c.Across)
	return int(math.Ceil((from - motif) / h)), int(math.Floor((to - motif) / h))
}

// rowsIn gives the motifs of a column from one height to another.
func (c Cloth) rowsIn(column int, motif, from, to float64) (heights []float64) {
	r := float64(c.Along)
	start := motif
	if c.Columns > 0 {
		start -= float64(float64(column*c.Lower%c.Columns) / float64(c.Columns) * r)
	}
	for k := math.Ceil((from - start) / r); start+float64(k*r) <= to; k++ {
		heights = append(heights, start+float64(k*r))
	}
	return heights
}
