package job

import (
	"strings"
	"unicode/utf8"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Letterhead is the shop as it signs its papers.
type Letterhead struct {
	Name    string   `json:"name" required:"true" hint:"what the shop is called"`
	Address []string `json:"address,omitempty"` // its lines
	Phone   string   `json:"phone,omitzero"`    // as it is written
	Mail    string   `json:"mail,omitzero"`     // as it is written
	// TaxNumber is written as the law of the place asks for it.
	TaxNumber string `json:"tax_number,omitzero"`
}

// Customer is whom the job is for.
type Customer struct {
	Name    string   `json:"name" required:"true" hint:"what the customer is called"`
	Address []string `json:"address,omitempty"` // its lines
	Phone   string   `json:"phone,omitzero"`    // as it is written
	Mail    string   `json:"mail,omitzero"`     // as it is written
}

// headed gives what is wrong with the number of the job, its customer and its
// letterhead.
func (s Spec) headed() faults {
	var f faults
	f.add("number", checkLine(s.Number))
	if c := s.Customer; c != nil {
		f = append(f, checkAddress("customer", c.Name, c.Address, c.Phone, c.Mail)...)
	}
	if l := s.Shop; l != nil {
		f = append(f, checkAddress("shop", l.Name, l.Address, l.Phone, l.Mail)...)
		f.add("shop.tax_number", checkLine(l.TaxNumber))
	}
	return f
}

// mostLines of an address are more than any has.
const mostLines = 12

func checkAddress(at unit.Path, name string, address []string, phone, mail string) faults {
	var f faults
	f.add(at.Dot("name"), checkName(name))
	f.add(at.Dot("address"), check.Count("", len(address), 0, mostLines))
	for i, line := range address[:min(len(address), mostLines)] {
		f.add(at.Dot("address").At(i), checkName(line))
	}
	f.add(at.Dot("phone"), checkLine(phone))
	f.add(at.Dot("mail"), checkLine(mail))
	return f
}

// checkLine accepts a short text that may be left out.
func checkLine(s string) error {
	if s == "" {
		return nil
	}
	if strings.TrimSpace(s) == "" || utf8.RuneCountInString(s) > mostName {
		return check.Refuse("", s, unit.ErrRange, "from 1 to 120 characters, or nothing at all")
	}
	return nil
}
