# wetside: the targets. `make run` starts it, `make test` proves it.
SHELL := /bin/bash
.DELETE_ON_ERROR:
GO      ?= go
DATA    ?=
ADDR    ?= 127.0.0.1:8460
BIN     ?= bin/wetside
VERSION := $(shell git describe --tags --always --dirty 2>/dev/null || echo unknown)
LDFLAGS := -s -w -funcalign=16 -X main.version=$(VERSION)
TAGS    := nethttpomithttp2
# Nothing is inlined but where it is hot: a program a twentieth smaller (docs/decisions/0008-parts.md).
HOT     := std wetside/trade/measure wetside/trade/bath wetside/trade/chem wetside/trade/quantity wetside/book modernc.org/...
COLD    := archive/... context crypto/... database/sql encoding/gob encoding/xml fmt go/... html/template image/... log/slog math/big \
           mime/... net net/... os/... path/... regexp/... testing/... text/template/... time
GCFLAGS := -gcflags=all=-l $(HOT:%=-gcflags=%=) $(COLD:%=-gcflags=%=-l)
TOOL    := $(GO) tool -modfile=tools/go.mod

.PHONY: run build test test-short lint vuln generate fuzz bench load torture pictures clean package packages trial

run: build ## build, start on this machine with the example darkroom, print where it is
	@./bin/wetside serve --addr $(ADDR) $(if $(DATA),--data $(DATA)) --example

build: ## one static binary in bin/
	@CGO_ENABLED=0 $(GO) build -trimpath -tags $(TAGS) $(GCFLAGS) -ldflags '$(LDFLAGS)' -o $(BIN) ./cmd/wetside

packages: ## what the tests need from Debian, installed where it may be
	@./tools/packages

test: packages ## everything, on this machine
	@./tools/test

test-short: ## without browser and solvers
	$(GO) test -short ./...

lint: ## the linter, tidy modules, generated files
	@./tools/lint

vuln: ## the libraries and Go against the list of known faults
	@./tools/vuln

generate: ## write what is generated: the file's schema, the water table, the man page
	$(GO) generate ./...

fuzz: ## every fuzz target for a minute each (FUZZTIME=)
	@./tools/fuzz $(or $(FUZZTIME),60s)

bench: build packages ## figures of speed and size, side by side
	@./tools/bench

load: build ## 200 sinks on one process (FOR=30s, BOOK=0), on two with DATABASE=postgres://...
	@./tools/load

torture: ## long forms of the fault and oracle tests
	WETSIDE_LONG=1 WETSIDE_TORTURE=1 $(GO) test -count=1 -timeout 60m ./store/... ./trade/... ./web/...

pictures: build packages ## the README's pictures, of the real program
	@./tools/pictures

package: ## Debian packages and archives for amd64, arm64 and armhf, in dist/
	@./tools/package

arm: build ## what a small board runs, in an emulator, against this machine's own
	@./tools/arm

clean:
	rm -rf bin dist
