// Package description holds the published description of the chat platform's
// HTTP API, trimmed to the bodies the adapter sends and the answers it reads
// when it looks at an account. ORIGIN.md says where it comes from.
package description

import _ "embed"

// OpenAPI is the trimmed description: OpenAPI 3.1, whose schemas are JSON
// Schema 2020-12.
//
//go:embed openapi.json
var OpenAPI []byte
