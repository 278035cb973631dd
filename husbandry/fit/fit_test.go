package fit

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"freshet.example/husbandry/quantity"
)

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(1e-3, math.Abs(want))) {
		t.Errorf("%s is %.12g, want %.12g", name, got, want)
	}
}

func outside(err error) bool {
	var r *quantity.RangeError
	return errors.As(err, &r)
}

func second[T any](_ T, err error) error { return err }

// TestLineByHand: points 1, 3, 2, 5 at 0, 1, 2, 3 (worked by hand).
func TestLineByHand(t *testing.T) {
	l, err := StraightLine([]float64{0, 1, 2, 3}, []float64{1, 3, 2, 5})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", l.Slope, 1.1, 1e-12)
	near(t, "intercept", l.Intercept, 1.1, 1e-12)
	near(t, "residual squares", l.RSS, 2.7, 1e-12)
	near(t, "sigma", l.Sigma, math.Sqrt(1.35), 1e-12)
	near(t, "slope error", l.SlopeSE, math.Sqrt(1.35/5), 1e-12)
	near(t, "intercept error", l.InterceptSE, math.Sqrt(1.35*(1.0/4+2.25/5)), 1e-12)
	at, low, high, err := l.Predict(4, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "prediction", at, 5.5, 1e-12)
	reach := 4.302652729911275 * math.Sqrt(1.35*(1+1.0/4+6.25/5)) // t of 2 at 0.975
	near(t, "low", low, 5.5-reach, 1e-9)
	near(t, "high", high, 5.5+reach, 1e-9)
}

// TestAliasedColumns: a column that others already hold gets no coefficient and
// takes nothing from the fit.
func TestAliasedColumns(t *testing.T) {
	ones, x := []float64{1, 1, 1, 1, 1}, []float64{1, 2, 3, 4, 6}
	both := []float64{2, 3, 4, 5, 7}
	y := []float64{1, 2, 2, 4, 5}
	l, err := LeastSquares([][]float64{ones, x, both}, y)
	plain, _ := LeastSquares([][]float64{ones, x}, y)
	if err != nil || l.Rank != 2 || l.DF != 3 || !math.IsNaN(l.Coefficients[2]) || !math.IsNaN(l.SE[2]) {
		t.Fatalf("%+v %v", l, err)
	}
	near(t, "residual squares", l.RSS, plain.RSS, 1e-12)
	value, se := l.Combine([]float64{1, 2, 0})
	want, wantSE := plain.Combine([]float64{1, 2})
	near(t, "combination", value, want, 1e-12)
	near(t, "its error", se, wantSE, 1e-12)
	if v, _ := l.Combine([]float64{0, 0, 1}); !math.IsNaN(v) {
		t.Errorf("a column without a coefficient gave %v", v)
	}
	// What is new of a column of unit length must be above one ten-millionth.
	for share, rank := range map[float64]int{1.5e-7: 2, 0.7e-7: 1} {
		if l, _ := LeastSquares([][]float64{{1, 0, 0}, {1, share, 0}}, []float64{1, 2, 4}); l.Rank != rank {
			t.Errorf("rank %d where %v is new", l.Rank, share)
		}
	}
}

// TestNormalEquations: residuals lean on no column, over random problems.
func TestNormalEquations(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	for range 1000 {
		n, p := 6+r.Intn(10), 1+r.Intn(4)
		columns, y := make([][]float64, p), make([]float64, n)
		for j := range columns {
			columns[j] = make([]float64, n)
			for i := range n {
				columns[j][i] = 100 + r.NormFloat64() // nearly alike, all far from 0
			}
		}
		for i := range y {
			y[i] = 50 * r.NormFloat64()
		}
		l, err := LeastSquares(columns, y)
		if err != nil || l.Rank != p {
			t.Fatal(l, err)
		}
		rest := append([]float64{}, y...)
		for j, c := range columns {
			subtract(rest, l.Coefficients[j], c)
		}
		near(t, "residual squares", dot(rest, rest), l.RSS, 1e-9)
		for _, c := range columns {
			if !(math.Abs(dot(rest, c)) <= 1e-8*math.Sqrt(dot(y, y)*dot(c, c))) {
				t.Fatalf("residuals lean by %v", dot(rest, c))
			}
		}
	}
}

// TestCurvesAreFoundAgain: points on a curve give its parameters back.
func TestCurvesAreFoundAgain(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	dose, err := FirstOrder(4)
	if err != nil {
		t.Fatal(err)
	}
	u := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	for range 20 {
		for _, c := range []struct {
			shape Shape
			b     []float64
			to    float64
		}{
			{Logistic, []float64{u(50, 500), u(3, 9), u(1, 3)}, 14},
			{Gompertz, []float64{u(50, 500), u(1, 4), u(0.6, 0.9)}, 14},
			{VonBertalanffy, []float64{u(20, 60), u(0.1, 0.5), u(-2, -0.5)}, 14},
			{Exponential, []float64{u(1, 50), u(-0.2, 0.2)}, 14},
			{Saturation, []float64{u(50, 300), u(0.1, 0.6)}, 14},
			{LogisticNIST, []float64{u(50, 500), u(2, 4), u(0.3, 0.8)}, 14},
			{Richards, []float64{u(200, 900), u(3, 5), u(0.5, 0.8), u(0.9, 1.5)}, 16},
			{MichaelisMenten, []float64{u(50, 300), u(0.5, 5)}, 14},
			{Biexponential, []float64{u(3, 5), u(0.3, 0.8), u(0.5, 1), u(-2.2, -1.6)}, 9},
			{dose, []float64{u(-2.6, -2), u(0.2, 1), u(-3.2, -2.6)}, 20},
		} {
			var x, y []float64
			for i := 1; i <= 14; i++ {
				x = append(x, c.to*float64(i)/14)
				y = append(y, c.shape.Curve(x[i-1], c.b))
			}
			f, err := c.shape.Fit(x, y)
			if err != nil {
				t.Fatalf("%s %v: %v", c.shape.Name, c.b, err)
			}
			if len(c.shape.Parameters) != len(c.b) || f.DF != 14-len(c.b) {
				t.Fatalf("%s: %v", c.shape.Name, f)
			}
			for j := range c.b {
				if !(math.Abs(f.Parameters[j]-c.b[j]) <= 1e-4*math.Abs(c.b[j])) {
					t.Fatalf("%s of %v came back as %v", c.shape.Name, c.b, f.Parameters)
				}
			}
			near(t, c.shape.Name+" at a point", f.At(x[7]), y[7], 1e-6)
		}
	}
}

// TestDetermined: a standard error of half the figure is the limit.
func TestDetermined(t *testing.T) {
	if !(Fitted{Parameters: []float64{-2, 4}, SE: []float64{1, 2}}).Determined() {
		t.Error("half is still determined")
	}
	for _, se := range []float64{2.001, math.NaN(), math.Inf(1)} {
		if (Fitted{Parameters: []float64{-2, 4}, SE: []float64{1, se}}).Determined() {
			t.Errorf("determined with an error of %v", se)
		}
	}
}

// TestFlatCurve: points that do not bend as the curve does lead nowhere or say
// so, and never to a size believed.
func TestFlatCurve(t *testing.T) {
	f, err := Gompertz.Fit([]float64{0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 21}, []float64{42, 51, 59, 64, 76, 93, 106, 125, 149, 171, 199, 205})
	if err == nil && f.Determined() {
		t.Errorf("chick 1 has a final size of %v by Gompertz", f.Parameters[0])
	}
	if f, err := Logistic.Fit([]float64{1, 2, 3, 4, 5}, []float64{-1, -2, -1, -3, -2}); err == nil && f.Determined() {
		t.Errorf("a logistic through losses: %v", f)
	}
	if _, err := CubicRatio.Fit([]float64{1, 2, 3, 4, 5, 6, 7, 8}, []float64{1, 2, 3, 4, 5, 6, 7, 8}); !errors.Is(err, ErrNoFit) {
		t.Errorf("a curve without starts: %v", err)
	}
}

// TestMinimise: the banana valley of Rosenbrock 1960, and a bowl with a cliff.
func TestMinimise(t *testing.T) {
	banana := func(b []float64) float64 { return 100*(b[1]-b[0]*b[0])*(b[1]-b[0]*b[0]) + (1-b[0])*(1-b[0]) }
	at, least := Minimise(banana, []float64{-1.2, 1}, []float64{0.5, 0.5}, 20)
	if least > 1e-12 || !(math.Abs(at[0]-1) <= 1e-5) || !(math.Abs(at[1]-1) <= 1e-5) {
		t.Errorf("%v at %v", least, at)
	}
	bowl := func(b []float64) float64 {
		if b[0] < 0 {
			return math.NaN()
		}
		return 3 + (b[0]-2)*(b[0]-2)
	}
	at, least = Minimise(bowl, []float64{0.5}, []float64{-1}, 20)
	if !(math.Abs(at[0]-2) <= 1e-5) || !(math.Abs(least-3) <= 1e-10) {
		t.Errorf("%v at %v", least, at)
	}
}

// TestAmongAlike: three individuals of one timing and sizes of 80, 100, 120.
func TestAmongAlike(t *testing.T) {
	x := []float64{1, 3, 5, 7, 9, 11}
	var xs, ys [][]float64
	for i := range 3 {
		y := make([]float64, len(x))
		for j := range x {
			y[j] = (100+20*float64(i-1))/(1+math.Exp((5-x[j])/2)) + 0.5*math.Sin(float64(7*i+3*j))
		}
		xs, ys = append(xs, x), append(ys, y)
	}
	a, err := LogisticAmong(xs, ys)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "size", a.Asym, 100, 0.01)
	near(t, "half time", a.Xmid, 5, 0.02)
	near(t, "pace", a.Scal, 2, 0.03)
	near(t, "spread", a.SDAsym, math.Sqrt(800.0/3), 0.03)
	for i, own := range a.Own {
		near(t, "own size", own, 100+20*float64(i-1), 0.02)
	}
}

func TestRefusals(t *testing.T) {
	x, y := []float64{1, 2, 3, 4}, []float64{2, 3, 5, 6}
	line, _ := StraightLine(x, y)
	predict := func(at float64, c quantity.Fraction) error { _, _, _, err := line.Predict(at, c); return err }
	for name, err := range map[string]error{
		"no values":              second(LeastSquares([][]float64{x}, nil)),
		"no columns":             second(LeastSquares(nil, y)),
		"1001 columns":           second(LeastSquares(make([][]float64, 1001), y)),
		"a short column":         second(LeastSquares([][]float64{{1, 2}}, y)),
		"no number in a column":  second(LeastSquares([][]float64{{1, 2, math.NaN(), 4}}, y)),
		"no number in values":    second(LeastSquares([][]float64{x}, []float64{1, 2, 3, math.Inf(1)})),
		"two points":             second(StraightLine(x[:2], y[:2])),
		"points at one place":    second(StraightLine([]float64{1, 1, 1}, y[:3])),
		"nowhere":                predict(math.Inf(1), 0.9),
		"unsure":                 predict(3, 0.49),
		"as many as parameters":  second(Fit(Logistic.Curve, x[:3], y[:3], []float64{1, 2, 3})),
		"curve through unlike":   second(Logistic.Fit(x, y[:2])),
		"fit through unlike":     second(Fit(Logistic.Curve, x, y[:2], []float64{1, 2, 3})),
		"logarithm of nothing":   second(LogLine(x, []float64{1, 0, 2, 3})),
		"cube root of a loss":    second(CubeRootLine(x, []float64{1, -1, 2, 3})),
		"one individual":         second(LogisticAmong([][]float64{x}, [][]float64{y})),
		"individuals missing":    second(LogisticAmong([][]float64{x, x}, [][]float64{y})),
		"an individual unlike":   second(LogisticAmong([][]float64{x, x}, [][]float64{y, y[:2]})),
		"four points in all":     second(LogisticAmong([][]float64{x[:2], x[2:]}, [][]float64{y[:2], y[2:]})),
		"a dose of nothing":      second(FirstOrder(0)),
		"a dose beyond all":      second(FirstOrder(1.5e150)),
		"a dose that is no dose": second(FirstOrder(math.NaN())),
	} {
		if !outside(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := LeastSquares([][]float64{{1}}, []float64{3}); err != nil {
		t.Error(err)
	}
}
