// What takes longer to read and the first sight of a page does without: a
// year's warmth, and how often each test is made.
import { breath } from '../device/breath';
import type { View } from '../device/view';
import { Method, Quantity } from '../gen/freshet/v1/reading_pb';
import { readAir, type Air } from './air';
import { day, type Book } from './book';

export interface Later {
  /** Mean water temperature of each day, by days since 1970 in the site's zone. */
  warmth: Map<number, number>;
  /** The air that plants stand in. */
  air: Air;
  /** Tests made by hand, with the usual days between them. */
  tests: Test[];
}

export interface Test {
  placeId: string;
  quantity: Quantity;
  last: number;
  /** Days between tests, as a rule; undefined where fewer than three tell. */
  every: number | undefined;
}

/** Days of warmth that growth leans on, and how many of them are read before the page may do something else. */
const warmDays = 744;
const stepDays = 93;

/** Reads the rest of a notebook; shift is the zone's offset, ms. */
export async function readLater(view: View, book: Book, shift: number): Promise<Later> {
  const byHand = book.newest.filter((n) => n.entry.body.method !== Method.PROBE && book.now - n.entry.at < 60 * day);
  const [warmth, air, tests] = await Promise.all([
    readWarmth(view, book, shift),
    readAir(view, book, shift),
    Promise.all(byHand.map(async ({ placeId, quantity, entry }): Promise<Test> => {
      const series = await view.series(book.site.id, placeId, quantity, book.now - 60 * day, book.now + 1);
      return { placeId, quantity, last: entry.at, every: usualGap([...series.ms].slice(-8)) };
    })),
  ]);
  return { warmth, air, tests };
}

async function readWarmth(view: View, book: Book, shift: number): Promise<Map<number, number>> {
  const places = book.newest.filter((n) => n.quantity === Quantity.WATER_TEMPERATURE).map((n) => n.placeId);
  const sums = new Map<number, [total: number, n: number]>();
  const end = book.now + 1;
  const steps = places.flatMap((place) => Array.from({ length: warmDays / stepDays }, (_, i) => ({ place, from: end - warmDays * day + i * stepDays * day })));
  for (const { place, from } of steps) {
    await breath();
    const { ms, values } = await view.series(book.site.id, place, Quantity.WATER_TEMPERATURE, from, from + stepDays * day);
    // Values come in the order of time: a day's are added up before they are put by.
    for (let i = 0; i < ms.length; ) {
      const d = Math.floor((ms[i]! + shift) / day);
      let [total, n] = sums.get(d) ?? [0, 0];
      for (; i < ms.length && Math.floor((ms[i]! + shift) / day) === d; i++, n++) total += values[i]!;
      sums.set(d, [total, n]);
    }
  }
  return new Map([...sums].map(([d, [total, n]]) => [d, total / n]));
}

/** The middle of the gaps between moments, days. */
function usualGap(moments: readonly number[]): number | undefined {
  const gaps = moments.slice(1).map((m, i) => (m - moments[i]!) / day).filter((g) => g > 0.2).sort((a, b) => a - b);
  return gaps.length < 2 ? undefined : gaps[Math.floor(gaps.length / 2)];
}
