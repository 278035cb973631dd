package analysis

import (
	"context"
	"strings"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// ListSeries gives one quantity over time, for plots.
func (s *Service) ListSeries(ctx context.Context, in *freshetv1.ListSeriesRequest) (*freshetv1.ListSeriesResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	measured, err := quantityOf(in.GetQuantity())
	if err != nil {
		return nil, err
	}
	to := s.at(in.GetTo())
	from := to.AddDate(0, 0, -28)
	if in.GetFrom() != nil {
		from = in.GetFrom().AsTime()
	}
	if !from.Before(to) {
		return nil, &FieldError{"from", "lies after to"}
	}
	points := in.GetPoints()
	if points == 0 {
		points = 500
	}
	if points > 5000 {
		return nil, &FieldError{"points", "is more than 5000"}
	}
	places := l.places()
	if in.GetPlaceId() != "" {
		id, err := parseID("place_id", in.GetPlaceId())
		if err != nil {
			return nil, err
		}
		places = []uuid.UUID{id}
	}
	step := max(time.Second, to.Sub(from)/time.Duration(points)).Round(time.Second)
	found, err := l.store.Series(ctx, l.Site.ID, int16(in.GetQuantity()), places, from, to, step)
	out := &freshetv1.ListSeriesResponse{Unit: measured.Unit().String()}
	for _, p := range found {
		out.Points = append(out.Points, &freshetv1.SeriesPoint{At: timestamppb.New(p.At), Mean: p.Mean, Low: p.Low, High: p.High, Count: uint32(p.Count)})
	}
	return out, err
}

// quantityOf finds the contract's quantity in husbandry's table, by name.
func quantityOf(q freshetv1.Quantity) (quantity.Quantity, error) {
	measured, err := quantity.ParseQuantity(strings.ToLower(strings.TrimPrefix(q.String(), "QUANTITY_")))
	if err != nil {
		return measured, &FieldError{"quantity", "is not one that is read"}
	}
	return measured, nil
}
