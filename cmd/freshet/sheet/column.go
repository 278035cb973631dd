package sheet

import (
	"strconv"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

// Role is what a column is for.
type Role int

// The roles a column can have.
const (
	Skipped  Role = iota
	When          // day, or day and time
	Clock         // time of day, beside a day
	Place         // where; the name of a vessel, a bed or a cohort
	What          // long sheets: the quantity
	Value         // long sheets: its value
	UnitOf        // long sheets: its unit, perhaps with its basis
	BasisOf       // long sheets: its basis
	Measured      // wide sheets: values of one quantity
	Counted       // wide sheets: the first field of another noun
	Field         // a field of the kind of entry that the whole sheet holds
)

// A Column is what one column of a sheet means.
type Column struct {
	Header   string
	Role     Role
	Quantity freshetv1.Quantity // Measured
	Kit      words.Kit          // Measured: what its values are in, where they do not say
	Noun     string             // Counted
	Name     string             // Field: its name
	At       string             // Measured, Counted: the place or cohort, where the column has its own
	wished   bool               // a person said what it is
	Unread   string             // Skipped: what its header says of a known quantity's unit, which is none
}

// Says tells what a column means, for a person to check.
func (c Column) Says() string {
	switch c.Role {
	case When:
		return "when"
	case Clock:
		return "time of day"
	case Place:
		return "where"
	case What:
		return "what was measured"
	case Value:
		return "its value"
	case UnitOf:
		return "its unit"
	case BasisOf:
		return "its basis"
	case Measured:
		return words.Known(c.Quantity).Title() + c.Kit.String() + c.there()
	case Counted:
		return strings.ReplaceAll(c.Noun, "_", " ") + c.Kit.String() + c.there()
	case Field:
		if c.Name == "each" {
			return "what one weighs"
		}
		return strings.ReplaceAll(strings.TrimSuffix(c.Name, "_id"), "_", " ")
	}
	if c.Unread != "" {
		return "left out: \"" + c.Unread + "\" is no unit of " + words.Known(c.Quantity).Title() + " known here; --unit says which"
	}
	return "left out"
}

func (c Column) there() string {
	if c.At == "" {
		return ""
	}
	return ", " + c.At
}

// everyday names of columns that are no quantities.
var everyday = map[string]Role{
	"date": When, "day": When, "when": When, "timestamp": When, "datetime": When, "date_time": When, "date/time": When,
	"time": Clock, "hour": Clock, "clock": Clock,
	"place": Place, "tank": Place, "where": Place, "location": Place, "vessel": Place, "bed": Place, "at": Place,
	"quantity": What, "parameter": What, "what": What, "measure": What, "measurement": What, "test": What, "variable": What, "sensor": What, "analyte": What,
	"value": Value, "result": Value, "reading": Value, "unit": UnitOf, "units": UnitOf, "basis": BasisOf, "as": BasisOf,
}

// counted are everyday names of columns of wide sheets that are other nouns.
var counted = map[string]string{
	"feed": "feeding", "feeding": "feeding", "fed": "feeding", "food": "feeding",
	"deaths": "death", "dead": "death", "death": "death", "mortality": "death", "losses": "death",
	"water_added": "water_in", "water_in": "water_in", "top_up": "water_in", "topup": "water_in",
	"water_out": "water_out", "water_drained": "water_out", "energy": "energy", "electricity": "energy",
	"labour": "labour", "labor": "labour", "note": "note", "notes": "note", "remarks": "note", "comment": "note", "comments": "note",
}

// guess reads a header: "Ammonia (ppm as NH3)", "Temp °F", "water_temp_c",
// "Feed g", "Date", "Fecha".
func guess(header string) Column {
	c := Column{Header: header}
	name, spec := parted(header)
	name = inEnglish(name)
	if role, ok := everyday[words.Snake(name)]; ok && spec == "" {
		c.Role = role
		return c
	}
	name = strings.ReplaceAll(name+" ", "-N ", " N ") // "NO3-N mg/L" counts nitrogen
	parts := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '_' || r == ',' })
	for n := len(parts); n > 0; n-- {
		rest := strings.TrimSpace(strings.Join(parts[n:], " ") + " " + spec)
		kit, ok := kitOf(rest)
		if !ok {
			continue
		}
		short := strings.Join(parts[:n], "_")
		if q, ok := words.QuantityCalled(short); ok {
			c.Role, c.Quantity, c.Kit = Measured, q, kit
			return c
		}
		if noun, ok := counted[words.Snake(short)]; ok {
			c.Role, c.Noun, c.Kit = Counted, noun, kit
			return c
		}
	}
	if q, ok := words.QuantityCalled(strings.Join(parts, "_")); ok && spec != "" && words.Known(q).Words() == nil {
		c.Quantity, c.Unread = q, spec
		c.read()
	}
	return c
}

// read lets a column be measured whose unit is known by now, or which needs none.
func (c *Column) read() {
	if c.Unread != "" && (c.Kit != words.Kit{} || c.Quantity == freshetv1.Quantity_QUANTITY_PH) {
		c.Role, c.Unread = Measured, ""
	}
}

// parted takes what stands in brackets out of a header.
func parted(header string) (name, spec string) {
	open := strings.IndexAny(header, "([")
	if open < 0 {
		return header, ""
	}
	end := strings.IndexAny(header, ")]")
	if end < open {
		return header[:open], header[open+1:]
	}
	return strings.TrimSpace(header[:open] + header[end+1:]), header[open+1 : end]
}

// kitOf reads a unit, a basis or both, as headers and flags write them; empty
// text is a kit that says nothing.
func kitOf(text string) (words.Kit, bool) {
	if text == "" {
		return words.Kit{}, true
	}
	text = strings.ReplaceAll(text, " como ", " as ")
	if u, b, err := quantity.ParseUnit(text); err == nil {
		return words.Kit{Unit: u, Basis: b}, true
	}
	if b, err := quantity.ParseBasis(text); err == nil {
		return words.Kit{Basis: b}, true
	}
	// "as NO3, mg/L" and "NO3 mg/L": the basis first.
	first, rest, found := strings.Cut(strings.TrimPrefix(strings.TrimSpace(text), "as "), " ")
	b, err := quantity.ParseBasis(strings.Trim(first, ","))
	u, _, unitErr := quantity.ParseUnit(strings.Trim(rest, ", "))
	return words.Kit{Unit: u, Basis: b}, found && err == nil && unitErr == nil
}

func many(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
