// Package simulation plays made-up weeks of a cooperative: devices as growers
// carry them, with the code and the database that they carry them with, and an
// authority that keeps the contract in memory. Lines break, answers are lost,
// clocks jump, disks fill up, apps die between any two statements or are of the
// first release, the authority comes back from a backup, rights go and return.
// All of it follows from a seed, in one goroutine and on a virtual clock, so
// that a week can be played again; and whatever a step breaks of the promises
// I1 to I15 is a Violation.
//
// The promises:
//
//	I1  every entry ends stored, or visibly refused or held
//	I2  stored exactly once
//	I3  caught up means equal to the authority's record
//	I4  numbers in a feed follow each other without gaps
//	I5  a cursor is never ahead of the rows
//	I6  own entries never disappear between entry and echo; where a site is
//	    lost, between entry and answer
//	I7  what a device reads never goes back, except after an announced reset
//	I8  derived counts are equal everywhere, in any order of arrival
//	I9  nothing of a scope is read after it is gone
//	I10 pulling goes on while pushing fails, and the reverse, but for a phone
//	    that shares its install with its copy: which of the entries that both
//	    have the other has sent, only a pull tells
//	I11 fields of a later release survive a round trip
//	I12 no clock decides a conflict by more than 2 minutes into the future
//	I13 groups are stored whole or not at all
//	I14 making a request again gives the same outcome
//	I15 what is noted for the house is read by those alone who live there,
//	    also where the site is open to all
package simulation
