// Across the page: where each lane of water runs beside each vessel, and where
// it crosses from one stretch to the next.
import type { Reach } from './lanes';

export interface Course {
  /** Lanes by number: where they come in at the top, run beside the vessel, and go out below. */
  top: Record<number, number>;
  mid: Record<number, number>;
  bottom: Record<number, number>;
}

/** Where the way back to the first vessel runs, px from the inline start. */
export const wayBack = 7;

/** The middle of the canal that beds hang on. */
export const canalAt = 34;

/** Another lane that runs by while beds hang. */
const asideAt = 14;

/** Lays out a loop's reaches on a column of this width; hangs tells after which of them beds hang. */
export function courses(reaches: readonly Reach[], width: number, hangs: readonly boolean[]): Course[] {
  let above: Record<number, number> = {};
  return reaches.map((reach, i) => {
    const lanes = [...new Set([reach.lane, ...reach.arriving, ...reach.passing, ...reach.leaving])];
    const many = Math.max(...lanes) + 1;
    const at = (lane: number): number => wayBack + 6 + ((width - wayBack - 8) * (lane + 0.5)) / many;
    const mid = Object.fromEntries(lanes.map((l) => [l, at(l)]));
    const hung = (l: number): number => (l === reach.lane ? Math.min(canalAt, width - 12) : asideAt);
    const bottom = Object.fromEntries(lanes.map((l) => [l, hangs[i] ? hung(l) : at(l)]));
    const course = { top: { ...mid, ...above }, mid, bottom };
    above = bottom;
    return course;
  });
}
