// Where the nitrogen of some days went: what came in, what left, and what is
// left over, each with its standard error. The same sums as the server's.
import { bedsOf, litres, type Book } from '../book/book';
import { tally, type Herd } from '../book/herds';
import type { View } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import type { Ask, Told } from './asking';
import { fedIn, pouredIn } from './came';
import type { Live, LoopReckoning } from './reckoning';
import { weightCv } from './ready';

export type FlowName = 'feed' | 'waterIn' | 'fish' | 'plants' | 'stored' | 'waterOut' | 'solids';

/** Grams of nitrogen, and the standard error. */
export interface Amount {
  grams: number;
  error: number;
}

export interface Budget {
  flows: Record<FlowName, Amount>;
  /** What is left over, and where it lies nine times in ten. */
  rest: number;
  low: number;
  high: number;
}

/** Shares of vegetables as harvested; common practice, no source. */
const plantNitrogen = 0.08 * 0.042;
/** Nitrogen of dry fish solids, from memory. */
const solidsNitrogen = 0.04;

/** Draws up a budget from one moment to another; undefined where nothing was fed. */
export async function budgetOf(view: View, ask: Ask, book: Book, r: LoopReckoning, from: number, to: number): Promise<Budget | undefined> {
  const lately = book.lately.filter((e) => e.at >= from && e.at < to);
  const { eatenG, protein } = fedIn(book, r.loop, from, to);
  const fed = eatenG > 0 ? feedOf(ask, eatenG, protein) : undefined;
  if (!fed) return undefined;
  const [before, after] = await Promise.all([dissolved(view, ask, book, r, from), dissolved(view, ask, book, r, to)]);
  const poured = pouredIn(book, r.loop, from, to);
  const inN = (poured.in * book.site.sourceNitrateMgPerL) / 1000;
  const outN = after === undefined ? 0 : (after * poured.out) / Math.max(1, litres(r.loop));
  const change = before === undefined || after === undefined ? 0 : after - before;
  const flows: Budget['flows'] = {
    feed: fed,
    waterIn: { grams: inN, error: inN * 0.2 },
    fish: fishGain(ask, r.live, from, to),
    plants: picked(book, r, from, to),
    stored: { grams: change, error: before === undefined ? 0 : 0.07 * Math.hypot(before, after ?? 0) },
    waterOut: { grams: outN, error: outN * 0.15 },
    solids: lately.some((e) => e.kind === 'solidsOut') ? sludge(ask, eatenG) : { grams: 0, error: 0 },
  };
  const closed = ask('nitrogen_budget', given(flows));
  return closed && { flows, rest: closed.value, low: closed.low, high: closed.high };
}

const names: Record<FlowName, string> = { feed: 'feed', waterIn: 'water_in', fish: 'fish_gain', plants: 'plants', stored: 'stored_change', waterOut: 'water_out', solids: 'solids' };

const given = (flows: Budget['flows']): Record<string, number> =>
  Object.fromEntries((Object.entries(flows) as [FlowName, Amount][]).flatMap(([n, a]) => [[names[n] + '_g', a.grams], [names[n] + '_error_g', a.error]]));

const amount = (t: Told | undefined): Amount => (t ? { grams: t.value, error: (t.high - t.low) / 2 || 0 } : { grams: 0, error: 0 });

/** Scoops and labels are good to a few percent; common practice, no source. */
function feedOf(ask: Ask, mass_g: number, protein: number): Amount | undefined {
  const share = protein * 0.16;
  const told = ask('nitrogen_amount', { mass_g, mass_error_g: mass_g * 0.03, nitrogen_fraction: share, nitrogen_fraction_error: share * 0.03 });
  return told && amount(told);
}

/** Alive at the end less at the start, with those that came and left. */
function fishGain(ask: Ask, live: readonly Live[], from: number, to: number): Amount {
  let gain = 0;
  let variance = 0;
  for (const { herd, growing } of live) {
    const [before, after] = [growing.weightAt(from), growing.weightAt(to)];
    if (before === undefined || after === undefined) continue;
    const [first, last] = [before * aliveAt(herd, from), after * aliveAt(herd, to)];
    gain += last - first + moved(herd, from, to, (before + after) / 2);
    variance += (first * first + last * last) * weightCv * weightCv / 20;
  }
  const told = amount(ask('fish_gain_nitrogen', { gain_kg: gain / 1000 }));
  const perGram = gain ? told.grams / gain : 0;
  return { grams: told.grams, error: Math.hypot(told.error, Math.sqrt(variance) * Math.abs(perGram)) };
}

const aliveAt = (herd: Herd, at: number): number => Math.max(0, tally(herd.events.filter((e) => e.at < at)).alive);

/** Mass that left less what came, g, at the mean weight. */
function moved(herd: Herd, from: number, to: number, grams: number): number {
  return herd.events.reduce((sum, e) => {
    if (e.at < from || e.at >= to || e.kind === 'counted') return sum;
    return sum + (e.kind === 'stocked' || e.kind === 'moved_in' ? -1 : 1) * e.fish * grams;
  }, 0);
}

function picked(book: Book, r: LoopReckoning, from: number, to: number): Amount {
  const beds = new Set(r.loop.vessels.flatMap((v) => bedsOf(r.loop, v).map((b) => b.id)));
  const mine = new Set(book.plantings.filter((p) => beds.has(p.bedId)).map((p) => p.id));
  const mass = book.plants.reduce((s, e) => ((e.kind === 'bedHarvest' || e.kind === 'pulling') && e.at >= from && e.at < to && mine.has(e.body.plantingId) ? s + e.body.massG : s), 0);
  return { grams: mass * plantNitrogen, error: mass * plantNitrogen * 0.3 };
}

function sludge(ask: Ask, feed_g: number): Amount {
  const dry = ask('solids_from_feed', { feed_g })?.value ?? 0;
  return { grams: dry * solidsNitrogen, error: dry * solidsNitrogen * Math.hypot(0.5, 0.2) };
}

/** Grams of nitrogen dissolved in the loop's water at a moment, by the tests before it; undefined where nitrate was not tested. */
async function dissolved(view: View, ask: Ask, book: Book, r: LoopReckoning, at: number): Promise<number | undefined> {
  const last = async (quantity: Quantity): Promise<number | undefined> => {
    const place = book.newest.find((n) => n.quantity === quantity && r.loop.vessels.some((v) => v.id === n.placeId))?.placeId;
    if (place === undefined) return undefined;
    return (await view.series(book.site.id, place, quantity, at - 30 * 86_400_000, at)).values.at(-1);
  };
  const [tan, nitrite, nitrate] = await Promise.all([last(Quantity.TOTAL_AMMONIA), last(Quantity.NITRITE), last(Quantity.NITRATE)]);
  if (nitrate === undefined) return undefined;
  return ask('dissolved_nitrogen', { volume_litres: litres(r.loop), ammonia_mg_l: tan ?? 0, nitrite_mg_l: nitrite ?? 0, nitrate_mg_l: nitrate })?.value;
}
