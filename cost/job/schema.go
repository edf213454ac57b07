package job

import (
	"bytes"
	_ "embed"
)

//go:generate go run ../../internal/dev/schema/write

//go:embed schema/job-1.schema.json
var specJSONSchema []byte

//go:embed schema/shop-1.schema.json
var shopJSONSchema []byte

//go:embed schema/work-order-2.schema.json
var orderJSONSchema []byte

// SpecJSONSchema gives the JSON Schema (draft 2020-12) of a job file. What it
// refuses, [Read] refuses; Read also knows what a schema cannot say.
func SpecJSONSchema() []byte { return bytes.Clone(specJSONSchema) }

// ShopJSONSchema gives the JSON Schema (draft 2020-12) of a shop file. What it
// refuses, [ReadShop] refuses.
func ShopJSONSchema() []byte { return bytes.Clone(shopJSONSchema) }

// OrderJSONSchema gives the JSON Schema (draft 2020-12) of a work order in JSON.
func OrderJSONSchema() []byte { return bytes.Clone(orderJSONSchema) }
