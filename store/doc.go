// Package store keeps the growers' records in Postgres.
//
// Everything that growers enter comes in by Push, in one transaction an
// upload: event rows, merged fields of records, corrections, sums by day, the
// outcomes of what was refused, and the pages of the change feed. Everything
// else reads. Accounts, devices and sharing are apart: they change by the
// functions of accounts.go and never by Push.
//
// One file a noun. Values are in the units of the contract's fields; times are
// UTC; a nil uuid stands for "none". The package knows nothing of messages and
// the network: callers turn messages into its structs.
package store
