// Package loop holds the plumbing of one loop of water: how much it holds, how
// fast it turns over, what a flooded bed gives back when the pump stops, what a
// pipe costs in head, where a pump settles on its curve, and what heat, water
// and electricity the loop takes.
//
// A loop moves the same water past fish, filter and plants, so the flow is set
// by whichever needs it most, and the pump is set by that flow and the head the
// pipes ask for. Three mistakes are common: a pipe's trade name taken for its
// inside diameter (a 2-inch pipe is 2.067 inches inside), a pump chosen by its
// flow at no head, and a pump tank too small for the water that drains into it
// on the first power cut. Each has its function here.
//
// Heads are metres of water, flows litres a minute, diameters metres inside.
// US units enter and leave only through Formulas.
//
//	source                                       function
//	geometry                                     RectangularTank, RoundTank, PipeVolume
//	volume over flow                             RetentionTime, FlowForRetention, Turnovers
//	orifice equation (Torricelli)                OutletFlow, Siphon
//	arithmetic                                   Timer, DrainDown, DrainDownMargin
//	Davidson & Summerfelt 2005                   SettlerLoading, SettlerArea, SettlerRemoval
//	Hazen and Williams 1905                      HazenWilliams, HazenWilliamsUS
//	Darcy and Weisbach; Swamee & Jain 1976       DarcyWeisbach, FrictionFactor, Reynolds
//	EPANET 2 manual, table 3.3                   FittingK, FittingLoss
//	schedule 40 dimensions                       InsideDiameter
//	pump-maker table, schedule 40 plastic        TradeFriction, TradeBias
//	maker's pump curve and the pipes' own        DutyPoint, SystemHead, WaterPower
//	ASAE EP406 and others that disagree          CoverU, CoverLoss, AirChangeLoss
//	calorimetry                                  WarmingEnergy, TankLoss, CoolingTime
//	ASHRAE (pool evaporation)                    Evaporation
//	UVI, FAO 589                                 MakeUp, MakeUpBalance
//	arithmetic                                   DailyEnergy, BackupTime, BatteryFor, MonthlyCost
//	single published figures                     Formulas, by "published_" names
package loop
