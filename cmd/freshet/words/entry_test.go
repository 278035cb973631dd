package words

import (
	"strings"
	"testing"
)

func TestALineHoldsSeveralTests(t *testing.T) {
	for line, want := range map[string]string{
		"ph 7.2":                                     "ph 7.2",
		"reading ph 7.2":                             "ph 7.2",
		"read ph 7.2":                                "ph 7.2",
		"ph 7.2 ammonia 0.5 ppm as N":                "ph 7.2|ammonia 0.5 ppm as N",
		"ammonia 0.5 ppm as NH3 ph 7":                "ammonia 0.5 ppm as NH3|ph 7",
		"ammonia 0.5 ppm NH3 no2 <0.1":               "ammonia 0.5 ppm NH3|no2 <0.1",
		"oxygen 6.4 ec 900 k 20ppm mg 3ppm":          "oxygen 6.4|ec 900|k 20ppm|mg 3ppm",
		"temp 24C appetite Keen ph 7":                "temp 24C|appetite Keen|ph 7",
		"reading ph=7.2 nitrate=20 as=N at=Tank":     "ph 7.2 at=Tank|nitrate 20 as=N at=Tank",
		"ph 7 kh 4 ec 900 unit=dKH when=07:12":       "ph 7 when=07:12|kh 4 unit=dKH when=07:12|ec 900 when=07:12",
		"ph":                                         "ph",
		"hardness 120 mg/L as CaCO3 calcium 30 mg/L": "hardness 120 mg/L as CaCO3|calcium 30 mg/L",
	} {
		noun, rest, err := FindEntry(strings.Fields(line))
		if err != nil || noun.Name != "reading" {
			t.Errorf("%s: %s, %v", line, noun.Name, err)
		}
		if got := joined(tests(Split(rest))); got != want {
			t.Errorf("%s: %s; want %s", line, got, want)
		}
	}
}

func joined(lines []Typed) string {
	var each []string
	for _, line := range lines {
		words := line.Words
		for _, p := range line.Pairs {
			words = append(words, p[0]+"="+p[1])
		}
		each = append(each, strings.Join(words, " "))
	}
	return strings.Join(each, "|")
}

func TestNounsComeBeforeTests(t *testing.T) {
	for word, want := range map[string]string{
		"photo": "photo", "phot": "photo", "count": "count", "feedings": "feeding", "feed": "feeding", "salt": "reading", "alkal": "reading",
	} {
		if noun, _, err := FindEntry([]string{word, "1"}); err != nil || noun.Name != want {
			t.Errorf("%s: %s, %v; want %s", word, noun.Name, err, want)
		}
	}
	wantProblem(t, "amonia", unknownName, func() error { _, _, err := FindEntry([]string{"amonia", "3"}); return err })
}
