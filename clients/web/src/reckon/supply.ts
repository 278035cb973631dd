// Gaps and gluts: what the windows give week by week against what is used, and
// which sowing would close a gap.
import type { Bearing, Window } from './bearing';

/** A week that gives less than this share of the use is a gap, more than that a glut; common practice, no source. */
export const gapBelow = 0.75;
export const glutAbove = 1.5;

export const weeksAhead = 26;

export interface CropWeeks {
  crop: string;
  useKg: number;
  /** kg of each week from the first. */
  supply: number[];
}

/** Monday of the week of a day number: 1970 began on a Thursday. */
export const mondayOf = (d: number): number => d - ((((d + 3) % 7) + 7) % 7);

/** What windows of a crop give in the seven days from a day. */
export function supplyIn(windows: readonly Window[], crop: string, from: number): number {
  return windows.filter((w) => w.crop === crop).reduce((sum, w) => sum + w.kgPerWeek * shareOfWeek(w, from), 0);
}

/** A window shorter than a week gives all of its harvest in its own days. */
function shareOfWeek(w: Window, from: number): number {
  const days = Math.min(w.last, from + 6) - Math.max(w.first, from) + 1;
  return Math.max(0, days) / Math.min(7, w.last - w.first + 1);
}

/** Every wanted crop's weeks to come. */
export function weeksOf(bearing: Bearing, windows: readonly Window[], from = mondayOf(bearing.today)): CropWeeks[] {
  return wants(bearing).map(({ crop, useKg }) => ({
    crop, useKg, supply: Array.from({ length: weeksAhead }, (_, i) => supplyIn(windows, crop, from + 7 * i)),
  }));
}

/** What the household uses, crop by crop. */
export function wants(bearing: Bearing): { crop: string; useKg: number }[] {
  return bearing.book.crops.filter((c) => c.useKgPerWeek > 0).map((c) => ({ crop: c.crop, useKg: c.useKgPerWeek }));
}

export type WeekState = 'gap' | 'enough' | 'glut';

export const stateOf = (supply: number, use: number): WeekState => (supply < use * gapBelow ? 'gap' : supply > use * glutAbove ? 'glut' : 'enough');

export interface SowingIdea {
  crop: string;
  /** Where there is room; undefined: nowhere. */
  bed: string | undefined;
  areaM2: number;
  window: Window;
  /** kg that week has without it, and what it wants. */
  has: number;
  wants: number;
}

/** Sowings of this week that serve the first week they could bear in, where that week would be a gap. */
export function ideas(bearing: Bearing, windows: readonly Window[]): SowingIdea[] {
  const room = new Map(bearing.beds().map((b) => [b.id, 0]));
  return wants(bearing).flatMap(({ crop, useKg }): SowingIdea[] => {
    const of = bearing.window(crop, '', bearing.today, 1);
    if (!of) return [];
    const has = supplyIn(windows, crop, of.first);
    if (stateOf(has, useKg) !== 'gap') return [];
    const wanted = (useKg - has) / of.kgPerWeek;
    const best = roomiest(bearing, windows, of, room);
    const areaM2 = best ? Math.min(wanted, best.free) : wanted;
    if (areaM2 < 0.05) return [];
    if (best) room.set(best.id, room.get(best.id)! + areaM2);
    const window = { ...of, bed: best?.id ?? '', areaM2, kgPerWeek: of.kgPerWeek * areaM2 };
    return [{ crop, bed: best?.id, areaM2, window, has, wants: useKg }];
  });
}

/** The bed with most room for as long as the crop stands, less what this week's list already took. */
function roomiest(bearing: Bearing, windows: readonly Window[], of: Window, taken: ReadonlyMap<string, number>): { id: string; free: number } | undefined {
  return bearing
    .beds()
    .filter((b) => b.covered || standsOpen(bearing, of))
    .map((b) => ({ id: b.id, free: freeIn(bearing, windows, b.id, of.sown, of.last) - (taken.get(b.id) ?? 0) }))
    .filter((b) => b.free >= 0.05)
    .sort((a, b) => b.free - a.free)[0];
}

/** Least area free in a bed over a span of days. */
export function freeIn(bearing: Bearing, windows: readonly Window[], bed: string, from: number, to: number): number {
  const whole = bearing.bed(bed)?.areaM2 ?? 0;
  let least = whole;
  for (let d = from; d <= to; d += 7) {
    least = Math.min(least, whole - windows.filter((w) => w.bed === bed && w.sown <= d && w.last >= d).reduce((s, w) => s + w.areaM2, 0));
  }
  return Math.max(0, least);
}

/** Whether frost spares it in the open from sowing to its first week. Beds without frost dates have none to fear. */
export function standsOpen(bearing: Bearing, of: Window): boolean {
  const { lastFrost, firstFrost } = bearing.book.site;
  if (!lastFrost || !firstFrost) return true;
  const year = new Date(of.sown * 86_400_000).getUTCFullYear();
  const on = (md: string, y: number): number => Date.parse(`${y}-${md}T00:00:00Z`) / 86_400_000;
  return [year - 1, year].some((y) => {
    const from = on(lastFrost, y);
    const to = on(firstFrost, on(firstFrost, y) > from ? y : y + 1);
    return of.sown > from && of.first + 7 <= to;
  });
}
