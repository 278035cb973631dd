// Package auth decides who is calling and what they may do: tokens, invitation
// codes, and one policy table with a row for every call of the contract.
// A call without a row is refused.
package auth
