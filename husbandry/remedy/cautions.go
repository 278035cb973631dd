package remedy

const (
	// LabelCaution goes with every answer about a substance.
	LabelCaution = "The product's label and your local law outrank every number here: use only what is registered for that crop and place, at its rate, and keep its days between last use and harvest. " +
		"Unlabelled use near water that fish drink may be illegal."
	// TrialCaution goes with every answer about fish and chemicals.
	TrialCaution = "An LC50 kills half the fish; it is no dose. Check oxygen before and after, be ready to aerate, try it on a few fish first, and treat sick fish in a separate tank: the filter and the plants meet whatever the loop gets."
	// HandlingCaution goes with answers about concentrated chemicals.
	HandlingCaution = "Concentrates burn eyes, skin and lungs, and formalin is known to cause cancer: gloves, goggles, open air, and never mix chemicals, least of all chlorine with acid or ammonia."
	// MedicineCaution goes with answers about medicines and withdrawal.
	MedicineCaution = "Medicines for food fish need a veterinarian and the law of your country; fish treated with anything unapproved must not be eaten. Days differ by product, species and temperature: the label's are the ones that count."
)
