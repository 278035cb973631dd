package store

import (
	"bytes"
	"cmp"
	"maps"
	"slices"
	"time"

	"github.com/google/uuid"
)

// A bin is a span of values of one quantity, about as wide as a usual kit or
// probe tells apart. How many readings of a month lie in each bin is kept, for
// shares of time and for quantiles. A width stays for ever: what was counted
// cannot be counted anew by another one without reading all there is.

// binMicro are the widths by the contract's number of the quantity, in
// millionths of its canonical unit.
var binMicro = map[int16]int64{
	1:  500_000,    // water temperature, 0.5 K
	2:  500_000,    // air temperature
	3:  100_000,    // pH
	4:  50_000,     // ammonia, 0.05 mg/L as N
	5:  50_000,     // nitrite
	6:  5_000_000,  // nitrate, 5 mg/L as N
	7:  250_000,    // oxygen, 0.25 mg/L
	8:  5_000_000,  // oxygen saturation, 5 %
	9:  10_000_000, // alkalinity, 10 mg/L
	10: 10_000_000, // hardness
	11: 50_000_000, // conductivity, 50 uS/cm
	12: 250_000,    // salinity
	13: 1_000_000,  // carbon dioxide, 1 mg/L
	14: 100_000,    // iron
	15: 500_000,    // phosphate
	16: 5_000_000,  // potassium
	17: 10_000_000, // calcium
	18: 20_000,     // chlorine, 0.02 mg/L
	19: 10_000_000, // chloride
	20: 50_000_000, // flow, 50 L/h
	21: 20_000,     // level, 2 cm
	22: 50_000_000, // light, 50 umol/m2/s
	23: 5_000_000,  // humidity, 5 %
	24: 2_000_000,  // pressure, 2 hPa
	27: 5_000_000,  // magnesium
}

// widthMicro is the width of a quantity's bins in millionths of its canonical
// unit: bin k holds values from k widths up to, not including, k+1. Quantities
// that are words have a bin a word.
func widthMicro(quantity int16) int64 {
	if width, ok := binMicro[quantity]; ok {
		return width
	}
	return 1_000_000
}

// binOf rounds towards lower values, as SQL's floor does.
func binOf(quantity int16, micro int64) int32 {
	width := widthMicro(quantity)
	bin := micro / width
	if micro%width < 0 {
		bin--
	}
	return int32(bin)
}

// binKey is one row of the table monthly_bins.
type binKey struct {
	site     uuid.UUID
	quantity int16
	subject  uuid.UUID
	month    day
	bin      int32
}

// bin is where a value of a day falls.
func (k sumKey) bin(micro int64) binKey {
	return binKey{k.site, k.quantity, k.subject, k.day.month(), binOf(k.quantity, micro)}
}

func (p *Pushing) queueBins(bins map[binKey]int64) {
	if len(bins) == 0 {
		return
	}
	var sites, subjects []uuid.UUID
	var quantities []int16
	var months []time.Time
	var numbers []int32
	var counts []int64
	for _, key := range slices.SortedFunc(maps.Keys(bins), compareBins) {
		sites, subjects, quantities = append(sites, key.site), append(subjects, key.subject), append(quantities, key.quantity)
		months, numbers, counts = append(months, key.month.time()), append(numbers, key.bin), append(counts, bins[key])
	}
	p.batch.Queue(`INSERT INTO monthly_bins AS b (site_id, quantity, subject_id, month, bin, n)
		SELECT * FROM unnest($1::uuid[], $2::smallint[], $3::uuid[], $4::date[], $5::integer[], $6::bigint[])
		ON CONFLICT (quantity, site_id, month, subject_id, bin) DO UPDATE SET n = b.n + EXCLUDED.n`,
		sites, quantities, subjects, months, numbers, counts)
}

// queueBinsAgain counts a month's readings of one quantity anew.
func (p *Pushing) queueBinsAgain(month touchedDay) error {
	z, err := p.zone(month.site)
	if err != nil {
		return err
	}
	start, _ := z.bounds(month.day)
	end, _ := z.bounds(month.day.next())
	p.batch.Queue("DELETE FROM monthly_bins WHERE quantity = $1 AND site_id = $2 AND month = $3", month.quantity, month.site, month.day.time())
	p.batch.Queue(`INSERT INTO monthly_bins (site_id, quantity, subject_id, month, bin, n)
		SELECT site_id, quantity, coalesce(place_id, '00000000-0000-0000-0000-000000000000'), $3::date, floor(value_micro / $6::numeric), count(*)
		FROM readings WHERE quantity = $1 AND site_id = $2 AND occurred_at >= $4 AND occurred_at < $5 AND corrected_by IS NULL GROUP BY 1, 2, 3, 5`,
		month.quantity, month.site, month.day.time(), start, end, widthMicro(month.quantity))
	return nil
}

func compareBins(a, b binKey) int {
	return cmp.Or(cmp.Compare(a.quantity, b.quantity), bytes.Compare(a.site[:], b.site[:]), cmp.Compare(a.month, b.month),
		bytes.Compare(a.subject[:], b.subject[:]), cmp.Compare(a.bin, b.bin))
}
