package demo

import (
	"fmt"
	"testing"
	"time"
)

func TestLook(t *testing.T) {
	for _, g := range cast() {
		phone, gw, _, err := g.live(time.Date(2026, 6, 10, 0, 0, 0, 0, time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		n, m := 0, 0
		for _, p := range phone {
			n += len(p.Operations)
		}
		for _, p := range gw {
			for _, r := range p.Readings {
				m += int(r.Count)
			}
		}
		fmt.Println(g.site.Name, n, m, len(phone), len(gw))
	}
}
func TestTrace(t *testing.T) {
	for _, g := range cast() {
		g := g
		fmt.Println("==", g.site.Name)
		y, _ := g.begin(time.Date(2026, 6, 10, 0, 0, 0, 0, time.UTC))
		for ago := g.days; ago >= 0; ago-- {
			y.day(ago)
			if ago%25 == 0 || (ago < 40 && ago > 28 && g.seed == 11 && ago%2 == 0) {
				l := y.water
				s := ""
				for _, f := range y.schools {
					s += fmt.Sprintf(" %d×%.0fg", f.alive, f.grams)
				}
				fmt.Printf("%4d T%.1f pH%.2f alk%.0f tan%.2f no2%.2f no3%.0f do%.1f co2%.1f X%.1f,%.1f %s\n", ago, l.celsius, l.ph, l.alkalinity, l.tan, l.nitrite, l.nitrate, l.oxygen, l.carbonDioxide, l.ammoniaEaters, l.nitriteEaters, s)
			}
		}
	}
}
