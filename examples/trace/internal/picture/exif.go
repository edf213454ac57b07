package picture

import (
	"bytes"
	"encoding/binary"
)

// Turn says how a stored picture is turned or mirrored to be seen upright: the
// values of the orientation tag of a camera, 1 to 8. 1 is as stored, 6 is turned
// clockwise to be seen.
type Turn int

// upright is a picture that needs no turn.
const upright Turn = 1

// turnOf reads the orientation that a camera wrote into a JPEG file: the segment
// APP1 that begins with "Exif", in it a TIFF header, in its first directory tag
// 0x0112. A file without it, or with a faulty one, is taken as stored.
func turnOf(file []byte) Turn {
	if len(file) < 4 || file[0] != 0xff || file[1] != 0xd8 {
		return upright
	}
	for at := 2; at+4 <= len(file) && file[at] == 0xff; {
		kind := file[at+1]
		if kind == 0xff { // fill byte
			at++
			continue
		}
		if kind == 0xda || kind == 0xd9 { // the picture begins
			break
		}
		long := int(binary.BigEndian.Uint16(file[at+2:]))
		if long < 2 || at+2+long > len(file) {
			break
		}
		body := file[at+4 : at+2+long]
		if kind == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return turnOfTIFF(body[6:])
		}
		at += 2 + long
	}
	return upright
}

func turnOfTIFF(b []byte) Turn {
	if len(b) < 8 {
		return upright
	}
	var order binary.ByteOrder
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return upright
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return upright
	}
	entries := b[at+2:]
	for range order.Uint16(b[at:]) {
		if len(entries) < 12 {
			return upright
		}
		if order.Uint16(entries) == 0x0112 {
			const short = 3
			v := order.Uint16(entries[8:])
			if order.Uint16(entries[2:]) != short || order.Uint32(entries[4:]) != 1 || v < 1 || v > 8 {
				return upright
			}
			return Turn(v)
		}
		entries = entries[12:]
	}
	return upright
}

// Swaps tells whether width and height change places.
func (t Turn) Swaps() bool { return t >= 5 }

// Stored gives the place in the stored picture, w wide and h high, of a place in
// the upright one.
func (t Turn) Stored(x, y, w, h int) (int, int) {
	switch t {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	case 8:
		return w - 1 - y, x
	}
	return x, y
}
