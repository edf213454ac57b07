package job

import (
	"strings"
	"unicode/utf8"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Party is a shop or a customer, as papers name them.
type Party struct {
	Name    string   `json:"name" required:"true" hint:"what it is called"`
	Address []string `json:"address,omitempty"` // its lines
	Phone   string   `json:"phone,omitzero"`    // as it is written
	Mail    string   `json:"mail,omitzero"`     // as it is written
	// TaxNumber is written as the law of the place asks for it.
	TaxNumber string `json:"tax_number,omitzero"`
}

// headed gives what is wrong with the number of the job, its customer and its
// letterhead.
func (s Spec) headed() faults {
	var f faults
	f.add("number", checkLine(s.Number))
	return append(append(f, s.Customer.check("customer")...), s.Shop.check("shop")...)
}

// mostLines of an address are more than any has.
const mostLines = 12

func (p *Party) check(at unit.Path) faults {
	var f faults
	if p == nil {
		return f
	}
	f.add(at.Dot("name"), checkName(p.Name))
	f.add(at.Dot("address"), check.Count("", len(p.Address), 0, mostLines))
	for i, line := range p.Address[:min(len(p.Address), mostLines)] {
		f.add(at.Dot("address").At(i), checkName(line))
	}
	f.add(at.Dot("phone"), checkLine(p.Phone))
	f.add(at.Dot("mail"), checkLine(p.Mail))
	f.add(at.Dot("tax_number"), checkLine(p.TaxNumber))
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
