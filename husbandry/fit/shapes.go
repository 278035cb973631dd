package fit

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Shape is a curve with a name, named parameters, and a way to find starts.
type Shape struct {
	Name       string
	Parameters []string
	Curve      Curve
	Source     string
	starts     func(x, y []float64) [][]float64
}

// Fit fits the shape to points from several starts. More points than
// parameters, all finite; ErrNoFit when no start leads anywhere.
func (s Shape) Fit(x, y []float64) (Fitted, error) {
	if err := rectangle([][]float64{x}, y); err != nil {
		return Fitted{}, err
	}
	return Fit(s.Curve, x, y, s.starts(x, y)...)
}

// Logistic is Asym/(1+exp((xmid-x)/scal)): half of the final size Asym at xmid.
var Logistic = Shape{"logistic", []string{"Asym", "xmid", "scal"},
	func(x float64, b []float64) float64 { return b[0] / (1 + math.Exp((b[1]-x)/b[2])) },
	"Verhulst 1838", logisticStarts}

// Gompertz is Asym*exp(-b2*b3^x).
var Gompertz = Shape{"gompertz", []string{"Asym", "b2", "b3"},
	func(x float64, b []float64) float64 { return b[0] * math.Exp(-b[1]*math.Pow(b[2], x)) },
	"Gompertz 1825", gompertzStarts}

// VonBertalanffy is Linf*(1-exp(-K*(x-t0))), for lengths.
var VonBertalanffy = Shape{"vonBertalanffy", []string{"Linf", "K", "t0"},
	func(x float64, b []float64) float64 { return b[0] * -math.Expm1(-b[1]*(x-b[2])) },
	"von Bertalanffy 1938", bertalanffyStarts}

// Exponential is a*exp(b*x).
var Exponential = Shape{"exponential", []string{"a", "b"},
	func(x float64, b []float64) float64 { return b[0] * math.Exp(b[1]*x) },
	"definition", exponentialStarts}

// Saturation is b1*(1-exp(-b2*x)): oxygen demand, and growth from nothing.
var Saturation = Shape{"saturation", []string{"b1", "b2"},
	func(x float64, b []float64) float64 { return b[0] * -math.Expm1(-b[1]*x) },
	"definition; NIST StRD Misra1a, BoxBOD", saturationStarts}

// LogisticNIST is b1/(1+exp(b2-b3*x)), Logistic in the letters of NIST's Rat42.
var LogisticNIST = Shape{"logistic (NIST)", []string{"b1", "b2", "b3"},
	func(x float64, b []float64) float64 { return b[0] / (1 + math.Exp(b[1]-b[2]*x)) },
	"Ratkowsky 1983; NIST StRD Rat42", ratkowskyStarts}

// Richards is b1/(1+exp(b2-b3*x))^(1/b4).
var Richards = Shape{"richards", []string{"b1", "b2", "b3", "b4"},
	func(x float64, b []float64) float64 { return b[0] * math.Pow(1+math.Exp(b[1]-b[2]*x), -1/b[3]) },
	"Richards 1959; NIST StRD Rat43", richardsStarts}

// MichaelisMenten is Vm*x/(K+x): uptake against supply.
var MichaelisMenten = Shape{"michaelis-menten", []string{"Vm", "K"},
	func(x float64, b []float64) float64 { return b[0] * x / (b[1] + x) },
	"Michaelis & Menten 1913", mentenStarts}

// Biexponential is A1*exp(-exp(lrc1)*x) + A2*exp(-exp(lrc2)*x): a quick and a
// slow loss.
var Biexponential = Shape{"biexponential", []string{"A1", "lrc1", "A2", "lrc2"},
	func(x float64, b []float64) float64 {
		return b[0]*math.Exp(-math.Exp(b[1])*x) + b[2]*math.Exp(-math.Exp(b[3])*x)
	}, "definition", biexponentialStarts}

// CubicRatio is (b1+b2*x+b3*x^2+b4*x^3)/(1+b5*x+b6*x^2+b7*x^3); it has no
// starts of its own.
var CubicRatio = Shape{"cubic ratio", []string{"b1", "b2", "b3", "b4", "b5", "b6", "b7"},
	func(x float64, b []float64) float64 {
		return (b[0] + x*(b[1]+x*(b[2]+x*b[3]))) / (1 + x*(b[4]+x*(b[5]+x*b[6])))
	}, "NIST StRD Thurber", func(x, y []float64) [][]float64 { return nil }}

// FirstOrder is a dose (above 0) taken up at rate exp(lKa) and lost at exp(lKe):
// dose*exp(lKe+lKa-lCl)*(exp(-exp(lKe)*x)-exp(-exp(lKa)*x))/(exp(lKa)-exp(lKe)).
func FirstOrder(dose float64) (Shape, error) {
	s := Shape{"first-order compartment", []string{"lKe", "lKa", "lCl"},
		func(x float64, b []float64) float64 {
			loss, uptake := math.Exp(b[0]), math.Exp(b[1])
			return dose * math.Exp(b[0]+b[1]-b[2]) * (math.Exp(-loss*x) - math.Exp(-uptake*x)) / (uptake - loss)
		}, "Bateman 1910", func(x, y []float64) [][]float64 { return firstOrderStarts(dose, x, y) }}
	return s, quantity.Within("dose", dose, 1e-150, 1e150, "", "by definition: above 0")
}
