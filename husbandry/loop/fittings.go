package loop

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Fitting is a part of a pipe run with its loss coefficient K.
type Fitting struct {
	Name   string
	K      float64
	Source string
}

const (
	workedK = "worked example of minor losses (entrance, exit, elbow, globe, gate)"
	epanetK = "EPANET 2 Users Manual, table 3.3 (from memory)"
)

var fittings = [...]Fitting{
	{"entrance", 0.5, workedK},
	{"exit", 1, workedK},
	{"90 elbow", 0.9, workedK},
	{"globe valve open", 10, workedK},
	{"gate valve open", 0.2, workedK},
	{"angle valve open", 5, epanetK},
	{"swing check valve", 2.5, epanetK},
	{"medium elbow", 0.8, epanetK},
	{"long elbow", 0.6, epanetK},
	{"45 elbow", 0.4, epanetK},
	{"return bend", 2.2, epanetK},
	{"tee through", 0.6, epanetK},
	{"tee branch", 1.8, epanetK},
}

// Fittings returns the names of the fittings we have a coefficient for.
func Fittings() []string {
	names := make([]string, len(fittings))
	for i, f := range fittings {
		names[i] = f.Name
	}
	return names
}

// FittingK returns the loss coefficient of a fitting by name. The coefficients
// are typical; makers of ball valves and unions publish their own.
func FittingK(name string) (Fitting, error) {
	for _, f := range fittings {
		if strings.EqualFold(f.Name, name) {
			return f, nil
		}
	}
	return Fitting{}, &UnknownError{"fitting", name}
}

// FittingLoss returns the head lost in fittings in metres: K v^2/2g, with K the
// sum over the run.
func FittingLoss(k float64, speed MetresPerSecond) (quantity.Metres, error) {
	if err := firstError(lossBound.check(k), speedBound.check(float64(speed))); err != nil {
		return 0, err
	}
	return quantity.Metres(k * velocityHead(float64(speed))), nil
}
