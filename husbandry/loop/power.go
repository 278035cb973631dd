package loop

import "freshet.example/husbandry/quantity"

// DailyEnergy returns what a device uses a day from its power and hours of running.
func DailyEnergy(power quantity.Watts, hours quantity.Hours) (KilowattHours, error) {
	if err := firstError(powerBound.check(float64(power)), dayBound.check(float64(hours))); err != nil {
		return 0, err
	}
	return KilowattHours(float64(power) * float64(hours) * secondsPerHour / joulesPerKWh), nil
}

// BackupTime returns how long a battery carries a load: its energy, the share
// that may be used (about 0.5 for lead, 0.8 for lithium: common practice, no
// source), and the efficiency of the inverter.
func BackupTime(battery WattHours, usable, efficiency quantity.Fraction, load quantity.Watts) (quantity.Hours, error) {
	err := firstError(batteryBound.check(float64(battery)), usableBound.check(float64(usable)),
		efficiencyBound.check(float64(efficiency)), loadBound.check(float64(load)))
	if err != nil {
		return 0, err
	}
	return quantity.Hours(float64(battery) * float64(usable) * float64(efficiency) / float64(load)), nil
}

// BatteryFor returns the battery that carries a load for some hours.
func BatteryFor(load quantity.Watts, hours quantity.Hours, usable, efficiency quantity.Fraction) (WattHours, error) {
	err := firstError(loadBound.check(float64(load)), backupBound.check(float64(hours)),
		usableBound.check(float64(usable)), efficiencyBound.check(float64(efficiency)))
	if err != nil {
		return 0, err
	}
	return WattHours(float64(load) * float64(hours) / float64(usable) / float64(efficiency)), nil
}

// MonthlyCost returns what energy costs over some days, in the currency of the
// price per kilowatt-hour.
func MonthlyCost(perDay KilowattHours, price float64, days quantity.Days) (float64, error) {
	err := firstError(energyBound.check(float64(perDay)), priceBound.check(price), daysBound.check(float64(days)))
	if err != nil {
		return 0, err
	}
	return float64(perDay) * price * float64(days), nil
}
