// Package migrations holds the Postgres schema, step by step. Each step is one
// transaction; code of the release before and after a step runs against it.
package migrations

import "embed"

// Files holds every step as NNNN_noun.up.sql and NNNN_noun.down.sql.
//
//go:embed *.sql
var Files embed.FS
