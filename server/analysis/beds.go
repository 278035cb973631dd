package analysis

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// seasonWeeks is how far ahead gaps and gluts are told.
const seasonWeeks = 16

// growing is what stands in a site's beds at one moment.
type growing struct {
	*site
	today         crop.Day
	open, covered crop.Clime // of beds in the open, and under cover
	stands        []stand
	past          map[string][]crop.Past // in good days, where the air of the year is known
}

// stand is one planting that was sown and not pulled.
type stand struct {
	store.Planting
	bed      store.Bed
	window   crop.Window
	known    bool // the crop's days are in the table, and it comes to bear where it stands
	never    *crop.NeverError
	warning  string
	harvests float64 // g so far
}

func dayOf(t time.Time, zone *time.Location) crop.Day {
	y, m, d := t.In(zone).Date()
	day, err := crop.DayOf(y, int(m), d)
	if err != nil {
		return 0
	}
	return day
}

// beginnings are the first sowing or setting out of each planting.
type beginnings map[uuid.UUID]struct {
	on         crop.Day
	transplant bool
}

func (s *site) growing(ctx context.Context, at time.Time) (*growing, error) {
	g := &growing{site: s, today: dayOf(at, s.zone), past: map[string][]crop.Past{}}
	if err := g.climes(ctx); err != nil {
		return nil, err
	}
	started, err := s.beginnings(ctx, at)
	if err != nil {
		return nil, err
	}
	pulled, err := store.History[store.Pulling](ctx, s.store, s.Site.ID, beginning, at)
	if err != nil {
		return nil, err
	}
	harvests, err := store.History[store.BedHarvest](ctx, s.store, s.Site.ID, beginning, at)
	if err != nil {
		return nil, err
	}
	ended := map[uuid.UUID]bool{}
	for _, p := range pulled {
		ended[p.PlantingID] = true
	}
	first, last, grams := map[uuid.UUID]crop.Day{}, map[uuid.UUID]crop.Day{}, map[uuid.UUID]float64{}
	for _, h := range harvests {
		day := dayOf(h.OccurredAt, s.zone)
		if _, ok := first[h.PlantingID]; !ok {
			first[h.PlantingID] = day
		}
		last[h.PlantingID] = day
		grams[h.PlantingID] += h.MassG
	}
	g.remember(started, ended, first, last)
	for _, p := range s.Plantings {
		if start, ok := started[p.ID]; ok && !ended[p.ID] {
			g.add(p, start.on, start.transplant, grams[p.ID])
		}
	}
	return g, nil
}

func (s *site) beginnings(ctx context.Context, at time.Time) (beginnings, error) {
	found := beginnings{}
	sown, err := store.History[store.Sowing](ctx, s.store, s.Site.ID, beginning, at)
	if err != nil {
		return nil, err
	}
	for _, e := range sown {
		b := found[e.PlantingID]
		b.on = dayOf(e.OccurredAt, s.zone)
		found[e.PlantingID] = b
	}
	set, err := store.History[store.Transplanting](ctx, s.store, s.Site.ID, beginning, at)
	for _, e := range set {
		b := found[e.PlantingID]
		b.on, b.transplant = dayOf(e.OccurredAt, s.zone), true
		found[e.PlantingID] = b
	}
	return found, err
}

// remember keeps what finished plantings did, crop by crop.
func (g *growing) remember(started beginnings, ended map[uuid.UUID]bool, first, last map[uuid.UUID]crop.Day) {
	for _, p := range g.Plantings {
		start, ok := started[p.ID]
		f, bore := first[p.ID]
		if !ok || !bore || f <= start.on {
			continue
		}
		past := crop.Past{Transplant: start.transplant, ToFirst: float64(f - start.on)}
		if days, err := crop.GoodDays(p.Crop, start.on, f, g.clime(g.bed(p.BedID))); err == nil {
			past.ToFirst = days
		}
		if ended[p.ID] {
			past.Bearing = float64(last[p.ID]-f) + 1
		}
		g.past[p.Crop] = append(g.past[p.Crop], past)
	}
}

func (g *growing) add(p store.Planting, on crop.Day, transplant bool, grams float64) {
	st := stand{Planting: p, bed: g.bed(p.BedID), harvests: grams}
	window, err := crop.BearingWindow(crop.Planting{Crop: p.Crop, Planted: on, Transplant: transplant, Area: quantity.SquareMetres(g.area(p))}, g.past[p.Crop], g.clime(st.bed))
	st.window, st.known = window, err == nil
	errors.As(err, &st.never)
	st.warning, err = crop.PollinationWarning(p.Crop, crop.Flowering{Covered: st.bed.Covered, ByHand: p.HandPollinated})
	if err != nil {
		st.warning = ""
	}
	g.stands = append(g.stands, st)
}

// area is what a planting covers: as said, by its plants, or the whole bed.
func (s *site) area(p store.Planting) float64 {
	if p.AreaM2 > 0 {
		return p.AreaM2
	}
	if p.PlantsCount > 0 {
		if a, err := crop.AreaFor(p.Crop, int(p.PlantsCount)); err == nil {
			return float64(a)
		}
	}
	return math.Max(0.01, s.bed(p.BedID).AreaM2)
}

func (g *growing) windows() []crop.Window {
	var list []crop.Window
	for _, st := range g.stands {
		if st.known {
			list = append(list, st.window)
		}
	}
	return list
}

// wants are what the household uses.
func (g *growing) wants() []crop.Want {
	var list []crop.Want
	for _, c := range g.Crops {
		if c.UseKgPerWeek > 0 {
			list = append(list, crop.Want{Crop: c.Crop, PerWeek: quantity.Kilograms(c.UseKgPerWeek), Past: g.past[c.Crop]})
		}
	}
	return list
}

// ForecastBearing says what bears when, and where gaps and gluts lie.
func (s *Service) ForecastBearing(ctx context.Context, in *freshetv1.ForecastBearingRequest) (*freshetv1.ForecastBearingResponse, error) {
	place, err := s.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	g, err := place.growing(ctx, s.at(in.GetAt()))
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ForecastBearingResponse{}
	for _, st := range g.stands {
		out.Windows = append(out.Windows, g.bears(st))
	}
	for _, want := range g.wants() {
		weeks, err := g.weeks(want)
		if err != nil {
			return nil, err
		}
		out.GapsAndGluts = append(out.GapsAndGluts, weeks...)
	}
	return out, nil
}

func (g *growing) bears(st stand) *freshetv1.BearingWindow {
	b := &freshetv1.BearingWindow{PlantingId: st.ID.String(), Crop: st.Crop, BedName: st.bed.Name, Answer: &freshetv1.Answer{Name: "bearing_window", Standing: well}}
	if !st.known {
		b.Answer.Standing = unknown
		b.Answer.Sentence = fmt.Sprintf("When %s in %s bears is not in the crop table.", st.Crop, st.bed.Name)
		if st.never != nil {
			b.Answer.Sentence = fmt.Sprintf("%s in %s does not come to bear: it is too cool or too dark.", st.Crop, st.bed.Name)
		}
		return b
	}
	w := st.window
	b.EarliestOn, b.MiddleOn, b.LatestOn, b.EndsOn = w.Early.String(), w.First.String(), w.Late.String(), w.Last.String()
	b.Harvest = estimate(float64(w.PerWeek)*float64(w.Last-w.First+1)/7, "kg")
	verb := "should bear"
	if g.today >= w.First {
		verb = "bears"
	}
	b.Answer.Sentence = fmt.Sprintf("%s in %s %s from about %s to %s, some %s kg a week.", st.Crop, st.bed.Name, verb, w.First.Words(), w.Last.Words(), show(float64(w.PerWeek), 2))
	b.Answer.Estimate = between(float64(w.First-g.today), float64(w.Early-g.today), float64(w.Late-g.today), 0.8, "days to first harvest")
	b.Answer.Source = "crop table, drawn towards own past plantings"
	if g.clime(st.bed).Air != nil {
		b.Answer.Source += "; at the pace of warmth and ten hours of light"
	}
	b.Answer.Inputs = []*freshetv1.InputUsed{
		setting("planted", float64(w.Planting.Planted), "day "+w.Planting.Planted.String(), "sowing"), setting("area", float64(w.Planting.Area), "m2", st.bed.Name),
		setting("share from own past plantings", float64(w.OwnShare)*100, "percent", "own record"),
	}
	if st.warning != "" {
		b.Answer.Cautions = []string{st.warning}
	}
	return b
}

// weeks tells one wanted crop's supply less use, week by week.
func (g *growing) weeks(want crop.Want) ([]*freshetv1.CropWeek, error) {
	monday := g.today.Monday()
	stretches, err := crop.GapsAndGluts(g.windows(), want, crop.Span{First: monday, Last: monday + 7*seasonWeeks - 1})
	var list []*freshetv1.CropWeek
	for _, st := range stretches {
		for d := st.First; d <= st.Last; d += 7 {
			list = append(list, &freshetv1.CropWeek{Crop: want.Crop, WeekOn: d.String(), SurplusKg: float64(crop.Supply(g.windows(), want.Crop, d)) - float64(want.PerWeek)})
		}
	}
	return list, err
}

// SuggestSowing is this week's sowing list.
func (s *Service) SuggestSowing(ctx context.Context, in *freshetv1.SuggestSowingRequest) (*freshetv1.SuggestSowingResponse, error) {
	place, err := s.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	g, err := place.growing(ctx, s.at(in.GetAt()))
	if err != nil {
		return nil, err
	}
	return g.sow()
}

func (g *growing) sow() (*freshetv1.SuggestSowingResponse, error) {
	out := &freshetv1.SuggestSowingResponse{}
	wants := g.wants()
	if len(wants) == 0 {
		out.Sentence = "Nothing is wanted: say what the household uses in a week, crop by crop."
		return out, nil
	}
	list, err := crop.SowThisWeek(g.windows(), wants, g.beds(), g.season())
	if err != nil {
		return nil, err
	}
	var why []string
	for _, line := range list {
		if line.Area > 0 {
			out.Suggestions = append(out.Suggestions, g.suggestion(line))
		} else {
			why = append(why, line.Crop+": "+line.Reason)
		}
	}
	out.Sentence = sowingWords(out.Suggestions, why)
	if len(out.Suggestions) > 0 && g.dark() {
		out.Cautions = append(out.Cautions, g.darkWords())
	}
	for _, st := range g.stands {
		if st.warning != "" {
			out.Cautions = append(out.Cautions, st.bed.Name+": "+st.warning)
		}
	}
	return out, nil
}

// dark tells whether today is shorter than the ten hours below which little grows.
func (g *growing) dark() bool {
	if g.Site.Latitude == nil {
		return false
	}
	hours, err := crop.DaylightHours(crop.Degrees(*g.Site.Latitude), g.today.YearDay())
	return err == nil && hours < 10
}

// darkWords say what short days do to what is sown.
func (g *growing) darkWords() string {
	if g.covered.Air != nil {
		return "Days are shorter than ten hours: what is sown now hardly grows until they lengthen. The days said count with that."
	}
	return "Days are shorter than ten hours: what is sown now hardly grows until they lengthen, and may bear weeks later than said."
}

func sowingWords(list []*freshetv1.SowingSuggestion, why []string) string {
	sentence := "Sow " + counted(len(list), "thing") + " this week, each for the next gap of its own crop. The season's plan weighs every week of all crops against the beds, and may sow others first."
	if len(list) == 0 {
		sentence = "Nothing needs sowing this week."
	}
	for _, w := range why {
		sentence += "\n" + w
	}
	return sentence
}

func (g *growing) suggestion(line crop.Sowing) *freshetv1.SowingSuggestion {
	s := &freshetv1.SowingSuggestion{
		Crop: line.Crop, BedName: line.Bed, Area: estimate(float64(line.Area), "m2"), BearsFromOn: line.First.String(),
		Answer: &freshetv1.Answer{Name: "sowing", Standing: well, Source: "crop table, own past plantings, beds free", Sentence: fmt.Sprintf("Sow %s m2 of %s in %s, %s.", show(float64(line.Area), 2), line.Crop, line.Bed, line.Reason)},
	}
	var bed store.Bed
	for _, b := range g.Beds {
		if b.Name == line.Bed {
			s.BedId = b.ID.String()
			bed = b
		}
	}
	if seeds, err := crop.SeedsNeeded(line.Plants, 0.8, 0.2); err == nil && line.Plants > 0 {
		s.SeedsCount = uint32(seeds)
	}
	if w, err := crop.BearingWindow(crop.Planting{Crop: line.Crop, Planted: g.today, Area: line.Area}, g.past[line.Crop], g.clime(bed)); err == nil {
		s.BearsToOn = w.Last.String()
	}
	return s
}

// beds gives each bed's free area for the weeks to come.
func (g *growing) beds() []crop.Bed {
	var list []crop.Bed
	for _, b := range g.Beds {
		bed := crop.Bed{Name: b.Name, Covered: b.Covered, Clime: g.clime(b)}
		for week := range 2 * seasonWeeks {
			bed.Free = append(bed.Free, quantity.SquareMetres(math.Max(0, b.AreaM2-g.taken(b.ID, g.today+crop.Day(7*week)))))
		}
		list = append(list, bed)
	}
	return list
}

// taken is what plantings cover of a bed on a day.
func (g *growing) taken(bed uuid.UUID, on crop.Day) float64 {
	sum := 0.0
	for _, st := range g.stands {
		if st.BedID == bed && (!st.known || st.window.Last >= on) {
			sum += g.area(st.Planting)
		}
	}
	return sum
}

// season bounds what may stand in the open by the site's usual frosts.
func (g *growing) season() crop.Season {
	open := crop.Season{Today: g.today, LastFrost: g.today - 1, FirstFrost: g.today + 400}
	last, err1 := time.Parse("01-02", g.Site.LastFrost)
	first, err2 := time.Parse("01-02", g.Site.FirstFrost)
	if errors.Join(err1, err2) != nil {
		return open // no frost is said, so none is feared
	}
	year := g.today.Year()
	open.LastFrost, open.FirstFrost = inYear(last, year), inYear(first, year)
	across := open.FirstFrost <= open.LastFrost // the warm season runs over New Year
	switch {
	case across && g.today < open.FirstFrost:
		open.LastFrost = inYear(last, year-1)
	case across:
		open.FirstFrost = inYear(first, year+1)
	case g.today >= open.FirstFrost:
		open.LastFrost, open.FirstFrost = inYear(last, year+1), inYear(first, year+1)
	}
	return open
}

func inYear(t time.Time, year int) crop.Day {
	return dayOf(time.Date(year, t.Month(), t.Day(), 0, 0, 0, 0, time.UTC), time.UTC)
}
