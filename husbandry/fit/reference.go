package fit

import (
	"slices"

	"freshet.example/husbandry/formula"
)

// A Reference is a set of points whose best curve NIST has certified, for
// trying out this very program (Statistical Reference Datasets, nonlinear
// regression; a work of the U.S. Government).
type Reference struct {
	Name  string
	Shape Shape
	X, Y  []float64
	Start []float64 // NIST's second start, the nearer one
}

// Refit fits the reference's curve from its start.
func (r Reference) Refit() (Fitted, error) { return Fit(r.Shape.Curve, r.X, r.Y, r.Start) }

// References are the sets used: pasture (Rat42) and onion growth (Rat43,
// Ratkowsky 1983), adsorption (Misra1a) and electron mobility (Thurber).
var References = []Reference{
	{"Rat42", LogisticNIST, []float64{9, 14, 21, 28, 42, 57, 63, 70, 79},
		[]float64{8.93, 10.80, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08}, []float64{75, 2.5, 0.07}},
	{"Rat43", Richards, []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15},
		[]float64{16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96, 637.56, 717.41}, []float64{700, 5, 0.75, 1.3}},
	{"Misra1a", Saturation, []float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0},
		[]float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78}, []float64{250, 0.0005}},
	{"Thurber", CubicRatio, []float64{-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714, -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010, 0.119, 0.377, 0.790, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.200},
		[]float64{80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.060, 401.672, 390.724, 567.534, 635.316, 733.054, 759.087, 894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962, 1464.350, 1468.705, 1447.894, 1457.628},
		[]float64{1300, 1500, 500, 75, 1, 0.4, 0.05}},
}

var referenceFormulas = []formula.Formula{referenceFormula()}

func referenceFormula() formula.Formula {
	f := formula.Formula{
		Name: "reference_curve", Title: "Does this program find the curves that NIST has certified?",
		Inputs: append([]formula.Input{{Name: "dataset", Meaning: "which of NIST's sets"},
			{Name: "df", Meaning: "degrees of freedom, a remark", Default: "none"}}, figureInputs()...),
		Source: "NIST/ITL Statistical Reference Datasets, nonlinear regression", Range: "the sets named",
		Work: func(in *formula.Given) (formula.Answer, error) {
			name := in.Word("dataset")
			at := slices.IndexFunc(References, func(r Reference) bool { return r.Name == name })
			if at < 0 {
				return formula.Answer{}, &formula.InputError{Formula: "reference_curve", Input: "dataset", Reason: "unknown word"}
			}
			fitted, err := References[at].Refit()
			if err != nil {
				return formula.Answer{}, err
			}
			return figure(fitted, References[at].Shape.Parameters, figureAsked(in))
		},
	}
	for _, r := range References {
		f.Inputs[0].Choices = append(f.Inputs[0].Choices, r.Name)
		f.Also = append(f.Also, r.Name+" se({of})", r.Name+" {figure}",
			r.Name+" residual sum of squares", r.Name+" residual standard {figure}")
	}
	return f
}
