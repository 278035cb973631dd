// Package coverage tries the forecasts on what came: on invented site-seasons
// whose traits the forecaster does not know and whose equations are others than
// its own, and on published growth of animals and trees. It writes how often
// intervals held and how far forecasts were off, beside naive ones, as a table
// and as pictures.
package coverage

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// Options say how much is tried and where what is found goes.
type Options struct {
	Seasons   int    // invented site-seasons
	Forecasts int    // from as many days of each
	Published string // folder of the published growth data
	To        string // folder for coverage.md and its pictures
	Command   string // what makes them, for the page
	Table     string // file of what is learnt
}

// levels are those at which intervals are tried: three for the tables, all for the pictures.
var levels = []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95}

const half, eight, nine = 4, 7, 8 // where 50, 80 and 90 % stand among the levels

// Run tries all and writes the files.
func Run(o Options) error {
	if o.Seasons > firstLearnt {
		return fmt.Errorf("%d seasons: from the %dth on they are learnt from, and so not tried", o.Seasons, firstLearnt)
	}
	seasons, err := trySeasons(o.Seasons, o.Forecasts)
	if err != nil {
		return err
	}
	growth, err := tryGrowth(o.Published)
	if err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Do the forecasts keep their word?\n\nMade by `%s`.\n\n", o.Command)
	writeSeasons(&b, seasons, o)
	writeGrowth(&b, growth)
	for name, text := range map[string]string{
		"coverage.md": b.String(), "coverage_seasons.svg": picture(seasonPanels(seasons)), "coverage_growth.svg": picture(growthPanels(growth)),
	} {
		if err := os.WriteFile(filepath.Join(o.To, name), []byte(text), 0o644); err != nil { //nolint:gosec // for everybody to read
			return err
		}
	}
	return nil
}
