package crop

import "freshet.example/husbandry/formula"

const (
	nitrateTrial = "PMC4646504 Table 1, columns read as mg/g dry weight"
	sunken       = "basal coefficients of tomato in a sunken greenhouse, three seasons"
)

// facts are single published figures of crops.
var facts = []formula.Fact{
	{Quantity: "lettuce total N", Given: "cultivar=red;nitrate_mM=12", Low: 33.2, High: 33.2, Unit: "mg/g", Source: nitrateTrial, Title: "How much nitrogen is in the dry matter of lettuce?"},
	{Quantity: "lettuce total N", Given: "cultivar=green;nitrate_mM=12", Low: 38.4, High: 38.4, Unit: "mg/g", Source: nitrateTrial},
	{Quantity: "lettuce N taken up in the last month", Given: "crop=lettuce", Low: 70, High: 80, Unit: "%", Source: "UC Davis", Title: "What share of its nitrogen does lettuce take up in its last month?"},
	{Quantity: "butterhead lettuce dry matter", Given: "nitrogen=without", Low: 295, High: 295, Unit: "g/m2", Source: "Foggia trial", Title: "How much dry matter did butterhead lettuce make, with nitrogen and without?"},
	{Quantity: "butterhead lettuce dry matter", Given: "nitrogen=with", Low: 410, High: 410, Unit: "g/m2", Source: "Foggia trial"},
	{Quantity: "greenhouse tomato basal coefficient", Given: "season=1", Low: 1.06, High: 1.06, Source: sunken, Title: "How much water do tomatoes under glass take, for each millimetre of reference?"},
	{Quantity: "greenhouse tomato basal coefficient", Given: "season=2", Low: 1.11, High: 1.11, Source: sunken},
	{Quantity: "greenhouse tomato basal coefficient", Given: "season=3", Low: 0.99, High: 0.99, Source: sunken},
	{Quantity: "greenhouse tomato basal coefficient", Given: "season=FAO", Low: 1.1, High: 1.1, Source: "FAO-56, basal coefficient of mid season"},
}
