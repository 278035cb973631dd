// When are the fish ready? A fan of weights to come, and the days on which it
// crosses the weight they are wanted at.
import type { Growing, Growth, Warmth } from './growth';
import { number, type Ask } from './asking';

/** Single weights spread so within a cohort that was not weighed fish by fish; common practice, no source. */
export const weightCv = 0.18;

/** 8 in 10 lie within this many standard deviations. */
const reach = 1.2816;

/** Days ahead that are looked at. */
const horizon = 730;

export interface Fan {
  /** Weeks from today: mean weight with its interval, g. */
  points: { day: number; low: number; middle: number; high: number }[];
  /** Days from today on which the wanted share is above the target; undefined: not within two years. */
  earliest: number | undefined;
  middle: number | undefined;
  latest: number | undefined;
  now: number;
  target: number;
  growth: Growth;
  /** They are there already. */
  ready: boolean;
}

/** Looks ahead from today, a day number; undefined where weights or growth are not known. */
export function fan(ask: Ask, growing: Growing, warmth: Warmth, today: number, nowG: number, share = 0.5): Fan | undefined {
  const growth = growing.growth();
  const target = growing.herd.cohort.targetWeightG;
  const of100 = number(ask, 'fish_weight_at_share', { mean_g: 100, variation: weightCv, below_fraction: 1 - share });
  if (!growth || !(target > 0) || !of100) return undefined;
  const wanted = (target / of100) * 100;
  const daily = toCome(growing, warmth, today);
  const out: Fan = { points: [], earliest: undefined, middle: undefined, latest: undefined, now: nowG, target, growth, ready: nowG >= wanted };
  const grown = (scale: number, heat: number): number => (Math.cbrt(nowG) + (growth.coefficient * scale * heat) / 1000) ** 3;
  const [slow, fast] = [Math.max(0, 1 - reach * growth.cv), 1 + reach * growth.cv];
  for (let d = 0, heat = 0; d < horizon; heat += daily[d]!, d++) {
    if (grown(fast, heat) >= wanted) out.earliest ??= d;
    if (grown(1, heat) >= wanted) out.middle ??= d;
    if (grown(slow, heat) >= wanted) out.latest ??= d;
    if (d % 7 === 0) out.points.push({ day: d, low: grown(slow, heat), middle: grown(1, heat), high: grown(fast, heat) });
    if (out.latest !== undefined && d > out.latest + 14) break;
  }
  return out;
}

/** Growth units of the days ahead: of the same day a year ago where it was read, else of the last month's mean. */
function toCome(growing: Growing, warmth: Warmth, today: number): number[] {
  const month = Array.from({ length: 28 }, (_, d) => warmth.get(today - d)).filter((t) => t !== undefined);
  const mean = month.reduce((a, b) => a + b, 0) / month.length;
  return Array.from({ length: horizon }, (_, d) => {
    const celsius = warmth.get(today + d - 365) ?? warmth.get(today + d - 730) ?? mean;
    return Number.isFinite(celsius) ? growing.dayUnits(celsius) : 0;
  });
}
