package addin

import (
	"bytes"
	"encoding/binary"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// elfFile gives the head of an ELF file with one segment, the head itself.
func elfFile(class byte, machine, kind uint16) []byte {
	b := append([]byte("\x7fELF"), class, 1, 1, 0)
	b = append(b, make([]byte, 8)...)
	le := binary.LittleEndian
	b = le.AppendUint32(le.AppendUint16(le.AppendUint16(b, kind), machine), 1)
	if class == 1 {
		b = append(b, make([]byte, 12)...) // entry, tables
		b = le.AppendUint32(b, 0)
		for _, x := range []uint16{52, 0, 0, 0, 0, 0} {
			b = le.AppendUint16(b, x)
		}
		return b
	}
	for _, x := range []uint64{0, 64, 0} { // entry, segments, sections
		b = le.AppendUint64(b, x)
	}
	b = le.AppendUint32(b, 0)
	for _, x := range []uint16{64, 56, 1, 64, 0, 0} {
		b = le.AppendUint16(b, x)
	}
	b = le.AppendUint32(le.AppendUint32(b, 1), 5) // to load, read and run
	for _, x := range []uint64{0, 0, 0, 120, 120, 1} {
		b = le.AppendUint64(b, x)
	}
	return b
}

// machoFile gives the head of a Mach-O file with one segment.
func machoFile(cpu, kind uint32) []byte {
	var b []byte
	le := binary.LittleEndian
	for _, x := range []uint32{0xfeedfacf, cpu, 0, kind, 1, 72, 0, 0, 0x19, 72} {
		b = le.AppendUint32(b, x)
	}
	b = append(b, make([]byte, 16)...)
	for _, x := range []uint64{0, 104, 0, 104} {
		b = le.AppendUint64(b, x)
	}
	return append(b, make([]byte, 16)...)
}

// peFile gives the head of a PE file with one section.
func peFile(machine, flags uint16) []byte {
	le := binary.LittleEndian
	b := append([]byte("MZ"), make([]byte, 62)...)
	le.PutUint32(b[0x3c:], 64)
	b = append(b, "PE\x00\x00"...)
	b = le.AppendUint16(le.AppendUint16(b, machine), 1)
	b = append(b, make([]byte, 12)...)
	b = le.AppendUint16(le.AppendUint16(b, 112), flags)
	optional := make([]byte, 112)
	le.PutUint16(optional, 0x20b)
	b = append(b, optional...)
	b = append(b, ".text\x00\x00\x00"...)
	for _, x := range []uint32{16, 0, 16, 240, 0, 0, 0, 0} {
		b = le.AppendUint32(b, x)
	}
	return append(b, make([]byte, 16)...)
}

func TestTheHeadOfAFileSaysItsPlatform(t *testing.T) {
	for _, c := range []struct {
		want Platform
		data []byte
	}{
		{Platform{"linux", "amd64"}, elfFile(2, 62, 2)},
		{Platform{"linux", "arm64"}, elfFile(2, 183, 3)},
		{Platform{"darwin", "amd64"}, machoFile(0x01000007, 2)},
		{Platform{"darwin", "arm64"}, machoFile(0x0100000c, 2)},
		{Platform{"windows", "amd64"}, peFile(0x8664, 0x22)},
		{Platform{"windows", "arm64"}, peFile(0xaa64, 0x22)},
	} {
		p, err := platformOf(c.data)
		require.NoError(t, err, c.want)
		assert.Equal(t, c.want, p)
		for n := range c.data {
			_, err := platformOf(c.data[:n])
			require.Error(t, err, "%v: %d of %d bytes", c.want, n, len(c.data))
		}
	}
	for name, data := range map[string][]byte{
		"RISC-V": elfFile(2, 243, 2), "Mach-O library": machoFile(0x0100000c, 6), "POWER": machoFile(0x01000012, 2),
		"PE library": peFile(0x8664, 0x2022), "PE object": peFile(0x8664, 0), "386": peFile(0x14c, 0x22),
	} {
		_, err := platformOf(data)
		assert.Error(t, err, name)
	}
}

// Whatever is in a file, its platform is one that the add-in finds, or an
// error; and what is taken is taken with more behind it.
func FuzzPlatform(f *testing.F) {
	for _, data := range [][]byte{nil, elfFile(2, 62, 2), elfFile(1, 3, 2), machoFile(0x0100000c, 2), peFile(0x8664, 0x22)} {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := platformOf(data)
		if err != nil {
			assert.Equal(t, Platform{}, p)
			return
		}
		assert.True(t, slices.Contains(Platforms(), p))
		longer, err := platformOf(append(bytes.Clone(data), 0))
		require.NoError(t, err)
		assert.Equal(t, p, longer)
	})
}
