package main

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"github.com/coverwright/coverwright/examples/internal/folder"
)

// fontNotice names the fonts in a PDF that goes out, with the terms that they ask to
// be given on with them. The fonts bring names and terms themselves.
func fontNotice(book string) (folder.File, error) {
	var names, terms []string
	for _, ttf := range [][]byte{goregular.TTF, gobold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			return folder.File{}, err
		}
		name, err := f.Name(nil, sfnt.NameIDFull)
		if err != nil {
			return folder.File{}, err
		}
		term, err := f.Name(nil, sfnt.NameIDLicense)
		if err != nil {
			return folder.File{}, err
		}
		names = append(names, name)
		if !slices.Contains(terms, term) {
			terms = append(terms, term)
		}
	}
	text := fmt.Sprintf("Fonts in %s: %s.\n\n%s\n", book, strings.Join(names, ", "), strings.Join(terms, "\n\n"))
	return folder.File{Name: "fonts.txt", Data: []byte(text)}, nil
}
