// From what was tapped and typed to an event.
import type { EventKind, InitOf } from '../device/kinds';
import type { Draft, Place as When } from '../device/device';
import type { NoteKind } from './kinds';

export interface Given {
  /** SI numbers by field. */
  numbers: Record<string, number | undefined>;
  choices: Record<string, number | undefined>;
  text: string;
  /** A cohort, a vessel, a planting, or a crop's or species' name. */
  about: string;
  to: string;
  placeId: string;
  extra?: Record<string, unknown>;
}

const counts = new Set(['count', 'sampleCount', 'piecesCount', 'seedsCount', 'plantsCount']);

/** Drafts the event of a kind. */
export function draftNote(d: Draft, note: NoteKind, given: Given, when: When): string {
  const body: Record<string, unknown> = { ...given.extra };
  for (const f of note.numbers) {
    const v = given.numbers[f.name];
    if (v !== undefined) body[f.name] = f.name === 'amountMinor' ? BigInt(Math.round(v * 100)) : counts.has(f.name) ? Math.round(v) : v;
  }
  for (const c of note.choices) if (given.choices[c.name] !== undefined) body[c.name] = given.choices[c.name];
  if (note.text && given.text.trim()) body[note.text] = given.text.trim();
  if (note.kind === 'note' || note.kind === 'photo') body['aboutId'] = given.placeId;
  if (note.about === 'cohort') body['cohortId'] = given.about;
  if (note.about === 'vessel' || note.kind === 'feeding') body['vesselId'] = given.placeId;
  if (note.about === 'planting') body['plantingId'] = given.about;
  if (note.to) body['toCohortId'] = given.to;
  if (note.about === 'produce') Object.assign(body, produce(given.about));
  return d.note(note.kind as EventKind, body as InitOf<EventKind>, when);
}

/** "crop:tomato" or "fish:nile_tilapia". */
export function produce(name: string): { crop?: string; species?: string } {
  const [what, which = ''] = name.split(':');
  return what === 'fish' ? { species: which } : { crop: which };
}
