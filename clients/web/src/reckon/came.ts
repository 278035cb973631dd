// What was fed and poured in a loop between two moments, as it was noted.
import type { Book, Loop } from '../book/book';
import { equivalents } from './carrying';

/** Percent, for feedings that name no feed. */
export const usualProtein = 32;

interface Placed {
  vesselId: string;
  cohortId?: string;
  systemId?: string;
}

/** Tells what happened in the loop; what names no place did, where the site has one loop alone. */
export function inLoop(book: Book, loop: Loop): (what: Placed) => boolean {
  const here = new Set([...(book.loops.length === 1 ? [''] : []), ...loop.vessels.map((v) => v.id)]);
  const cohorts = new Set(loop.cohorts.map((c) => c.id));
  return ({ cohortId, systemId, vesselId }) => (cohortId ? cohorts.has(cohortId) : systemId ? systemId === loop.system.id : here.has(vesselId));
}

/** Grams that were eaten, and the protein of them, 0 to 1. */
export function fedIn(book: Book, loop: Loop, from: number, to: number): { eatenG: number; protein: number } {
  const here = inLoop(book, loop);
  const percent = new Map(book.feeds.map((f) => [f.id, f.proteinPercent]));
  let [eatenG, proteinG] = [0, 0];
  for (const e of book.lately) {
    if (e.kind !== 'feeding' || e.at < from || e.at >= to || !here(e.body)) continue;
    const eaten = Math.max(0, e.body.massG - e.body.leftG);
    eatenG += eaten;
    proteinG += (eaten * (percent.get(e.body.feedId) ?? usualProtein)) / 100;
  }
  return { eatenG, protein: eatenG > 0 ? proteinG / eatenG : usualProtein / 100 };
}

/** Litres that were added and let go. */
export function pouredIn(book: Book, loop: Loop, from: number, to: number): { in: number; out: number } {
  const here = inLoop(book, loop);
  const sum = { in: 0, out: 0 };
  for (const e of book.lately) {
    if ((e.kind !== 'waterIn' && e.kind !== 'waterOut') || e.at < from || e.at >= to) continue;
    if (here(e.body)) sum[e.kind === 'waterIn' ? 'in' : 'out'] += e.body.volumeL;
  }
  return sum;
}

/** Alkalinity of the bases that were put in, g as CaCO3. */
export function basePutIn(book: Book, loop: Loop, from: number, to: number): number {
  const here = inLoop(book, loop);
  let grams = 0;
  for (const e of book.lately) {
    if (e.kind !== 'dosing' || e.at < from || e.at >= to || !here(e.body)) continue;
    grams += (e.body.massG / (equivalents[e.body.substance] ?? Infinity)) * 50.04;
  }
  return grams;
}
