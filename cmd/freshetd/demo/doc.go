// Package demo makes an invented cooperative: six growers, fourteen months of
// probes and of days noted by hand, with the troubles such years bring.
//
// Nothing here is real. A small simulator runs each loop hour by hour from a
// fixed seed, the growers look at it as growers do, and what they note enters
// through SyncService.Push like any other record. All dates are counted back
// from the day it is made, so that the mornings are always this morning's.
//
// The simulator's equations are its own and rougher than package husbandry's:
// answers computed from its records are a test of the answers, not an echo.
//
//	cast.go     who the growers are, their sites and loops
//	weather.go  air outside and under cover
//	loop.go     water: temperature, nitrogen, carbonate, oxygen
//	fish.go     what fish eat and gain
//	beds.go     what stands in the beds and what it gives
//	grower.go   what a grower does and notes in a day
//	trouble.go  the planted troubles
//	outbox.go   notes and probe hours as operations
//	load.go     joining and pushing
package demo
