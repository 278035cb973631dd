// What a test of the loop's nitrogen or alkalinity shows since an earlier one,
// as what came into the water and what left it. Feed brings ammonia, bacteria
// make nitrite and nitrate of it and use up alkalinity; what no note tells of
// is the rest, so that the parts sum to the change. The same sums as the server's.
import { litres, newestIn, type Book, type Loop } from '../book/book';
import type { View } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { number, type Ask } from '../reckon/asking';
import { basePutIn, fedIn, pouredIn } from '../reckon/came';

export type Flow = 'made' | 'ofAmmonia' | 'base' | 'nitrified' | 'added' | 'letGo' | 'rest';

/** Quantities that can be told so, and the name of each one's rest. */
export const balanced = {
  [Quantity.TOTAL_AMMONIA]: 'ammonia', [Quantity.NITRITE]: 'nitrite', [Quantity.NITRATE]: 'nitrate', [Quantity.ALKALINITY]: 'alkalinity',
} as const;

export type Balanced = keyof typeof balanced;

export const isBalanced = (q: Quantity): q is Balanced => q in balanced;

export interface Balance {
  quantity: Balanced;
  before: number;
  after: number;
  days: number;
  parts: { flow: Flow; share: number }[];
}

/** Undefined where it was not tested before that moment, or not since. */
export async function balanceOf(view: View, ask: Ask, book: Book, loop: Loop, quantity: Balanced, then: number): Promise<Balance | undefined> {
  const own = await testsOf(view, book, loop, quantity, then);
  if (!own || own.to <= own.from) return undefined;
  const change = async (q: Quantity): Promise<number> => {
    const tests = await testsOf(view, book, loop, q, then);
    return tests ? tests.is - tests.was : 0;
  };
  const fed = fedIn(book, loop, own.from, own.to);
  const poured = pouredIn(book, loop, own.from, own.to);
  const water = litres(loop);
  const made = ((number(ask, 'tan_from_feed', { feed_kg: fed.eatenG / 1000, protein_fraction: fed.protein }) ?? 0) * 1e6) / water;
  const span: Span = {
    ...own, made, in: poured.in / water, out: poured.out / water, moreAmmonia: await change(Quantity.TOTAL_AMMONIA), moreNitrite: await change(Quantity.NITRITE),
    source: quantity === Quantity.ALKALINITY ? book.site.sourceAlkalinityMgPerL : book.site.sourceNitrateMgPerL,
    base: (basePutIn(book, loop, own.from, own.to) * 1000) / water, usedPerGram: number(ask, 'nitrification_alkalinity', { tan_g: 1 }) ?? 0,
  };
  return { quantity, before: own.was, after: own.is, days: Math.max(1, Math.round((own.to - own.from) / 86_400_000)), parts: flows(quantity, span) };
}

/** What is known between two tests; mg/L of nitrogen where nothing else is said, water as share of the loop. */
export interface Span {
  was: number;
  is: number;
  /** Ammonia that the feed became. */
  made: number;
  /** What stands as more ammonia and nitrite than before. */
  moreAmmonia: number;
  moreNitrite: number;
  in: number;
  out: number;
  /** Nitrate, or alkalinity, of the water added. */
  source: number;
  /** Alkalinity of the bases put in, mg/L as CaCO3. */
  base: number;
  /** Alkalinity that bacteria use for each gram of ammonia nitrogen, g. */
  usedPerGram: number;
}

/** What came and went, and the rest of the change. */
export function flows(quantity: Balanced, s: Span): { flow: Flow; share: number }[] {
  const parts: { flow: Flow; share: number }[] = [];
  const nitrified = Math.max(0, s.made - s.moreAmmonia - s.moreNitrite);
  if (quantity === Quantity.TOTAL_AMMONIA) parts.push({ flow: 'made', share: s.made });
  if (quantity === Quantity.NITRITE) parts.push({ flow: 'ofAmmonia', share: s.made - s.moreAmmonia });
  if (quantity === Quantity.NITRATE) parts.push({ flow: 'ofAmmonia', share: nitrified }, { flow: 'added', share: s.in * s.source });
  if (quantity === Quantity.ALKALINITY) parts.push({ flow: 'base', share: s.base }, { flow: 'nitrified', share: -nitrified * s.usedPerGram }, { flow: 'added', share: s.in * s.source });
  parts.push({ flow: 'letGo', share: (-s.out * (s.was + s.is)) / 2 });
  const known = parts.filter((p) => p.share !== 0);
  return [...known, { flow: 'rest', share: s.is - s.was - known.reduce((sum, p) => sum + p.share, 0) }];
}

interface Tests {
  was: number;
  is: number;
  from: number;
  to: number;
}

/** The last test before a moment, and the newest. */
async function testsOf(view: View, book: Book, loop: Loop, quantity: Quantity, then: number): Promise<Tests | undefined> {
  const newest = newestIn(book, loop, quantity);
  if (!newest) return undefined;
  const past = await view.series(book.site.id, newest.placeId, quantity, then - 60 * 86_400_000, then);
  const was = past.values.at(-1);
  return was === undefined ? undefined : { was, is: newest.value, from: past.ms.at(-1)!, to: newest.entry.at };
}
