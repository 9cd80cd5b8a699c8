// Command describe makes the description of the API (OpenAPI 3.1): paths and answers stand in api/openapi.yaml, the schemas are made
// of the Go types that the API writes and reads and of the bodies of entries, with their comments as descriptions.
package main
