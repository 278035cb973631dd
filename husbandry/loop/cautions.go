package loop

// Cautions that answers of this package carry. They repeat what the trade
// learned from accidents; none replaces a licensed electrician, a local code or
// a maker's manual.
const (
	// ElectricityCaution goes with every answer about pumps, heaters, batteries and power.
	ElectricityCaution = "Electricity beside water kills: put every circuit behind a residual-current device (RCD, GFCI), " +
		"give each cord a drip loop below its socket, switch off before hands go into the water, and leave wiring to a licensed electrician and the local code."
	// SludgePitCaution goes with answers about settling.
	SludgePitCaution = "Settled solids turn foul and give off hydrogen sulfide: take them out daily, and never enter a closed pit or tank alone or unventilated."
	// OverflowCaution goes with answers about water that drains down.
	OverflowCaution = "An overflow empties the fish tank or floods wiring: pump from the pump tank and not from the fish tank, guard the standpipe, and try the power cut yourself with the pump switched off."
	// OversizeCaution goes with answers about friction.
	OversizeCaution = "Growth inside pipes adds friction with time: size them for more than the figure, and measure the flow once it runs."
	// BackupCaution goes with answers about backup.
	BackupCaution = "Fish die within minutes to hours when aeration stops: test the backup under load, and watch the oxygen and not only the power."
	// TopUpCaution goes with answers about water that is added.
	TopUpCaution = "Tap water may hold chlorine or chloramine, which kill fish and filter within hours: test total chlorine at nought before filling, and add no more at once than the fish bear in warmth and pH."
	// HeatCaution goes with answers about heat.
	HeatCaution = "U-values differ between sources and with wind, sky and wet covers: take the larger figure when fish depend on it."
)
