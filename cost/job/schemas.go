package job

import "github.com/coverwright/coverwright/internal/check"

//go:generate go run ../../internal/dev/schema/write

// Schema is the value of the schema field of a file: SpecSchema, ShopSchema or
// OrderSchema.
type Schema string

// The schemas of this version. Package schema has them as JSON Schemas.
const (
	SpecSchema  Schema = "coverwright/job/1"
	ShopSchema  Schema = "coverwright/shop/1"
	OrderSchema Schema = "coverwright/work-order/2"
)

// is refuses another schema.
func (s Schema) is(want Schema) error { return check.OneOf("", string(s), string(want)) }
