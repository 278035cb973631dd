package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// solarConstant is the sun's energy above the air, MJ/m2 in a minute (FAO-56 eq. 21).
const solarConstant = 0.0820

func yearDay(j int) error {
	return yearDayBound.check(float64(j))
}

func latitude(lat Degrees) error {
	return latitudeBound.check(float64(lat))
}

// InverseDistance returns the square of the mean over the actual distance from
// sun to earth, on the day of the year 1 to 366.
func InverseDistance(j int) (float64, error) {
	if err := yearDay(j); err != nil {
		return 0, err
	}
	return inverseDistance(j), nil
}

func inverseDistance(j int) float64 {
	return 1 + 0.033*math.Cos(2*math.Pi/365*float64(j)) // FAO-56 eq. 23
}

// SolarDeclination returns the sun's angle over the equator on the day of the
// year 1 to 366.
func SolarDeclination(j int) (Radians, error) {
	if err := yearDay(j); err != nil {
		return 0, err
	}
	return Radians(declination(j)), nil
}

func declination(j int) float64 {
	return 0.409 * math.Sin(2*math.Pi/365*float64(j)-1.39) // FAO-56 eq. 24
}

func radians(lat Degrees) float64 { return float64(lat) * math.Pi / 180 }

// SunsetHourAngle returns the angle through which the sun goes from noon to
// sunset. Latitude -90 to 90 degrees, declination -0.41 to 0.41. In polar night
// it is 0, in polar day half a turn.
func SunsetHourAngle(lat Degrees, decl Radians) (Radians, error) {
	err := firstError(latitude(lat), declinationBound.check(float64(decl)))
	if err != nil {
		return 0, err
	}
	return Radians(sunset(radians(lat), float64(decl))), nil
}

func sunset(lat, decl float64) float64 {
	x := -math.Tan(lat) * math.Tan(decl) // FAO-56 eq. 25
	return math.Acos(bounded(x, -1, 1))
}

// DaylightHours returns the hours from sunrise to sunset.
func DaylightHours(lat Degrees, j int) (quantity.Hours, error) {
	if err := firstError(latitude(lat), yearDay(j)); err != nil {
		return 0, err
	}
	return daylight(lat, j), nil
}

func daylight(lat Degrees, j int) quantity.Hours {
	return quantity.Hours(24 / math.Pi * sunset(radians(lat), declination(j))) // FAO-56 eq. 34
}

// ExtraterrestrialRadiation returns the sun's energy above the air on a level
// square metre in a day, MJ.
func ExtraterrestrialRadiation(lat Degrees, j int) (MJPerM2, error) {
	if err := firstError(latitude(lat), yearDay(j)); err != nil {
		return 0, err
	}
	phi, decl := radians(lat), declination(j)
	ws := sunset(phi, decl)
	lit := ws*math.Sin(phi)*math.Sin(decl) + math.Cos(phi)*math.Cos(decl)*math.Sin(ws)
	return MJPerM2(24 * 60 / math.Pi * solarConstant * inverseDistance(j) * lit), nil // FAO-56 eq. 21
}

// A Meridian places a clock: both longitudes in degrees west of Greenwich.
type Meridian struct {
	Zone Degrees // centre of the time zone: 0 Greenwich, 75 New York, 345 Paris
	Here Degrees // the place itself
}

// HourAngle returns the sun's angle from noon at the middle of an hour, in
// standard clock time 0 to 24.
func HourAngle(j int, middle quantity.Hours, m Meridian) (Radians, error) {
	err := firstError(yearDay(j),
		clockBound.check(float64(middle)),
		meridianBound.checkAs("longitude of the time zone, west", float64(m.Zone)),
		meridianBound.check(float64(m.Here)))
	if err != nil {
		return 0, err
	}
	b := 2 * math.Pi * float64(j-81) / 364                                  // FAO-56 eq. 33
	season := 0.1645*math.Sin(2*b) - 0.1255*math.Cos(b) - 0.025*math.Sin(b) // FAO-56 eq. 32
	apart := 0.06667 * float64(m.Zone-m.Here)
	return Radians(math.Pi / 12 * (float64(middle) + apart + season - 12)), nil // FAO-56 eq. 31
}

// HourlyExtraterrestrialRadiation returns the sun's energy above the air on a
// level square metre in the hour around that hour angle, MJ. It is 0 when the
// sun is down at the middle of the hour.
func HourlyExtraterrestrialRadiation(lat Degrees, j int, middle Radians) (MJPerM2, error) {
	err := firstError(latitude(lat), yearDay(j), hourAngleBound.check(float64(middle)))
	if err != nil {
		return 0, err
	}
	phi, decl := radians(lat), declination(j)
	if math.Abs(float64(middle)) > sunset(phi, decl) {
		return 0, nil
	}
	from, to := float64(middle)-math.Pi/24, float64(middle)+math.Pi/24 // FAO-56 eq. 29 and 30
	lit := (to-from)*math.Sin(phi)*math.Sin(decl) + math.Cos(phi)*math.Cos(decl)*(math.Sin(to)-math.Sin(from))
	return MJPerM2(math.Max(0, 12*60/math.Pi*solarConstant*inverseDistance(j)*lit)), nil // FAO-56 eq. 28
}
