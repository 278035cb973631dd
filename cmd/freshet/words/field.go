package words

import (
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
)

// leading words lead to a record or a place, not to a field: at="Fish tank".
var leading = map[string]bool{
	"at": true, "in": true, "into": true, "to": true, "of": true, "on": true, "from": true, "for": true, "with": true, "by": true,
}

// leads are what a leading word means in one kind of message, where it is not
// simply the record that the message is about.
var leads = map[protoreflect.Name]map[string]protoreflect.Name{
	"Move":        {"from": "cohort_id", "to": "to_cohort_id", "into": "to_cohort_id"},
	"SolidsOut":   {"to": "went_to"},
	"Reading":     {"by": "method", "as": "basis", "with": "equipment_id"},
	"Feeding":     {"with": "feed_id", "of": "feed_id"},
	"Dosing":      {"with": "remedy_id"},
	"Treatment":   {"with": "remedy_id", "for": "against"},
	"Disposition": {"for": "had_for_it"},
	"Plan":        {"from": "from_on", "to": "to_on"},
	"Trial":       {"from": "from_on", "to": "to_on"},
	"Expense":     {"for": "category"},
	"Labour":      {"for": "task", "on": "task"},
	"Vessel":      {"to": "flows_to", "into": "flows_to", "of": "system_id", "in": "system_id"},
	"Energy":      {"from": "began_at"},
	"Photo":       {"of": "about_id", "at": "about_id", "on": "about_id"},
	"Note":        {"on": "about_id", "of": "about_id", "at": "about_id"},
}

// fieldNamed finds the field that a typed name means. Whole says that the
// contract's own name was used, which tells the unit.
func (d Desk) fieldNamed(m protoreflect.Message, typed, text string) (field protoreflect.FieldDescriptor, whole bool, err error) {
	name := Snake(typed)
	fields := m.Descriptor().Fields()
	if to, ok := leads[m.Descriptor().Name()][name]; ok {
		return fields.ByName(to), true, nil
	}
	if field = fields.ByName(protoreflect.Name(name)); field != nil {
		return field, true, nil
	}
	if field = called(m.Descriptor(), name); field != nil {
		return field, false, nil
	}
	if leading[name] {
		field, err = d.referred(m.Descriptor(), name, text)
		return field, true, err
	}
	return nil, false, problem(typed, unknownName, "is not known of "+said(m.Descriptor()), "it has "+strings.Join(FieldNames(m.Descriptor()), ", "))
}

// called finds the one field that a name means: its own name, its name without
// the unit, or the last word of it.
func called(of protoreflect.MessageDescriptor, name string) protoreflect.FieldDescriptor {
	for _, fits := range []func(string) bool{
		func(field string) bool { return field == name },
		func(field string) bool { return stem(field) == name },
		func(field string) bool { return strings.HasSuffix(stem(field), "_"+name) },
	} {
		var near []protoreflect.FieldDescriptor
		for i := range of.Fields().Len() {
			if fits(string(of.Fields().Get(i).Name())) {
				near = append(near, of.Fields().Get(i))
			}
		}
		if len(near) == 1 {
			return near[0]
		}
	}
	return nil
}

// stem is a field's name without its unit or "_id".
func stem(name string) string {
	for _, end := range []string{"_ids", "_id", "_on", "_at"} {
		if s, found := strings.CutSuffix(name, end); found {
			return s
		}
	}
	if s, ok := suffixOf(name); ok {
		return strings.TrimSuffix(name, s.end)
	}
	return name
}

// FieldNames lists the names by which fields of a message can be set.
func FieldNames(of protoreflect.MessageDescriptor) []string {
	var list []string
	for i := range of.Fields().Len() {
		list = append(list, string(of.Fields().Get(i).Name()))
	}
	return list
}

func said(of protoreflect.MessageDescriptor) string { return "a " + strings.ToLower(string(of.Name())) }

// referred finds the field that a leading word means, by which kind of record
// the text names.
func (d Desk) referred(of protoreflect.MessageDescriptor, name, text string) (protoreflect.FieldDescriptor, error) {
	var fits []protoreflect.FieldDescriptor
	var kinds []string
	for i := range of.Fields().Len() {
		field := of.Fields().Get(i)
		to := limitsOf(field).GetRefersTo()
		if to == "" || field.IsList() {
			continue
		}
		kinds = append(kinds, kindsReferred(to)...)
		if _, err := d.Book.Find(d.SiteID, text, kindsReferred(to)...); err == nil {
			fits = append(fits, field)
		}
	}
	switch {
	case len(fits) == 1:
		return fits[0], nil
	case len(fits) > 1:
		return nil, problem(name, unknownOne, "\""+text+"\" is the name of several kinds of records",
			"say which: "+string(fits[0].Name())+"= or "+string(fits[1].Name())+"=")
	case len(kinds) == 0:
		return nil, problem(name, unknownName, "leads nowhere in "+said(of), "it has "+strings.Join(FieldNames(of), ", "))
	}
	_, err := d.Book.Find(d.SiteID, text, kinds...)
	return nil, err
}

// fillList reads a list: names parted by commas, or an arm of a trial.
func (d Desk) fillList(m protoreflect.Message, field protoreflect.FieldDescriptor, text string) error {
	list := m.NewField(field).List()
	switch {
	case field.Kind() == protoreflect.StringKind:
		for _, part := range strings.Split(text, ",") {
			if strings.TrimSpace(part) == "" {
				continue
			}
			s, err := d.word(field, part)
			if err != nil {
				return err
			}
			list.Append(protoreflect.ValueOfString(s))
		}
	case field.Message() != nil && field.Message().Name() == "TrialArm":
		return d.arms(m, field, text)
	case field.Message() != nil && field.Message().Name() == "PlanStep":
		return d.steps(m, field, text)
	}
	m.Set(field, protoreflect.ValueOfList(list))
	return nil
}

// arms reads "wide: tomato in Bed 1, tomato in Bed 2; narrow: tomato in Bed 3".
func (d Desk) arms(m protoreflect.Message, field protoreflect.FieldDescriptor, text string) error {
	list := m.NewField(field).List()
	for _, part := range strings.Split(text, ";") {
		name, plantings, found := strings.Cut(part, ":")
		if !found || strings.TrimSpace(name) == "" {
			return problem("", malformed, "\""+strings.TrimSpace(part)+"\" is no arm of a trial",
				"write arms=\"wide: tomato in Bed 1, tomato in Bed 2; narrow: tomato in Bed 3\"")
		}
		arm := &freshetv1.TrialArm{Name: strings.TrimSpace(name)}
		for _, p := range strings.Split(plantings, ",") {
			r, err := d.Book.Find(d.SiteID, strings.TrimSpace(p), "planting")
			if err != nil {
				return err
			}
			arm.PlantingIds = append(arm.PlantingIds, r.ID)
		}
		list.Append(protoreflect.ValueOfMessage(arm.ProtoReflect()))
	}
	m.Set(field, protoreflect.ValueOfList(list))
	return nil
}

// steps reads "2026-03-01 sow: crop=lettuce bed=Bed 1, ...", each step a day
// and words: "2026-03-01 lettuce; 2026-03-15 clean the settler".
func (d Desk) steps(m protoreflect.Message, field protoreflect.FieldDescriptor, text string) error {
	list := m.NewField(field).List()
	for _, part := range strings.Split(text, ";") {
		day, what, _ := strings.Cut(strings.TrimSpace(part), " ")
		on, err := Date(day, d.Now)
		if err != nil {
			return err
		}
		step := &freshetv1.PlanStep{On: on}
		if name, err := nameInTable("crop", strings.TrimSpace(what)); err == nil && what != "" {
			step.Crop = name
		} else {
			step.Words = strings.TrimSpace(what)
		}
		list.Append(protoreflect.ValueOfMessage(step.ProtoReflect()))
	}
	m.Set(field, protoreflect.ValueOfList(list))
	return nil
}

// FieldCalled finds the field that a name means, without looking at a value;
// leading words keep their own name.
func FieldCalled(m protoreflect.Message, typed string) (string, bool) {
	name := Snake(typed)
	if to, ok := leads[m.Descriptor().Name()][name]; ok {
		return string(to), true
	}
	if field := called(m.Descriptor(), name); field != nil {
		return string(field.Name()), true
	}
	return name, leading[name]
}
