package pantry

const (
	// CanningCaution goes with every answer about canning; a Canning cannot be read without it.
	CanningCaution = "Botulism kills. All vegetables, meat and fish are low-acid (above pH 4.6) and must be pressure canned: boiling water is not hot enough. " +
		"Tomatoes need added acid in every jar. Poison can form within 3 to 4 days in moist low-acid food without air at 40 to 120 degF, with no sign. " +
		"Follow the current public guide (USDA, NCHFP or your own country's) for food, jar, time, pressure and altitude; never can in an oven, a microwave or an open kettle; " +
		"have a dial gauge tested each year; never taste from a swollen, leaking or doubtful jar."
	// HerbCaution goes with every answer about herbs kept for the household.
	HerbCaution = "Kept here as a seasoning or a tea. We make no claim that a plant heals: ask a doctor or pharmacist before using one for illness, with medicines, in pregnancy or for a child, and be certain which plant it is."
	// FreezingCaution goes with answers about frozen stores.
	FreezingCaution = "Months are of quality at 0 degF or colder; food that thawed and grew warm is thrown away."
	// DryingCaution goes with answers about dried stores.
	DryingCaution = "Dry until brittle or leathery as the guide says, condition, and store airtight, dark and cool; throw away what grew moist or mouldy."
)

const (
	guide    = "USDA AIB 539 Complete Guide to Home Canning (copies)"
	lowPoint = "use the current public guide (USDA Complete Guide to Home Canning, NCHFP)"
)
