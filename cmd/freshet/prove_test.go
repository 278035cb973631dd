package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"freshet.example/husbandry/published"
)

const figuresFolder = "../../testdata/published"

// TestEveryPublishedFigure proves every file of testdata/published, as a reader
// of the tree would: each row is read, is answered and agrees.
func TestEveryPublishedFigure(t *testing.T) {
	files, err := filepath.Glob(figuresFolder + "/*.csv")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d files of figures: %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			t.Parallel()
			file, err := readFigures(name)
			if err != nil {
				t.Fatal(err)
			}
			if len(file.passed) > 0 || len(file.rows) == 0 {
				t.Errorf("%d rows, columns passed over: %v", len(file.rows), file.passed)
			}
			for _, r := range proveFile(file).Results {
				if r.Verdict != published.Agrees.String() || !plainInputs(r.Inputs) {
					t.Errorf("line %d: %s %s: %s, ours %s, printed %s %s", r.Line, r.Quantity, r.Inputs, r.Verdict, r.Ours, r.Expected, r.Why)
				}
			}
		})
	}
}

// plainInputs tells whether every piece is a pair, so that nothing is told in
// words.
func plainInputs(inputs string) bool {
	if inputs == "" {
		return true
	}
	for _, piece := range strings.Split(inputs, ";") {
		if !strings.ContainsAny(piece, "=<>") {
			return false
		}
	}
	return true
}

// onSheet writes a file of figures and reads it back.
func onSheet(t *testing.T, text string) (*figureFile, error) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "figures.csv")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return readFigures(name)
}

func TestSheetsAsPeopleSaveThem(t *testing.T) {
	const row = "uia_fraction|pH=7,5;temp_C=25|0,0177|fraction|abs 0,0001|Emerson|SEEN"
	for name, text := range map[string]string{
		"commas": "quantity,inputs,expected,unit,tolerance,source,tag\n" + `uia_fraction,"pH=7,5;temp_C=25","0,0177",fraction,"abs 0,0001",Emerson,SEEN` + "\n",
		"spreadsheet": "\ufeffQuantity;Inputs;Expected;Unit;Tolerance;Source;Tag\r\n" +
			"uia_fraction;\"pH=7,5;temp_C=25\";0,0177;fraction;abs 0,0001;Emerson;SEEN\r\n",
		"tabs, other order": "tag\tsource\t tolerance \texpected\tunit\tinput\tquantity\tlocator\nSEEN\tEmerson\tabs 0,0001\t0,0177\tfraction\tpH=7,5;temp_C=25\tuia_fraction\tp. 3\n",
		"blank lines":       "quantity,inputs,expected,unit,tolerance,source,tag\n\n,,,,,,\n" + `uia_fraction,"pH=7,5;temp_C=25","0,0177",fraction,"abs 0,0001",Emerson,SEEN` + "\n\n",
	} {
		file, err := onSheet(t, text)
		if err != nil || len(file.rows) != 1 || len(file.bad) != 0 {
			t.Errorf("%s: %+v %v", name, file, err)
			continue
		}
		r := file.rows[0]
		if got := strings.Join([]string{r.Quantity, r.Inputs, r.Expected, r.Unit, r.Tolerance, r.Source, r.Tag}, "|"); got != row {
			t.Errorf("%s: %s", name, got)
		}
		if p := proveFile(file); p.Counts["agrees"] != 1 {
			t.Errorf("%s: %+v", name, p.Results)
		}
	}
}

func TestSheetsThatAreNone(t *testing.T) {
	for name, text := range map[string]string{
		"garbage":    "\x00\x01\xff\xfe",
		"prose":      "Dear grower,\nthe fish are well.\n",
		"no figures": "quantity,inputs\nuia_fraction,pH=7\n",
	} {
		if file, err := onSheet(t, text); err == nil {
			t.Errorf("%s was taken: %+v", name, file)
		}
	}
	if file, err := onSheet(t, " \n\n"); err != nil || len(file.rows) != 0 {
		t.Errorf("an empty sheet: %+v %v", file, err)
	}
	file, err := onSheet(t, "quantity,expected\nuia_fraction,1,2,3\n,4\nuia_pKa,\n\"odd\"cell,5\nuia_pKa,9.2\n")
	if err != nil || len(file.bad) != 4 || len(file.rows) != 1 || file.bad[0].Line != 2 || file.bad[3].Line != 5 || file.rows[0].line != 6 {
		t.Errorf("%+v %v", file, err)
	}
}

// What rows may say in place of pairs, and what is never made up.
func TestInputsAsRowsTellThem(t *testing.T) {
	for _, c := range []struct{ quantity, inputs, expected, verdict string }{
		{"uia_fraction", "PH=8;temp=75.2F", "0.0502", "agrees"},
		{"UIA fraction", "pH=8;Temp-C=24;note=at dusk", "0.0502", "agrees"},
		{"uia_fraction [at dusk]", "pH=8;temp_C=24", "0.0502", "agrees"},
		{"oxygen_depletion_minutes", "volume=264.172gal;biomass=80kg;do_start=7mg/L;do_crit=3;rate_mg_kg_h=167", "18.0", "agrees"},
		{"un-ionized ammonia fraction", "pH=8;temp_C=24", "0.0502", "agrees"},
		{"uia_fraction", "pH=8, temp_C=24", "0.0502", "agrees"},
		{"uia_fraction", "pH=~8;temp_C=about 24", "~0.0502", "agrees"},
		{"uia_fraction", "pH=8;temp_C=24 \u00b0C", "5.02 %", "agrees"},
		{"uia_fraction", "pH=8;temp_F=75.2", "about 0.0502", "agrees"},
		{"uia_fraction", "pH=8;temp_C=<24", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp=<24C", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=22-26", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=24;temp_C=25", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=24;temp_F=80", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=24;temp_F=75.2", "0.0502", "not read"},
		{"tan_from_feed", "feed_kg=60;protein_fraction=40%", "2.21", "agrees"},
		{"tan_from_feed", "feed_kg=60;protein_fraction=40 %", "2208 g/d", "agrees"},
		{"plant_area_from_feed", "feed_kg_d=1;ratio_g_m2_d=60", "16.7", "agrees"},
		{"plant_area_from_feed", "feed_g_d=1 000;ratio_g_m2_d=60", "16.7", "agrees"},
		{"plant_area_from_feed", "feed_g_d=1,000;ratio_g_m2_d=60", "16.7", "not read"},
		{"feed_from_plant_area", "area_m2=200;ratio_g_m2_d=100", "20,000", "agrees"},
		{"feed_from_plant_area", "area_m2=200;ratio_g_m2_d=100", "20 kg/d", "agrees"},
		{"chlorine_after_exchange", "tap_ppm=0.5;exchange_pct=10", "0.05", "agrees"},
		{"minor_loss_K", "fitting=globe valve", "10", "agrees"},
		{"TGC x100", "W1_g=10;W2_g=350;T_C=11;days=200", "0.222", "agrees"},
		{"alkalinity_from_base", "chemical=NaHCO3;mass_g=6;volume_L=50", "4 dKH", "agrees"},
		{"base_for_alkalinity", "chemical=NaHCO3;volume_L=50;rise=4dKH", "6.00", "agrees"},
		{"unit_no3n_from_no3", "no3_mg_L=30", "6.78", "agrees"},
		{"do_saturation", "temp_C=-5;salinity=0", "out of range", "agrees"},
		{"do_saturation", "temp_C=5;salinity=0", "out of range", "not read"}, // the pressure is missing, no range was left
		{"outlook.yardstick Sitka k=3 mae", "data/sitka.csv", "39.4", "no formula"},
		{"uia_fraction", "pH=8", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp=24", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=24;moon=full", "0.0502", "not read"},
		{"uia_fraction", "pH=acid;temp_C=24", "0.0502", "not read"},
		{"uia_fraction", "pH=8;temp_C=99", "0.0502", "differs"},
		{"uia_fraction", "pH=8;temp_C=99", "error", "agrees"},
		{"uia_fraction", "pH=8;temp_C=24", "error", "differs"},
		{"uia_fraction", "pH=8;temp_C=24", "0.502", "differs"},
		{"uia_fraction", "pH=data/none.csv:ph;temp_C=24", "0.0502", "not read"},
		{"uia_fraction", "pH=data/../../secret.csv:ph;temp_C=24", "0.0502", "not read"},
		{"salinity threshold ECe", "crop=moonflower", "1", "not held"},
		{"hours of moonlight", "day=3", "12", "no formula"},
		{"welch_t", "same data", "1", "not read"},
	} {
		file, err := onSheet(t, "quantity\tinputs\texpected\ttolerance\n"+c.quantity+"\t"+c.inputs+"\t"+c.expected+"\tabs 0.05\n")
		if err != nil {
			t.Fatal(err)
		}
		if c.expected == "0.0502" || c.expected == "0.502" {
			file.rows[0].Tolerance = "abs 0.0001"
		}
		if r := proveFile(file).Results[0]; r.Verdict != c.verdict || r.Verdict != "agrees" && r.Why+r.Ours == "" {
			t.Errorf("%s %s %s: %s, ours %s %s", c.quantity, c.inputs, r.Expected, r.Verdict, r.Ours, r.Why)
		}
	}
}

// A trap is a wrong number in circulation: another answer is right, and so is
// one that agrees with a row that only warns.
func TestTraps(t *testing.T) {
	file, err := onSheet(t, "quantity,inputs,expected,tolerance,tag\nuia_fraction,pH=8;temp_C=24,0.502,abs 0.0001,TRAP\nuia_fraction,pH=8;temp_C=24,0.0502,abs 0.0001,SEEN-TRAP\n")
	if err != nil {
		t.Fatal(err)
	}
	if p := proveFile(file); p.Counts["agrees"] != 2 || p.Results[0].Why == "" || p.Results[1].Why != "" {
		t.Errorf("%+v", p.Results)
	}
}

// What a source's own search missed is told apart and is no failure; the same
// row with another figure is one.
func TestDisputed(t *testing.T) {
	const row = "trial.two_proportions.fisher_or_lo [3/40-11/42]\tdeaths 3/40 versus 11/42 conf 0.95\t"
	file, err := onSheet(t, "quantity\tinputs\texpected\ttolerance\n"+row+"0.0382504705424\trel 1e-5\n"+row+"0.0382504\trel 1e-5\n"+row+"0.0382498970717\trel 1e-5\n")
	if err != nil {
		t.Fatal(err)
	}
	results := proveFile(file).Results
	for i, want := range []string{"disputed", "differs", "agrees"} {
		if results[i].Verdict != want || want == "disputed" && !strings.Contains(results[i].Why, "rational arithmetic") {
			t.Errorf("%+v, want %s", results[i], want)
		}
	}
}

// Names are compared by their words, and what stands before "from" is not what
// stands behind it.
func TestNamesThatAreNear(t *testing.T) {
	for _, c := range []struct{ quantity, formula string }{
		{"un-ionised ammonia fraction", "uia_fraction"}, {"Dissolved Oxygen Saturation", "do_saturation"}, {"pressure from altitude", "pressure_from_elevation"},
		{"thermal growth coefficient x100", "thermal_growth_coefficient_x100"}, {"media SSA", "media_specific_surface"}, {"no3 from no3n unit", "unit_no3_from_no3n"}, {"unit no3n to no3", "unit_no3_from_no3n"},
		{"no3n before no3", ""}, {"psychrometric constant (Ex.4)", "psychrometric_constant"}, {"channel catfish optimum growth minimum", "published_channel_catfish_optimal_growth_low"}, {"moonlight", ""}, {"", ""},
	} {
		found := alike(c.quantity)
		if c.formula == "" && len(found) > 0 || c.formula != "" && (len(found) != 1 || found[0].Name != c.formula) {
			t.Errorf("%q is %v, want %s", c.quantity, found, c.formula)
		}
	}
	if got := whyNone("raft nitrite removal"); !strings.Contains(got, "near it: raft_removal") {
		t.Error(got)
	}
	if got := whyNone("hours of moonlight on the roof"); strings.Contains(got, "near") {
		t.Error(got)
	}
}

// A row stands on the publication that it names, where ours prefers another.
func TestRowsOfAnotherPublication(t *testing.T) {
	for _, c := range []struct{ source, expected, verdict string }{
		{"Ebeling slides", "4.57", "agrees"}, {"Ebeling, Timmons & Bisogni 2006", "4.18", "agrees"}, {"Ebeling et al. 2006 as cited", "4.18", "agrees"},
		{"Ebeling slides", "4.18", "differs"}, {"Timmons 2006", "4.18", "differs"}, {"Ebeling et al. 2006", "4.34", "differs"},
	} {
		file, err := onSheet(t, "quantity\tinputs\texpected\ttolerance\tsource\nnitrification_oxygen\ttan_g=1\t"+c.expected+"\tabs 0.01\t"+c.source+"\n")
		if err != nil {
			t.Fatal(err)
		}
		if r := proveFile(file).Results[0]; r.Verdict != c.verdict {
			t.Errorf("%s %s: %+v", c.source, c.expected, r)
		}
	}
}

func TestLineRanges(t *testing.T) {
	if got := lineRanges([]int{9, 4, 5, 6, 12}); got != "4-6, 9, 12" {
		t.Error(got)
	}
}

// What is told in words in files that others wrote for people.
func TestTellings(t *testing.T) {
	text := strings.Join([]string{"quantity\tinputs\texpected\ttolerance\tsource",
		"Welch t\tx=0.7,-1.6,-0.2,-1.2,-0.1,3.4,3.7,0.8,0.0,2.0;y=1.9,0.8,1.1,0.1,-0.1,4.4,5.5,1.6,4.6,3.4\t-1.8608\t5e-05\tR, sleep data (Student 1908)",
		"pooled CI low\tsame data\t-3.363874\t1e-06\tthe same",
		"paired t p\tsleep paired\t0.002833\t1e-06\tR",
		"trial.two_proportions.diff [3/40-11/42]\tdeaths 3/40 versus 11/42 conf 0.95\t-0.186904761905\tabs 1e-9\tR",
		"trial.poisson.ratio [a]\tevents 5 in exposure 320; events 14 in exposure 410\t0.457589285714\trel 1e-8\tR",
		"score.pinball_0.05\ty=3.2; log y ~ N(mu=1,sd=0.4) (pinball from its quantiles)\t0.0896078638403\trel 1e-7\tR",
		"growth.tgc degree days\tW0=25.0 g TGC=1.25 (W^(1/3) per 1000 degC day) 30 days each at [24.0, 25.5, 26.0, 23.5, 22.0, 27.0, 25.0] degC\t5190\texact\tsum",
		"growth.tgc inverted\tW0=25.0 W=833.640864537 degree days=5190\t1.25\trel 1e-9\tscipy",
		"trial.anova1.F [PlantGrowth]\tdata/plantgrowth.csv\t4.84608786238\trel 1e-8\tR",
		"trial.rcb npk row 5 missing: coef N1\tdata/npk.csv without data row 5\t6.02222222222\trel 1e-8\tR lm(yield~block+N+P+K)",
		"Orange pooled logistic Asym\tR datasets Orange, 35 rows, circumference~age\t192.69\t0.01\tfit",
		"ChickWeight chick 1 Asym\tTime=0..21;weight=42,51,59,64,76,93,106,125,149,171,199,205\t937.02\t0.1\tfit",
		"growth.fit Orange tree 3 exponential_loglin lnW0\tdata/orange.csv tree 3\t3.5\t10\tR",
		"pool.meta.DL.blup meatmeal value [chickwts means]\tyi=[323.583333333333 160.2 218.75 276.909090909091 246.428571428571 328.916666666667] se=[18.600447344463 12.2145632568486 15.0791472510279 19.5682742052512 14.4666020394662 14.0978497894845]\t275.536378661\trel 1e-5\tmetafor",
		"weather.degree_days mean method base 5\tdata/seattle_2013.csv year 2013 (365 days) lat 47.45 N\t2720.7\tabs 1e-6\tscipy",
		"weather.hargreaves_et0 day 15\tdata/seattle_2013.csv year 2013 (365 days) lat 47.45 N\t0.551467327593\trel 1e-8\tscipy",
		"trial.anova1.F [none]\tdata/none.csv\t4.8\trel 1e-8\tR",
		"trial.anova1.F [half]\tdata/plantgrowth.csv of the first half\t4.8\trel 1e-8\tR", ""}, "\n")
	name := filepath.Join(t.TempDir(), "told.csv")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	file, err := readFigures(name)
	if err != nil {
		t.Fatal(err)
	}
	file.name = figuresFolder + "/told.csv"
	proven := proveFile(file)
	for i, r := range proven.Results {
		if want := i < len(proven.Results)-2; (r.Verdict == "agrees") != want || !want && r.Verdict != "not read" {
			t.Errorf("%s %s: %s, ours %s %s", r.Quantity, r.Inputs, r.Verdict, r.Ours, r.Why)
		}
	}
}
