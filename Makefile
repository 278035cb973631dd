# What a person types. Longer recipes are in DEVELOPERS.md.

export GOFLAGS := -trimpath
.DEFAULT_GOAL := help
.PHONY: help demo test check mutate coverage generate screens tools bench bench-pool bench-husbandry postgres cc

help: ## what can be made
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

demo: postgres ## a cooperative of invented growers, ready to look at
	@mkdir -p .bin
	go build -o .bin/ ./cmd/freshet ./cmd/freshetd
	.bin/freshetd demo --freshet .bin/freshet

test: postgres cc browser ## every test, as CI runs it
	go vet ./...
	go run ./cmd/check rules
	go test ./...
	CGO_ENABLED=1 go test -race $$(go list ./store/... ./server/... ./clients/... | grep -v /simulation) # which does one thing after another
	$(MAKE) test-web

check: tools ## contract, lint and formatting
	.bin/buf lint
	.bin/buf breaking --against '.git#ref=HEAD'
	.bin/golangci-lint run ./...
	@test -z "$$(gofmt -l api cmd server store clients husbandry migrations)" || { gofmt -l api cmd server store clients husbandry migrations; exit 1; }

mutate: ## numbers of the science that no test would miss, one changed at a time
	go run ./cmd/check mutate

.PHONY: crash
crash: postgres ## freshet, freshetd and Postgres killed -9 under load, and an older backup restored: nothing noted is lost
	go test ./cmd/freshet -count=1 -run TestNotedStaysNotedThroughKills -timeout 30m -v -args -crash.kills 200
	go test ./cmd/freshetd -count=1 -run TestNothingIsLostThroughKillsAndARestore -timeout 30m -v -args -crash.server 30 -crash.postgres 10 -crash.devices 20

SEEDS ?= 20000
FIRST_SEED ?= 1
.PHONY: simulate
simulate: ## weeks of sync over bad lines, SEEDS=20000 of them from FIRST_SEED=1; 1 where a promise is broken
	@mkdir -p .bin
	@go build -o .bin/check ./cmd/check
	@.bin/check simulate --seeds $(SEEDS) --first-seed $(FIRST_SEED)

.PHONY: planted
planted: ## a fault planted for each promise of sync: the seeds that find them, into testdata/bench/sync-planted.md
	@mkdir -p .bin
	@go build -o .bin/check ./cmd/check
	tools/planted > .bin/planted.md && mv .bin/planted.md testdata/bench/sync-planted.md

FUZZ_TIME ?= 10m
.PHONY: fuzz
fuzz: ## bytes that nobody meant, FUZZ_TIME=10m for each decoder of the wire and of files
	tools/fuzz $(FUZZ_TIME)

coverage: ## do the forecasts keep their word? tables and pictures into testdata/bench (10 minutes of one core)
	go run ./cmd/check coverage

.PHONY: learn
learn: ## by how much intervals are drawn to keep their word, from invented seasons that are never tried (13 minutes of one core)
	go run ./cmd/check coverage --learn --seasons 1800 --forecasts 1

.PHONY: alarms
alarms: ## how often signs come where nothing is wrong, and how soon faults are found, into testdata/bench (4 minutes)
	go run ./cmd/check alarms

generate: tools clients/web/node_modules ## Go and TypeScript from the contract
	.bin/buf generate --template api/buf.gen.yaml
	go run ./cmd/quantities > .bin/quantities.ts && mv .bin/quantities.ts clients/web/src/gen/quantities.ts

# What the app is built with, at the versions of its lock file. Registries fail at times.
clients/web/node_modules: clients/web/package-lock.json
	cd clients/web && (npm ci --no-audit --no-fund || npm ci --no-audit --no-fund)
	@touch $@

.PHONY: web check-web test-web bench-web browser
web: clients/web/node_modules ## the phone app, built anew into what the server hands out
	cd clients/web && npm run -s build -- --logLevel warn

check-web: web ## the app that is handed out is the one of these sources
	cd clients/web && npm run -s check
	git diff --exit-code --stat -- clients/web/dist
	@test -z "$$(git status --porcelain -- clients/web/dist)"

test-web: clients/web/node_modules browser ## the app: its parts, and whole in a browser against a server
	cd clients/web && npm test --silent

bench-web: clients/web/node_modules browser postgres ## measure the app in a browser, into testdata/bench/web.md (10 minutes)
	cd clients/web/test/bench && npm ci --no-audit --no-fund --silent
	cd testdata/bench/peers && npm ci --no-audit --no-fund --silent
	cd clients/web && npm run -s bench

browser: # Chromium, where none is installed
	@tools/need-chromium

.PHONY: invented
invented: postgres # the records that the app shows to who looks around; made anew when the demo's story changes
	go run ./cmd/freshetd demo --data "$$(mktemp -d)" --grpc 127.0.0.1:0 --http 127.0.0.1:0 \
		--as-of 2026-05-20T07:40:00-05:00 --keep clients/web/public/invented.bin

screens: clients/web/node_modules ## look at every page of the app, with axe too; the pictures are kept in testdata/screens
	rm -rf testdata/screens
	cd clients/web && FRESHET_SCREENS="$(CURDIR)/testdata/screens" npm run -s pages

bench: postgres ## measure; figures are kept in testdata/bench
	go test -run '^$$' -bench . -benchtime 2s ./api/... ./store/... ./server/... ./clients/... ./cmd/... ./husbandry/...

bench-pool: postgres ## compare 1,000 sites with three years of hourly readings each, into testdata/bench/pool.md (12 GB, 10 minutes)
	tools/bench-pool

.PHONY: bench-backup
bench-backup: postgres ## back up a million readings while pushes go on, restore and prove them; figures go to testdata/bench/backup.md
	tools/bench-backup

.PHONY: hostile
hostile: postgres ## what 50 honest phones feel of a minute of hostile load, and what the second barrier costs; into testdata/bench/trust.md
	tools/hostile

.PHONY: bench-sync
bench-sync: postgres ## measure sync: pushes, pulls, bytes, first sync, 500 devices at once; into testdata/bench/sync.md
	tools/bench-sync

.PHONY: bench-peers
bench-peers: postgres ## 50,000 readings through Freshet and through a replicating document store from npm; into testdata/bench/peers.md
	tools/bench-peers

bench-husbandry: ## time and size of the science; figures go to testdata/bench/husbandry.md
	tools/bench-husbandry

.PHONY: sbom
sbom: ## what the programs and the app are made of (CycloneDX), into .bin/sbom; the modules' sums are verified
	tools/make-sbom

tools: .bin/buf .bin/golangci-lint ## the generators and linters, built at pinned versions

.bin/buf: tools/go.mod tools/go.sum
	@mkdir -p .bin
	cd tools && go build -o ../.bin/ tool

.bin/golangci-lint: tools/lint/go.mod tools/lint/go.sum
	@mkdir -p .bin
	cd tools/lint && go build -o ../../.bin/ tool

postgres: # Debian's server programs, where none are installed
	@tools/need-postgres

cc: # a C compiler for the race detector, where none is installed
	@tools/need-cc
