// An entry in a line, as one would write it by hand.
import { placeOf, type Book } from '../book/book';
import type { Desk } from '../desk.svelte';
import type { Entry } from '../device/view';
import { noteKind } from '../note/kinds';
import { cropName, readingParts, speciesCalled } from '../words/names';
import type { Say } from '../words/say';
import type { Words } from '../words/words';

type Body = Record<string, unknown>;

/** What happened, and to whom; names stand in the notebook, where one is open. */
export function entrySays({ t, say, book }: Pick<Desk, 't' | 'say' | 'book'>, e: Entry): string {
  if (e.kind === 'reading') {
    const { value, unit } = readingParts(t, say, e.body);
    return `${say.cap(t.quantity[e.body.quantity])} ${value} ${unit}`.trim();
  }
  if (e.kind === 'correction') return '';
  const note = noteKind(e.kind);
  const body = e.body as unknown as Body;
  const numbers = (note?.numbers ?? []).flatMap((f) => {
    const v = Number(body[f.name] ?? 0);
    if (!v) return [];
    if (f.measure) return [say.amount(f.measure, v, 3)];
    const unit = t.fieldUnit[f.name as keyof typeof t.fieldUnit];
    if (f.name === 'count') return [say.places(v, 0)];
    if (f.name === 'amountMinor') return [say.places(v / 100, 2)];
    return [unit ? `${say.number(v)} ${unit}` : f.name === 'sampleCount' ? `${say.places(v, 0)} (${t.field.sampleCount})` : `${say.places(v, 0)} ${t.field[f.name as keyof typeof t.field]}`];
  });
  const choices = (note?.choices ?? []).flatMap((c) => (body[c.name] ? [(t[c.words] as Record<number, string>)[body[c.name] as number] ?? ''] : []));
  const words = note?.text ? String(body[note.text] ?? '') : '';
  return [t.kind[e.kind], aboutOf(t, say, book, body), ...choices, ...numbers, words && `“${words}”`].filter(Boolean).join(', ');
}

function aboutOf(t: Words, say: Say, book: Book | undefined, body: Body): string {
  const { cohortId, plantingId, crop, species } = body;
  const crops = book?.crops ?? [];
  if (cohortId) return book?.loops.flatMap((l) => l.cohorts).find((c) => c.id === cohortId)?.name ?? '';
  if (plantingId) return cropName(t, crops, book?.plantings.find((p) => p.id === plantingId)?.crop ?? '');
  if (crop) return cropName(t, crops, String(crop));
  return species ? say.cap(speciesCalled(t, String(species))) : '';
}

/** Where it happened; empty: the whole site. */
export function entryPlace(book: Book, e: Entry): string {
  const body = e.body as unknown as Body;
  const id = String(body['placeId'] ?? body['vesselId'] ?? body['aboutId'] ?? '') || bedOf(book, String(body['plantingId'] ?? ''));
  return placeOf(book, id)?.name ?? '';
}

const bedOf = (book: Book, plantingId: string): string => book.plantings.find((p) => p.id === plantingId)?.bedId ?? '';
