package analysis

import (
	"fmt"
	"math"
	"time"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

func estimate(value float64, unit string) *freshetv1.Estimate {
	return &freshetv1.Estimate{Value: value, Unit: unit}
}

func between(value, low, high, confidence float64, unit string) *freshetv1.Estimate {
	return &freshetv1.Estimate{Value: value, Unit: unit, Low: proto.Float64(low), High: proto.Float64(high), Confidence: confidence}
}

func input(name string, value float64, unit string, at time.Time, from string) *freshetv1.InputUsed {
	used := &freshetv1.InputUsed{Name: name, Estimate: estimate(value, unit), From: from}
	if !at.IsZero() {
		used.ObservedAt = timestamppb.New(at)
	}
	return used
}

// setting is an input that no reading gave.
func setting(name string, value float64, unit, from string) *freshetv1.InputUsed {
	return input(name, value, unit, time.Time{}, from)
}

func show(v float64, figures int) string { return quantity.Show(v, figures) }

// ago says how long before a moment something was, as a person would.
func ago(then, now time.Time) string {
	hours := now.Sub(then).Hours()
	switch {
	case hours < 1.5:
		return "within the hour"
	case hours < 36:
		return fmt.Sprintf("%.0f hours ago", hours)
	default:
		return fmt.Sprintf("%.0f days ago", math.Round(hours/24))
	}
}

// counted writes a number with its noun: "1 day", "3 days".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// stale says so where a value is older than allowed.
func stale(answer *freshetv1.Answer, name string, then, now time.Time, allowed time.Duration) {
	if now.Sub(then) > allowed {
		answer.Missing = append(answer.Missing, fmt.Sprintf("%s was last read %s; read it anew", name, ago(then, now)))
	}
}

// worse gives the more pressing of two standings.
func worse(a, b freshetv1.Standing) freshetv1.Standing {
	if urgency(b) > urgency(a) {
		return b
	}
	return a
}

// urgency orders standings for a reader: not knowing comes before doing well.
func urgency(s freshetv1.Standing) int {
	switch s {
	case freshetv1.Standing_STANDING_ACT:
		return 3
	case freshetv1.Standing_STANDING_WATCH:
		return 2
	case freshetv1.Standing_STANDING_UNKNOWN:
		return 1
	}
	return 0
}
