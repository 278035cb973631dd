// Whom or what a note can be about, at a place.
import { bedsOf, type Place } from '../book/book';
import { stands, standing } from '../book/plantings';
import type { Desk } from '../desk.svelte';
import { cropName, speciesCalled } from '../words/names';
import type { NoteKind } from './kinds';

export interface Option {
  id: string;
  name: string;
}

/** What may be picked; one alone needs no picking. */
export function aboutOptions(desk: Desk, note: NoteKind, place: Place | undefined): Option[] {
  const book = desk.book!;
  if (note.about === 'cohort') {
    const all = book.loops.flatMap((l) => l.cohorts);
    const here = all.filter((c) => c.vesselId === place?.id);
    return (here.length > 0 && !note.to ? here : all).map((c) => ({ id: c.id, name: c.name }));
  }
  if (note.kind === 'sowing') {
    const crops = [...new Set([...book.crops.filter((c) => c.useKgPerWeek > 0).map((c) => c.crop), ...book.plantings.map((p) => p.crop)])];
    return (crops.length > 0 ? crops : Object.keys(desk.t.crop).slice(0, 12)).map((c) => ({ id: c, name: cropName(desk.t, book.crops, c) }));
  }
  if (note.about === 'planting') {
    const beds = place?.bed ? [place.bed] : place?.vessel && place.loop ? bedsOf(place.loop, place.vessel) : [...book.loops.flatMap((l) => l.beds), ...book.bank];
    const all = stands(book);
    return beds.flatMap((bed) => standing(all, bed.id, desk.device.now()).map((s) => ({ id: s.planting.id, name: place?.bed ? cropName(desk.t, book.crops, s.planting.crop) : `${cropName(desk.t, book.crops, s.planting.crop)}, ${bed.name}` })));
  }
  if (note.about === 'produce') {
    const crops = [...new Set([...book.plantings.map((p) => p.crop), ...book.crops.map((c) => c.crop)])];
    const species = [...new Set(book.loops.flatMap((l) => l.cohorts.map((c) => c.species)))];
    return [...crops.map((c) => ({ id: 'crop:' + c, name: cropName(desk.t, book.crops, c) })), ...species.map((s) => ({ id: 'fish:' + s, name: speciesCalled(desk.t, s) }))];
  }
  return [];
}
