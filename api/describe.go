package api

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
)

//go:generate go run ../internal/describe

//go:embed openapi.json
var described []byte

// description returns the description of the API (OpenAPI 3.1) and its tag. internal/describe makes it out of openapi.yaml and the
// Go types.
func description() (text []byte, tag string) {
	sum := sha256.Sum256(described)
	return described, `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`
}
