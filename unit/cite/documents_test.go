package cite_test

import (
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit/cite"
)

// designation finds the numbers by which publishers call their documents: those
// of governments, of standards and of courses.
var designation = regexp.MustCompile(`\b(A-A-\d+|MIL-[A-Z]+-\d+|CCC-[A-Z]-\d+|TM-\d+-\d+-\d+|FM-\d+-\d+|AC-?\d+\.?\d+|EC\d+-\d+|(?:EN|ISO)-\d+(?:-\d{1,2}\b)?|D\d{4}\b|\d{5}\b)`)

// designations gives the numbers in a text, without points and dashes.
func designations(text string) []string {
	var out []string
	text = strings.ToUpper(strings.NewReplacer(" ", "-", "_", "-").Replace(text))
	for _, d := range designation.FindAllString(text, -1) {
		out = append(out, strings.NewReplacer("-", "", ".", "").Replace(d))
	}
	return out
}

// folder gives the site of an address and the folder in it that is called by the
// number of a document; empty where there is none.
func folder(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return ""
	}
	labels := strings.Split(u.Hostname(), ".")
	first, _, below := strings.Cut(strings.TrimPrefix(u.Path, "/"), "/")
	if !below || !regexp.MustCompile(`\d`).MatchString(first) || regexp.MustCompile(`^((19|20)\d\d|10\.\d+)$`).MatchString(first) {
		return "" // a page, a year, or the prefix of a publisher
	}
	return strings.Join(labels[max(0, len(labels)-2):], ".") + "/" + strings.ToLower(first)
}

// faults lists pairs of keys for one document, and addresses that hold the number
// of another document.
func faults(sources []cite.Source) []string {
	var out []string
	seen := map[string]string{}
	for _, s := range sources {
		own := append(designations(s.Key), designations(s.Title+"; "+s.Edition)...)
		names := []string{"title " + s.Title + "; " + s.Edition, "folder " + folder(s.Address)}
		if u, err := url.Parse(s.Address); err == nil && (len(u.Path) > 1 && !strings.HasPrefix(u.Path, "/en") || u.RawQuery != "") {
			names = append(names, "address "+s.Address)
		}
		for _, d := range own {
			names = append(names, "number "+d)
		}
		slices.Sort(names)
		for _, n := range slices.Compact(names) {
			if other := seen[n]; other != "" && n != "folder " {
				out = append(out, other+" and "+s.Key+" are one document: "+n)
			}
			seen[n] = s.Key
		}
		bare := func(d string) bool { return d[0] <= '9' } // may be any number of a site
		held := slices.DeleteFunc(designations(s.Address), bare)
		if own = slices.DeleteFunc(own, bare); len(held) > 0 && len(own) > 0 && !slices.ContainsFunc(held, func(d string) bool { return slices.Contains(own, d) }) {
			out = append(out, s.Key+": the address is that of "+held[0])
		}
	}
	return out
}

// One document has one key, and its address does not lead to another.
func TestDocumentsHaveOneKey(t *testing.T) {
	assert.Empty(t, faults(cite.Sources()))
}

func TestFaultsOfSourcesAreFound(t *testing.T) {
	source := func(key, title, edition, address string) cite.Source {
		return cite.Source{Key: key, Title: title, Edition: edition, Address: address}
	}
	for want, list := range map[string][]cite.Source{
		"number AC4313": {
			source("AC-43.13-1B", "AC 43.13-1B Acceptable Methods", "1B", "https://a.example/ac4313/p2.html"),
			source("FAA-AC-43.13", "Acceptable Methods", "AC 43.13-1B", "https://b.example/x"),
		},
		"number 14218": {
			source("NAVY-HAND", "Navy training course 14218, seams", "14218", "https://a.example/x"),
			source("NAVY-COURSE", "Equipmentman 2", "NAVEDTRA 14218", "https://b.example/x"),
		},
		"folder example.com/1ase2": {
			source("SPACING", "Spacing of seams", "", "http://www.example.com/1ase2/111.htm"),
			source("COURSE", "Training manual", "", "http://example.com/1ase2/112.htm"),
		},
		"title The Act; 1985": {source("A", "The Act", "1985", "https://a.example/x"), source("B", "The Act", "1985", "https://b.example/y")},
		"the address is that of AA50198": {
			source("A-A-51098A", "Thread, gimp", "", "https://yarn.example/A-A-50198/page02.html"),
		},
	} {
		got := faults(list)
		require.Len(t, got, 1, want)
		assert.Contains(t, got[0], want)
	}
	assert.Empty(t, faults([]cite.Source{
		source("FR-1", "Lead in paint", "73 FR 1, 2008", "http://gov.example/2008/E8-30238.htm"),
		source("FR-2", "Lead in repair", "73 FR 2, 2008", "http://gov.example/2008/E8-8141.htm"),
		source("ECEC-2015", "Employer Costs", "June 2015", "http://bls.example/ecec_0909.htm"),
		source("ECEC-2016", "Employer Costs", "June 2016", "http://bls.example/ecec_1208.htm"),
	}))
}
