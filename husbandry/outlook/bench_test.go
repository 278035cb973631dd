package outlook

import "testing"

// BenchmarkLearn is six weeks of probes and tests, with forecasts from its days.
func BenchmarkLearn(b *testing.B) {
	past, readings, _ := lived(b, plain(), 42)
	for b.Loop() {
		if _, err := Learn(barn, past, readings, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkMemberYear is one guess through a year of hours.
func BenchmarkMemberYear(b *testing.B) {
	l := simulatedBarn(b, asIs)
	for b.Loop() {
		m := plain()
		for range 365 * 24 {
			l.hour(&m, Hour{Air: 20, Feed: 2.5, Fish: 60})
		}
	}
}
