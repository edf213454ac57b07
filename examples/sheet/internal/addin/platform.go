package addin

import (
	"bytes"
	"debug/elf"
	"debug/macho"
	"debug/pe"
	"errors"
	"fmt"
	"strings"
)

// Platform is a system and processor.
type Platform struct{ OS, Arch string }

// String gives the platform, such as linux/amd64.
func (p Platform) String() string { return p.OS + "/" + p.Arch }

// Platforms lists every platform that the add-in finds its program for.
func Platforms() []Platform {
	var out []Platform
	for _, system := range []string{"darwin", "linux", "windows"} {
		for _, arch := range []string{"amd64", "arm64"} {
			out = append(out, Platform{system, arch})
		}
	}
	return out
}

// PlatformNames lists them for a sentence.
func PlatformNames() string {
	var names []string
	for _, p := range Platforms() {
		names = append(names, p.String())
	}
	return strings.Join(names, ", ")
}

// ParsePlatform reads a name such as linux/amd64.
func ParsePlatform(name string) (Platform, error) {
	for _, p := range Platforms() {
		if p.String() == name {
			return p, nil
		}
	}
	return Platform{}, fmt.Errorf("platform %q: one of %s is wanted", name, PlatformNames())
}

// platformOf reads the head of a program: the format says the system, a field
// of it the processor. A program that is not whole is refused.
func platformOf(data []byte) (Platform, error) {
	var (
		p     Platform
		parts []part
		err   error
	)
	switch {
	case bytes.HasPrefix(data, []byte(elf.ELFMAG)):
		p, parts, err = ofELF(data)
	case bytes.HasPrefix(data, []byte("MZ")):
		p, parts, err = ofPE(data)
	case bytes.HasPrefix(data, []byte("\xcf\xfa\xed\xfe")):
		p, parts, err = ofMachO(data)
	case bytes.HasPrefix(data, []byte("\xca\xfe\xba\xbe")):
		return Platform{}, errors.New("holds programs for several processors: give one for each")
	default:
		return Platform{}, errors.New("no program: it begins neither as ELF, nor as PE, nor as 64-bit Mach-O")
	}
	if err != nil {
		return Platform{}, fmt.Errorf("no program that runs, or one that is cut off: %w", err)
	}
	if p.Arch == "" {
		return Platform{}, fmt.Errorf("for a processor that the add-in does not know: one of %s is wanted", PlatformNames())
	}
	for _, part := range parts {
		if size := uint64(len(data)); part.from > size || part.size > size-part.from {
			return Platform{}, errors.New("cut off: parts of the program that its head names are not there")
		}
	}
	return p, nil
}

// part is a stretch of a file that its head names.
type part struct{ from, size uint64 }

func ofELF(data []byte) (p Platform, parts []part, err error) {
	f, err := elf.NewFile(bytes.NewReader(data))
	if err != nil {
		return p, nil, err
	}
	if f.Type != elf.ET_EXEC && f.Type != elf.ET_DYN {
		return p, nil, fmt.Errorf("an ELF file of type %v", f.Type)
	}
	if f.OSABI != elf.ELFOSABI_NONE && f.OSABI != elf.ELFOSABI_LINUX {
		return p, nil, fmt.Errorf("an ELF file for %v", f.OSABI)
	}
	for _, s := range f.Progs {
		parts = append(parts, part{s.Off, s.Filesz})
	}
	arch := map[elf.Machine]string{elf.EM_X86_64: "amd64", elf.EM_AARCH64: "arm64"}
	return Platform{"linux", arch[f.Machine]}, parts, nil
}

func ofPE(data []byte) (p Platform, parts []part, err error) {
	f, err := pe.NewFile(bytes.NewReader(data))
	if err != nil {
		return p, nil, err
	}
	if f.Characteristics&pe.IMAGE_FILE_EXECUTABLE_IMAGE == 0 || f.Characteristics&pe.IMAGE_FILE_DLL != 0 {
		return p, nil, errors.New("a PE file that is no program")
	}
	for _, s := range f.Sections {
		parts = append(parts, part{uint64(s.Offset), uint64(s.Size)})
	}
	arch := map[uint16]string{pe.IMAGE_FILE_MACHINE_AMD64: "amd64", pe.IMAGE_FILE_MACHINE_ARM64: "arm64"}
	return Platform{"windows", arch[f.Machine]}, parts, nil
}

func ofMachO(data []byte) (p Platform, parts []part, err error) {
	f, err := macho.NewFile(bytes.NewReader(data))
	if err != nil {
		return p, nil, err
	}
	if f.Type != macho.TypeExec {
		return p, nil, fmt.Errorf("a Mach-O file of type %v", f.Type)
	}
	for _, l := range f.Loads {
		if s, ok := l.(*macho.Segment); ok {
			parts = append(parts, part{s.Offset, s.Filesz})
		}
	}
	arch := map[macho.Cpu]string{macho.CpuAmd64: "amd64", macho.CpuArm64: "arm64"}
	return Platform{"darwin", arch[f.Cpu]}, parts, nil
}
