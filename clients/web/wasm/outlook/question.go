//go:build wasip1

package main

import (
	"math"

	"freshet.example/clients/web/wasm/passage"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
)

func loop(in *passage.Numbers) outlook.Loop {
	return outlook.Loop{
		Litres: quantity.Litres(in.Next()), Media: quantity.SquareMetres(in.Next()), Planted: quantity.SquareMetres(in.Next()), Pressure: quantity.Atmospheres(in.Next()),
		SourceAlkalinity: quantity.AlkalinityCaCO3(in.Next()), SourceNitrate: quantity.NitrateN(in.Next()),
	}
}

func hours(in *passage.Numbers) []outlook.Hour {
	list := make([]outlook.Hour, in.Count())
	for i := range list {
		list[i] = outlook.Hour{
			Air: in.Next(), Sun: in.Next(), Feed: in.Next(), Fish: in.Next(), Changed: in.Next(), Base: in.Next(), Still: in.Next() == 1, Cleaned: in.Next() == 1,
		}
	}
	return list
}

func readings(in *passage.Numbers) []outlook.Reading {
	list := make([]outlook.Reading, in.Count())
	for i := range list {
		list[i] = outlook.Reading{Hour: in.Whole(), Figure: outlook.Figure(in.Whole()), Value: in.Next(), Below: in.Next() == 1}
	}
	return list
}

func otherwise(in *passage.Numbers) outlook.Otherwise {
	return outlook.Otherwise{
		FeedShare: quantity.Fraction(in.Next()), UnfedDays: in.Whole(), AddedFish: quantity.Kilograms(in.Next()), StillHours: in.Whole(),
		AirWarmer: in.Next(), Replaced: quantity.Fraction(in.Next()),
	}
}

// asked is a figure that is told of.
type asked struct {
	figure outlook.Figure
	side   outlook.Side
	limit  float64 // NaN where there is none
	least  bool
}

func figures(in *passage.Numbers) []asked {
	list := make([]asked, in.Count())
	for i := range list {
		list[i] = asked{outlook.Figure(in.Whole()), outlook.Side(in.Whole()), in.Next(), in.Next() == 1}
	}
	return list
}

func (f asked) tell(w *passage.Writer, a *outlook.Ahead) error {
	by, share, err := a.Narrowing(f.figure, f.side, (a.Days()-1)/2)
	if err != nil {
		return err
	}
	w.Number(float64(by))
	w.Number(float64(share))
	for day := range a.Days() {
		fan, err := a.Fan(f.figure, f.side, day, level)
		if err != nil {
			return err
		}
		passes := quantity.Fraction(0)
		if !math.IsNaN(f.limit) {
			if passes, err = a.Past(f.figure, day, f.limit, !f.least); err != nil {
				return err
			}
		}
		for _, v := range []float64{fan.Low, fan.Middle, fan.High, float64(passes)} {
			w.Number(v)
		}
	}
	return nil
}
