// What a test of the loop's nitrogen shows since an earlier one, as what came
// into the water and what left it. Feed brings ammonia, bacteria make nitrite
// and nitrate of it; what no note tells of is the rest, so that the parts sum
// to the change. The same sums as the server's.
import { litres, newestIn, type Book, type Loop } from '../book/book';
import type { View } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { number, type Ask } from '../reckon/asking';

export type Flow = 'made' | 'ofAmmonia' | 'added' | 'letGo' | 'rest';

export interface Balance {
  quantity: Quantity;
  before: number;
  after: number;
  days: number;
  parts: { flow: Flow; share: number }[];
}

const usualProtein = 32;

/** Undefined where it was not tested before that moment, or not since. */
export async function balanceOf(view: View, ask: Ask, book: Book, loop: Loop, quantity: Quantity, then: number): Promise<Balance | undefined> {
  const own = await testsOf(view, book, loop, quantity, then);
  if (!own || own.to <= own.from) return undefined;
  const change = async (q: Quantity): Promise<number> => {
    const tests = await testsOf(view, book, loop, q, then);
    return tests ? tests.is - tests.was : 0;
  };
  const came = between(book, loop, own.from, own.to);
  const made = ((number(ask, 'tan_from_feed', { feed_kg: came.feedG / 1000, protein_fraction: came.protein }) ?? 0) * 1e6) / litres(loop);
  const span = { ...own, made, in: came.in, out: came.out, source: book.site.sourceNitrateMgPerL, moreAmmonia: await change(Quantity.TOTAL_AMMONIA), moreNitrite: await change(Quantity.NITRITE) };
  return { quantity, before: own.was, after: own.is, days: Math.max(1, Math.round((own.to - own.from) / 86_400_000)), parts: flows(quantity, span) };
}

/** What is known between two tests; mg/L of nitrogen, water as share of the loop. */
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
  /** Nitrate of the water added. */
  source: number;
}

/** What came and went, and the rest of the change. */
export function flows(quantity: Quantity, s: Span): { flow: Flow; share: number }[] {
  const parts: { flow: Flow; share: number }[] = [];
  if (quantity === Quantity.TOTAL_AMMONIA) parts.push({ flow: 'made', share: s.made });
  if (quantity === Quantity.NITRITE) parts.push({ flow: 'ofAmmonia', share: s.made - s.moreAmmonia });
  if (quantity === Quantity.NITRATE) parts.push({ flow: 'ofAmmonia', share: Math.max(0, s.made - s.moreAmmonia - s.moreNitrite) }, { flow: 'added', share: s.in * s.source });
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

/** What was fed and poured between two moments; water as share of the loop. */
function between(book: Book, loop: Loop, from: number, to: number): { feedG: number; protein: number; in: number; out: number } {
  const here = new Set([...(book.loops.length === 1 ? [''] : []), loop.system.id, ...loop.vessels.map((v) => v.id)]);
  const cohorts = new Set(loop.cohorts.map((c) => c.id));
  const feeds = new Map(book.feeds.map((f) => [f.id, f.proteinPercent]));
  const sum = { feedG: 0, protein: 0, in: 0, out: 0 };
  for (const e of book.lately) {
    if (e.at < from || e.at >= to) continue;
    if (e.kind === 'feeding' && (e.body.cohortId ? cohorts.has(e.body.cohortId) : here.has(e.body.vesselId))) {
      const eaten = Math.max(0, e.body.massG - e.body.leftG);
      sum.feedG += eaten;
      sum.protein += (eaten * (feeds.get(e.body.feedId) ?? usualProtein)) / 100;
    }
    if ((e.kind === 'waterIn' || e.kind === 'waterOut') && (here.has(e.body.vesselId) || (e.body.systemId !== '' && here.has(e.body.systemId)))) sum[e.kind === 'waterIn' ? 'in' : 'out'] += e.body.volumeL / litres(loop);
  }
  return { ...sum, protein: sum.feedG > 0 ? sum.protein / sum.feedG : usualProtein / 100 };
}
