// What a figure was some days ago and is now, split among its inputs.
import type { Book } from '../book/book';
import type { View } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { number, type Ask } from '../reckon/asking';
import { split } from '../reckon/split';
import type { Figure, Judged } from '../reckon/water';

export interface Change {
  before: number;
  after: number;
  parts: { quantity: Quantity; before: number; after: number; share: number }[];
}

/** Formulas and the readings they take. */
export const works: Partial<Record<Figure, { formula: string; inputs: [name: string, quantity: Quantity][] }>> = {
  ammonia: { formula: 'uia_concentration', inputs: [['tan_mg_n_per_l', Quantity.TOTAL_AMMONIA], ['ph', Quantity.PH], ['temperature_celsius', Quantity.WATER_TEMPERATURE]] },
  oxygen: { formula: 'do_percent', inputs: [['do_mg_per_l', Quantity.DISSOLVED_OXYGEN], ['temperature_celsius', Quantity.WATER_TEMPERATURE]] },
  carbonDioxide: { formula: 'co2_concentration', inputs: [['ph', Quantity.PH], ['temperature_celsius', Quantity.WATER_TEMPERATURE], ['alkalinity_mg_per_l', Quantity.ALKALINITY]] },
};

/** The readings a figure rests on now, in its formula's order; undefined where one is missing. */
export function inputsOf(judged: Judged): number[] | undefined {
  const values = works[judged.figure]?.inputs.map(([, quantity]) => judged.used.flatMap((u) => ('reading' in u && u.reading.quantity === quantity ? [u.reading.value] : []))[0]);
  return values?.every((v) => v !== undefined) ? (values as number[]) : undefined;
}

/** Undefined where an input was not read before that moment. */
export async function changeOf(view: View, ask: Ask, book: Book, judged: Judged, then: number): Promise<Change | undefined> {
  const work = works[judged.figure];
  if (!work || judged.value === undefined) return undefined;
  const now: number[] = [];
  const was: number[] = [];
  for (const [, quantity] of work.inputs) {
    const used = judged.used.find((u) => 'reading' in u && u.reading.quantity === quantity);
    if (!used || !('reading' in used)) return undefined;
    const past = await view.series(book.site.id, used.reading.placeId, quantity, then - 60 * 86_400_000, then);
    const last = past.values.at(-1);
    if (last === undefined) return undefined;
    now.push(used.reading.value);
    was.push(last);
  }
  const site: Record<string, number> = judged.figure === 'oxygen' ? { elevation_m: book.site.elevationM } : {};
  const at = (inputs: readonly number[]): number | undefined => number(ask, work.formula, { ...site, ...Object.fromEntries(work.inputs.map(([name], i) => [name, inputs[i]!])) });
  const shares = split(at, was, now);
  if (!shares) return undefined;
  return { before: at(was)!, after: at(now)!, parts: work.inputs.map(([, quantity], i) => ({ quantity, before: was[i]!, after: now[i]!, share: shares[i]! })) };
}
