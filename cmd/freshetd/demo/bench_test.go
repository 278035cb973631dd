package demo

import (
	"context"
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
)

// BenchmarkAnswers asks each question over the fourteen months of Bracken Barn:
// four probes an hour and the hand's notes. Over gRPC, so the network of the
// machine itself is in the figure.
func BenchmarkAnswers(b *testing.B) {
	o := load(b)
	site := o.sites["Bracken Barn"]
	for name, ask := range map[string]func(context.Context) error{
		"morning": func(ctx context.Context) error {
			_, err := o.Analysis.GetMorning(ctx, &freshetv1.GetMorningRequest{SiteId: site})
			return err
		},
		"water": func(ctx context.Context) error {
			_, err := o.Analysis.DescribeWater(ctx, &freshetv1.DescribeWaterRequest{SystemId: o.barn})
			return err
		},
		"why": func(ctx context.Context) error {
			_, err := o.Analysis.ExplainChange(ctx, &freshetv1.ExplainChangeRequest{SystemId: o.barn})
			return err
		},
		"trouble": func(ctx context.Context) error {
			_, err := o.Analysis.EstimateTrouble(ctx, &freshetv1.EstimateTroubleRequest{SystemId: o.barn})
			return err
		},
		"ration": func(ctx context.Context) error {
			_, err := o.Analysis.SuggestRation(ctx, &freshetv1.SuggestRationRequest{SystemId: o.barn})
			return err
		},
		"budget": func(ctx context.Context) error {
			_, err := o.Analysis.GetNitrogenBudget(ctx, &freshetv1.GetNitrogenBudgetRequest{SystemId: o.barn})
			return err
		},
		"limits": func(ctx context.Context) error {
			_, err := o.Analysis.GetStockingLimits(ctx, &freshetv1.GetStockingLimitsRequest{SystemId: o.barn})
			return err
		},
		"ready": func(ctx context.Context) error {
			_, err := o.Analysis.ForecastFishHarvest(ctx, &freshetv1.ForecastFishHarvestRequest{SystemId: o.barn})
			return err
		},
		"bearing": func(ctx context.Context) error {
			_, err := o.Analysis.ForecastBearing(ctx, &freshetv1.ForecastBearingRequest{SiteId: site})
			return err
		},
		"sowing": func(ctx context.Context) error {
			_, err := o.Analysis.SuggestSowing(ctx, &freshetv1.SuggestSowingRequest{SiteId: site})
			return err
		},
		"larder": func(ctx context.Context) error {
			_, err := o.Analysis.GetLarder(ctx, &freshetv1.GetLarderRequest{SiteId: site})
			return err
		},
		"series": func(ctx context.Context) error {
			_, err := o.Analysis.ListSeries(ctx, &freshetv1.ListSeriesRequest{SystemId: o.barn, Quantity: freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE})
			return err
		},
		"comparison": func(ctx context.Context) error {
			_, err := o.Pool.CompareSites(ctx, &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, SiteId: site})
			return err
		},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := ask(b.Context()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkLoad makes the demo and pushes it through the public contract into
// a new database that keeps every commit on disk (fsync on).
func BenchmarkLoad(b *testing.B) {
	events, took := 0, 0.0
	for b.Loop() {
		o := load(b)
		events, took = events+o.loaded.Events, took+o.loaded.Took.Seconds()
	}
	b.ReportMetric(float64(events)/took, "events/s")
	b.ReportMetric(0, "ns/op") // the server's start and join are in it
}
