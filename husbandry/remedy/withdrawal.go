package remedy

import "freshet.example/husbandry/quantity"

// A Withdrawal is how many days must pass between treatment and eating the fish.
type Withdrawal struct {
	Drug    string
	Species string
	Days    quantity.Days
	Source  string
}

const cvm = "FDA CVM Appendix 11 (from memory)"

// withdrawals: United States, as printed; other countries differ.
var withdrawals = []Withdrawal{
	{"formalin", "all finfish", 0, "UF/IFAS VM061"},
	{"salt", "all finfish", 0, "tilapia salt treatment text"},
	{"oxytetracycline feed", "approved species", 21, cvm},
	{"florfenicol feed", "approved species", 15, cvm},
	{"ormetoprim-sulfadimethoxine feed", "salmonids trout salmon", 42, cvm},
	{"ormetoprim-sulfadimethoxine feed", "channel catfish", 3, cvm},
	{"tricaine methanesulfonate MS-222", "approved species", 21, cvm},
	{"hydrogen peroxide", "approved species", 0, cvm},
	{"chloramine-T", "approved species", 0, cvm},
}

// Withdrawals returns the rows whose drug and species hold the words asked for;
// an empty species asks for all.
func Withdrawals(drug, species string) ([]Withdrawal, error) {
	var found []Withdrawal
	for _, w := range withdrawals {
		if drug != "" && likes(w.Drug+" "+w.Species, drug+" "+species) {
			found = append(found, w)
		}
	}
	if found == nil {
		return nil, &NotKnownError{"the waiting days of " + drug + " " + species}
	}
	return found, nil
}

// WithdrawalDays returns the longest of the published waiting days that fit.
func WithdrawalDays(drug, species string) (quantity.Days, error) {
	found, err := Withdrawals(drug, species)
	longest := quantity.Days(0)
	for _, w := range found {
		longest = max(longest, w.Days)
	}
	return longest, err
}

// A Depletion is how long a residue took to fall to a level in a trial.
type Depletion struct {
	Celsius quantity.Celsius
	Days    quantity.Days
}

// florfenicol: days to 1 ug/g in muscle and skin of Nile tilapia (J Aquat Anim
// Health 2009 21:8-13, abstract).
var florfenicol = [...]Depletion{{25, 6.1}, {30, 4.1}}

// FlorfenicolDepletion returns the days in which florfenicol fell to 1 ug/g in
// Nile tilapia, at the two temperatures of the trial, 25 and 30 degC. It is no
// withdrawal period.
func FlorfenicolDepletion(water quantity.Celsius) (quantity.Days, error) {
	for _, d := range florfenicol {
		if d.Celsius == water {
			return d.Days, nil
		}
	}
	return 0, &NotKnownError{"florfenicol in tilapia at " + short(float64(water)) + " degC"}
}
