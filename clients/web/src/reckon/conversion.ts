// How much feed a kilogram of growth took, between the last two weighings.
import { day, type Book } from '../book/book';
import { number, type Ask } from './asking';
import type { Live } from './reckoning';

/** Days between weighings below which the scale's error drowns the growth; common practice, no source. */
const shortest = 10;

/** Feed over gain of a herd, and the days it is taken over; undefined where weighings or feedings do not reach. */
export function conversionOf(ask: Ask, book: Book, { herd }: Live): { ratio: number; days: number } | undefined {
  const last = herd.weights.at(-1);
  const before = herd.weights.findLast((w) => last && last.at - w.at > shortest * day);
  if (!last || !before || book.now - before.at > 60 * day) return undefined;
  const feed_g = book.lately.reduce((sum, e) => (e.kind === 'feeding' && e.body.cohortId === herd.cohort.id && e.at >= before.at && e.at < last.at ? sum + e.body.massG : sum), 0);
  const gain_g = (last.grams - before.grams) * herd.alive;
  const ratio = feed_g > 0 && gain_g > 0 ? number(ask, 'feed_conversion_ratio', { feed_g, gain_g }) : undefined;
  return ratio === undefined ? undefined : { ratio, days: Math.round((last.at - before.at) / day) };
}
