// Names of places, crops, fish and readings, in the person's language.
import type { Kept } from '../book/book';
import { canonicalOf, expressedIn } from '../device/canonical';
import type { Newest } from '../device/view';
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import { Method, Quantity, Unit, type Reading } from '../gen/freshet/v1/reading_pb';
import type { Say } from './say';
import type { Words } from './words';

/** A crop as it is called here, else in this language, else as the table has it. */
export function cropName(t: Words, crops: readonly Kept<'crop'>[], crop: string): string {
  return crops.find((c) => c.crop === crop && c.localName)?.localName ?? t.crop[crop] ?? crop;
}

export const speciesCalled = (t: Words, species: string): string => t.species[species] ?? species.replaceAll('_', ' ');

/** In which unit a reading is shown: in that in which it was typed. What a probe read nobody typed: its degrees are the person's own. */
export function unitShown(say: Say, r: Pick<Reading, 'unit' | 'method'>): Unit {
  if (r.method !== Method.PROBE || (r.unit !== Unit.CELSIUS && r.unit !== Unit.FAHRENHEIT)) return r.unit;
  return say.units === UnitSystem.US_CUSTOMARY ? Unit.FAHRENHEIT : Unit.CELSIUS;
}

/** A reading as it was typed: "<0.25" and "mg/L as NH₃" apart. */
export function readingParts(t: Words, say: Say, r: Pick<Reading, 'quantity' | 'digits' | 'decimals' | 'unit' | 'basis' | 'censoring' | 'method'>): { value: string; unit: string } {
  if (r.unit === Unit.WORD) return { value: wordOf(t, r.quantity, Number(r.digits)), unit: '' };
  const mark = ['', '<\u2009', '>\u2009'][r.censoring] ?? '';
  const unit = unitShown(say, r);
  const power = 10 ** r.decimals;
  const digits = unit === r.unit ? r.digits : Math.round(power * expressedIn(r.quantity, unit, r.basis)(canonicalOf(r.quantity, r.unit, r.basis)(Number(r.digits) / power)));
  return { value: mark + say.typed(digits, r.decimals), unit: [t.unit[unit], t.basis[r.basis]].filter(Boolean).join(' ') };
}

/** A canonical value that a formula took, without its unit; degrees are the person's. */
export function taken(say: Say, quantity: Quantity, value: number): string {
  return quantity === Quantity.WATER_TEMPERATURE || quantity === Quantity.AIR_TEMPERATURE ? say.parts('temperature', value).value : say.number(value, 3);
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
