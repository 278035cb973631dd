package store

// recordTables: table of each kind of record, by its name in the contract.
var recordTables = map[string]string{
	"cooperative": "cooperatives", "member": "members", "site": "sites", "system": "systems", "vessel": "vessels",
	"bed": "beds", "equipment": "equipment", "cohort": "cohorts", "planting": "plantings", "feed": "feeds",
	"species": "species", "crop": "crops", "remedy": "remedies", "plan": "plans", "trial": "trials",
}

// eventTables: table of each kind of event, by its name in the contract.
var eventTables = map[string]string{
	"reading": "readings", "feeding": "feedings", "stocking": "stockings", "weighing": "weighings", "count": "counts",
	"death": "deaths", "move": "moves", "fish_harvest": "fish_harvests", "sowing": "sowings",
	"transplanting": "transplantings", "bed_harvest": "bed_harvests", "pulling": "pullings", "dosing": "dosings",
	"treatment": "treatments", "water_in": "waters_in", "water_out": "waters_out", "solids_out": "solids_out",
	"disposition": "dispositions", "upkeep": "upkeep", "incident": "incidents", "labour": "labour", "energy": "energy",
	"expense": "expenses", "note": "notes", "photo": "photos", "correction": "corrections",
}

// houseNouns are private to a site unless shared one by one.
var houseNouns = map[string]bool{"labour": true, "expense": true, "note": true, "photo": true}

// RecordTable is the table of a kind of record ("vessel"); false for no record.
func RecordTable(noun string) (string, bool) { table, ok := recordTables[noun]; return table, ok }

// EventTable is the table of a kind of event ("reading"); false for no event.
func EventTable(noun string) (string, bool) { table, ok := eventTables[noun]; return table, ok }

// IsHouse tells whether a kind of event is private to its site unless shared by
// itself: labour, expense, note, photo.
func IsHouse(noun string) bool { return houseNouns[noun] }
