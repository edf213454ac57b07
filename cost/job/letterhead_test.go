package job

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// Number, customer, day and letterhead go on the order as they are in the job.
func TestHeadOfOrder(t *testing.T) {
	o, err := secondOrder()
	require.NoError(t, err)
	assert.Equal(t, "2027-14", o.Number)
	assert.Equal(t, &Party{Name: "Larkfield Reading Room", Address: []string{"The Librarian", "1 Example Square"}, Phone: "555 0117", Mail: "librarian@larkfield.example"}, o.Customer)
	assert.Equal(t, "2027-05-28", o.Due.String())
	assert.Equal(t, "XX 000 000 000", o.Shop.TaxNumber)
}

// What stands at the top of a paper is a line, no more and no less.
func TestHeadOfOrderRefuses(t *testing.T) {
	text := second(t)
	for from, to := range map[string]struct {
		text  string
		field unit.Path
	}{
		`"2027-14"`:                     {`" "`, "number"},
		`"2027-05-28"`:                  {`"2027-02-30"`, "due"},
		`"The Librarian"`:               {`""`, "customer.address[0]"},
		`"555 0117"`:                    {`"` + strings.Repeat("5", 121) + `"`, "customer.phone"},
		`"librarian@larkfield.example"`: {`"a\nb"`, "customer.mail"},
		`"Quillmere Upholstery"`:        {`""`, "shop.name"},
		`["2 Sample Yard", "Nowhere"]`:  {`[` + strings.Repeat(`"x", `, 12) + `"x"]`, "shop.address"},
		`"XX 000 000 000"`:              {`"\t"`, "shop.tax_number"},
	} {
		bad := strings.Replace(text, from, to.text, 1)
		require.NotEqual(t, text, bad, from)
		_, err := Read(t.Context(), strings.NewReader(bad), quick)
		var in *unit.InputError
		require.True(t, errors.As(err, &in), from)
		assert.Equal(t, to.field, in.Field, "%v", err)
	}
}
