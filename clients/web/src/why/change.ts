// What a figure was some days ago and is now, split among its inputs.
import { newestIn, type Book, type Loop } from '../book/book';
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

type Inputs = [name: string, quantity: Quantity][];

const ofCarbonate: Inputs = [['ph', Quantity.PH], ['temperature_celsius', Quantity.WATER_TEMPERATURE], ['alkalinity_mg_per_l', Quantity.ALKALINITY]];

/** Formulas and the readings they take. */
export const works: Partial<Record<Figure, { formula: string; inputs: Inputs }>> = {
  ammonia: { formula: 'uia_concentration', inputs: [['tan_mg_n_per_l', Quantity.TOTAL_AMMONIA], ['ph', Quantity.PH], ['temperature_celsius', Quantity.WATER_TEMPERATURE]] },
  oxygen: { formula: 'do_percent', inputs: [['do_mg_per_l', Quantity.DISSOLVED_OXYGEN], ['temperature_celsius', Quantity.WATER_TEMPERATURE]] },
  carbonDioxide: { formula: 'co2_concentration', inputs: ofCarbonate },
};

/** The readings a figure rests on now, in its formula's order; undefined where one is missing. */
export function inputsOf(judged: Judged): number[] | undefined {
  const values = works[judged.figure]?.inputs.map(([, quantity]) => judged.used.flatMap((u) => ('reading' in u && u.reading.quantity === quantity ? [u.reading.value] : []))[0]);
  return values?.every((v) => v !== undefined) ? (values as number[]) : undefined;
}

/** Undefined where an input was not read before that moment. */
export async function changeOf(view: View, ask: Ask, book: Book, loop: Loop, judged: Judged, then: number): Promise<Change | undefined> {
  const asked = (formula: string, inputs: Inputs) => (values: readonly number[]) =>
    number(ask, formula, { ...(judged.figure === 'oxygen' ? { elevation_m: book.site.elevationM } : {}), ...Object.fromEntries(inputs.map(([name], i) => [name, values[i]!])) });
  if (judged.figure === 'ph') {
    const read = await readings(view, book, loop, ofCarbonate, then);
    const gas = asked('co2_concentration', ofCarbonate);
    const [was, now] = [read && gas(read.was), read && gas(read.now)];
    if (!read || was === undefined || now === undefined) return undefined;
    const inputs: Inputs = [['co2_mg_per_l', Quantity.CARBON_DIOXIDE], ofCarbonate[1]!, ofCarbonate[2]!];
    return splitOf(asked('ph_from_co2', inputs), inputs, [was, ...read.was.slice(1)], [now, ...read.now.slice(1)]);
  }
  const work = works[judged.figure];
  const read = work && (await readings(view, book, loop, work.inputs, then));
  return read && splitOf(asked(work.formula, work.inputs), work.inputs, read.was, read.now);
}

/** Each input as it was last read before a moment, and newest; undefined where one was not. */
async function readings(view: View, book: Book, loop: Loop, inputs: Inputs, then: number): Promise<{ was: number[]; now: number[] } | undefined> {
  const [was, now]: [number[], number[]] = [[], []];
  for (const [, quantity] of inputs) {
    const newest = newestIn(book, loop, quantity);
    const past = newest && (await view.series(book.site.id, newest.placeId, quantity, then - 60 * 86_400_000, then)).values.at(-1);
    if (past === undefined) return undefined;
    was.push(past);
    now.push(newest!.value);
  }
  return { was, now };
}

function splitOf(at: (values: readonly number[]) => number | undefined, inputs: Inputs, was: readonly number[], now: readonly number[]): Change | undefined {
  const shares = split(at, was, now);
  return shares && { before: at(was)!, after: at(now)!, parts: inputs.map(([, quantity], i) => ({ quantity, before: was[i]!, after: now[i]!, share: shares[i]! })) };
}
