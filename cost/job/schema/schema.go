// Package schema holds the JSON Schemas (draft 2020-12) of the files of package job,
// for editors and for programs that check a file without reading it.
//
// They stand on nothing; go generate ./cost/job writes them from the types of the
// files and their comments.
package schema

import (
	"bytes"
	_ "embed"
)

//go:embed job-1.schema.json
var job []byte

//go:embed shop-1.schema.json
var shop []byte

//go:embed work-order-2.schema.json
var order []byte

// Job gives the schema of a whole job file: one on top of a shop file may lack what
// that has. What it refuses, job.Read refuses, which also knows what a schema cannot
// say.
func Job() []byte { return bytes.Clone(job) }

// Shop gives the schema of a shop file. What it refuses, job.ReadShop refuses.
func Shop() []byte { return bytes.Clone(shop) }

// Order gives the schema of a work order in JSON.
func Order() []byte { return bytes.Clone(order) }
