package main

import (
	"context"
	"slices"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
)

// showSites walks each loop the way its water runs.
func showSites(ctx context.Context, a *app) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	sites := desk.Book.Of(desk.SiteID, "site")
	if a.json {
		return recordsJSON(a, desk, desk.Book.Of(desk.SiteID, device.RecordKinds()...))
	}
	p := a.page()
	if len(sites) == 0 {
		sayFirstSteps(ctx, p, a)
		return p.Err()
	}
	for i, site := range sites {
		if i > 0 {
			p.Gap()
		}
		p.Head(page.Clean(desk.Book.Label(site)), "")
		p.Say(sentence(page.Clean(desk.Book.Fields(site))))
		sayLoops(p, desk.Book, site.ID)
	}
	return p.Err()
}

func sayFirstSteps(ctx context.Context, p *page.Page, a *app) {
	p.Say("This notebook is empty.")
	if s, err := a.dev.Status(ctx); err == nil && !s.Joined {
		p.Item("1.", "Join your co-op: freshet join CODE --server HOST:PORT")
	}
	p.Item("2.", `Name your place: freshet set site "My place" time_zone=Europe/Rome`)
	p.Item("3.", `Name its loop and what the water meets: freshet set system "Long loop"; freshet set vessel "Fish tank" kind=fish_tank volume=1000L`)
	p.Item("4.", `Note what you see: freshet note reading ph 7.2 at="Fish tank"`)
}

func sayLoops(p *page.Page, book *words.Book, siteID string) {
	for _, system := range book.Of(siteID, "system") {
		p.Title(page.Clean(book.Label(system)))
		p.Stream(loopStretches(book, system))
	}
	if bank := bankBeds(book, siteID); len(bank) > 0 {
		p.Title("On the bank")
		p.Pairs(bank)
	}
}

// loopStretches are a loop's vessels in the order the water runs, with what
// stands and lives in each.
func loopStretches(book *words.Book, system device.Record) []page.Stretch {
	var list []page.Stretch
	for _, v := range walkOrder(book, system) {
		s := page.Stretch{Place: page.Clean(book.Label(v))}
		s.Words = append(s.Words, page.Clean(vesselWords(book, v)))
		for _, r := range book.Of(system.SiteID, "cohort", "bed") {
			if refers(r, "vessel_id", v.ID) {
				s.Words = append(s.Words, page.Clean(inhabitant(book, r)))
			}
		}
		list = append(list, s)
	}
	return list
}

func vesselWords(book *words.Book, v device.Record) string {
	vessel, ok := v.Message.Interface().(*freshetv1.Vessel)
	if !ok {
		return ""
	}
	parts := []string{strings.ReplaceAll(words.EnumWord(vessel.GetKind().Descriptor(), vessel.GetKind().Number()), "_", " ")}
	for _, name := range []string{"volume_l", "flow_l_per_h"} {
		field := v.Message.Descriptor().Fields().ByName(fieldName(name))
		if v.Message.Has(field) {
			parts = append(parts, book.Field(v.Message, field))
		}
	}
	return strings.Join(parts, ", ")
}

func inhabitant(book *words.Book, r device.Record) string {
	if r.Kind == "cohort" {
		return book.Label(r) + ": " + book.Fields(r)
	}
	s := book.Label(r)
	var stands []string
	for _, planting := range book.Of(r.SiteID, "planting") {
		if refers(planting, "bed_id", r.ID) && !book.Ended(planting) {
			stands = append(stands, strings.TrimSuffix(book.Label(planting), " in "+s))
		}
	}
	if len(stands) == 0 {
		return s + ": nothing stands in it"
	}
	return s + ": " + strings.Join(stands, ", ")
}

// bankBeds are the site's beds outside any vessel.
func bankBeds(book *words.Book, siteID string) [][2]string {
	var list [][2]string
	for _, bed := range book.Of(siteID, "bed") {
		if refers(bed, "vessel_id", "") {
			name := page.Clean(book.Label(bed))
			list = append(list, [2]string{name, strings.TrimPrefix(page.Clean(inhabitant(book, bed)), name+": ")})
		}
	}
	return list
}

// walkOrder walks a loop's vessels the way the water runs, from the fish on.
// Vessels that no water is said to reach come last.
func walkOrder(book *words.Book, system device.Record) []device.Record {
	var all []device.Record
	for _, v := range book.Of(system.SiteID, "vessel") {
		if refers(v, "system_id", system.ID) {
			all = append(all, v)
		}
	}
	slices.SortStableFunc(all, func(x, y device.Record) int { return kindOf(x) - kindOf(y) })
	var order []device.Record
	seen := map[string]bool{}
	var walk func(device.Record)
	walk = func(v device.Record) {
		if seen[v.ID] {
			return
		}
		seen[v.ID] = true
		order = append(order, v)
		for _, next := range v.Message.Interface().(*freshetv1.Vessel).GetFlowsTo() {
			if r, ok := book.ByID(next); ok && refers(r, "system_id", system.ID) {
				walk(r)
			}
		}
	}
	for _, v := range all {
		walk(v)
	}
	return order
}

func kindOf(v device.Record) int {
	vessel, ok := v.Message.Interface().(*freshetv1.Vessel)
	if !ok {
		return 0
	}
	return int(vessel.GetKind())
}
