// Names of places, crops, fish and readings, in the person's language.
import type { Kept } from '../book/book';
import type { Newest } from '../device/view';
import { Unit, type Quantity, type Reading } from '../gen/freshet/v1/reading_pb';
import type { Say } from './say';
import type { Words } from './words';

/** A crop as it is called here, else in this language, else as the table has it. */
export function cropName(t: Words, crops: readonly Kept<'crop'>[], crop: string): string {
  return crops.find((c) => c.crop === crop && c.localName)?.localName ?? t.crop[crop] ?? crop;
}

export const speciesCalled = (t: Words, species: string): string => t.species[species] ?? species.replaceAll('_', ' ');

/** A reading as it was typed: "<0.25" and "mg/L as NH₃" apart. */
export function readingParts(t: Words, say: Say, r: Pick<Reading, 'quantity' | 'digits' | 'decimals' | 'unit' | 'basis' | 'censoring'>): { value: string; unit: string } {
  if (r.unit === Unit.WORD) return { value: wordOf(t, r.quantity, Number(r.digits)), unit: '' };
  const mark = ['', '<\u2009', '>\u2009'][r.censoring] ?? '';
  return { value: mark + say.typed(r.digits, r.decimals), unit: [t.unit[r.unit], t.basis[r.basis]].filter(Boolean).join(' ') };
}

/** The word for an ordered place, 0 to 4. */
export function wordOf(t: Words, quantity: Quantity, place: number): string {
  const words = t.words[quantity as keyof typeof t.words];
  return words?.[Math.max(0, Math.min(4, Math.round(place)))] ?? String(place);
}

export const readingOf = (t: Words, say: Say, n: Newest): string => {
  const { value, unit } = readingParts(t, say, n.entry.body);
  return unit ? `${value}\u00a0${unit}` : value;
};
