package wire

import freshetv1 "freshet.example/api/freshet/v1"

// FeedingRow is one feeding of a column message.
type FeedingRow struct {
	Number     uint64 // running number of the operation
	Site       string // id
	Vessel     string // id, or empty
	Cohort     string // id, or empty
	Feed       string // id, or empty
	OccurredMs int64
	EnteredMs  int64 // the device's wall clock
	MassG      float64
}

// EncodeFeedings packs rows whose numbers run on without gaps; see EncodeReadings.
func EncodeFeedings(rows []FeedingRow, noted *freshetv1.Noted) *freshetv1.FeedingColumns {
	mustRun(len(rows), func(i int) uint64 { return rows[i].Number })
	c := &freshetv1.FeedingColumns{FirstNumber: rows[0].Number, Count: uint32(len(rows)), Noted: noted}
	ids := newDictionary(&c.Ids)
	var occurred, after delta
	for i := range rows {
		r := &rows[i]
		c.Sites = append(c.Sites, ids.index(r.Site))
		c.Vessels = append(c.Vessels, ids.optional(r.Vessel))
		c.Cohorts = append(c.Cohorts, ids.optional(r.Cohort))
		c.Feeds = append(c.Feeds, ids.optional(r.Feed))
		c.OccurredMs = append(c.OccurredMs, occurred.next(r.OccurredMs))
		c.EnteredAfterMs = append(c.EnteredAfterMs, after.next(r.EnteredMs-r.OccurredMs))
		c.MassesG = append(c.MassesG, r.MassG)
	}
	c.Sites, c.Vessels, c.Cohorts, c.Feeds = fold(c.Sites), fold(c.Vessels), fold(c.Cohorts), fold(c.Feeds)
	c.OccurredMs, c.EnteredAfterMs, c.MassesG = foldZero(c.OccurredMs), foldZero(c.EnteredAfterMs), fold(c.MassesG)
	return c
}

// EachFeeding calls each for every row in order, and stops at its first error.
func EachFeeding(c *freshetv1.FeedingColumns, each func(*FeedingRow) error) error {
	n := int(c.GetCount())
	if !feedingColumnsFit(c, n) {
		return ErrColumns
	}
	var row FeedingRow
	var occurred, after int64
	for i := range n {
		occurred += at(c.OccurredMs, i)
		after += at(c.EnteredAfterMs, i)
		site, ok1 := named(c.Ids, at(c.Sites, i)+1)
		vessel, ok2 := named(c.Ids, at(c.Vessels, i))
		cohort, ok3 := named(c.Ids, at(c.Cohorts, i))
		feed, ok4 := named(c.Ids, at(c.Feeds, i))
		if !ok1 || !ok2 || !ok3 || !ok4 {
			return ErrColumns
		}
		row = FeedingRow{
			Number: c.FirstNumber + uint64(i), Site: site, Vessel: vessel, Cohort: cohort, Feed: feed,
			OccurredMs: occurred, EnteredMs: occurred + after, MassG: at(c.MassesG, i),
		}
		if err := each(&row); err != nil {
			return err
		}
	}
	return nil
}

func feedingColumnsFit(c *freshetv1.FeedingColumns, n int) bool {
	return n > 0 && n <= MaxRows && c.GetFirstNumber() > 0 && c.GetFirstNumber() <= MaxNumber-MaxRows &&
		fits(c.Sites, n) && fits(c.Vessels, n) && fits(c.Cohorts, n) && fits(c.Feeds, n) &&
		whole(c.OccurredMs, n) && whole(c.EnteredAfterMs, n) && fits(c.MassesG, n)
}
