// A module of its own, so that neither users of the library nor its tests need
// what only programs need: workbooks, PDF, fonts.
module github.com/coverwright/coverwright/examples

go 1.25.0

require (
	codeberg.org/go-pdf/fpdf v0.12.0
	github.com/coverwright/coverwright v0.0.0
	github.com/stretchr/testify v1.12.1
	github.com/xuri/excelize/v2 v2.10.1
	golang.org/x/image v0.45.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/richardlehane/mscfb v1.0.9 // indirect
	github.com/richardlehane/msoleps v1.0.6 // indirect
	github.com/shopspring/decimal v1.6.0 // indirect
	github.com/tiendc/go-deepcopy v1.7.2 // indirect
	github.com/xuri/efp v0.0.1 // indirect
	github.com/xuri/nfp v0.0.2-0.20250530014748-2ddeb826f9a9 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/crypto v0.55.0 // indirect
	golang.org/x/net v0.58.0 // indirect
	golang.org/x/sys v0.47.0 // indirect
	golang.org/x/text v0.41.0 // indirect
)

replace github.com/coverwright/coverwright => ..
