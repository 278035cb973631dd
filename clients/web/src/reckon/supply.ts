// Gaps and gluts: what the windows give week by week against what is used, and
// which sowing would close a gap.
import { day, type Kept } from '../book/book';
import { dateOf, dayOf, type Bearing, type Window } from './bearing';

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

/** Sowings of this week that serve the first week they could bear in, where that week would be a gap. Under cover a crop may bear weeks before it would in the open, so each has its own gap. */
export function ideas(bearing: Bearing, windows: readonly Window[]): SowingIdea[] {
  const room = new Map(bearing.beds().map((b) => [b.id, 0]));
  return wants(bearing).flatMap(({ crop, useKg }): SowingIdea[] => {
    let borne = windows;
    const found = bearing.climes().flatMap((beds): SowingIdea[] => {
      const idea = ideaIn(bearing, borne, beds, crop, useKg, room);
      if (!idea) return [];
      if (idea.bed) borne = [...borne, idea.window];
      return [idea];
    });
    const placed = found.filter((i) => i.bed);
    return placed.length ? placed : found.slice(0, 1);
  });
}

function ideaIn(bearing: Bearing, windows: readonly Window[], beds: readonly Kept<'bed'>[], crop: string, useKg: number, room: Map<string, number>): SowingIdea | undefined {
  const of = bearing.window(crop, beds[0]?.id ?? '', bearing.today, 1);
  if (!of) return undefined;
  const has = supplyIn(windows, crop, of.first);
  if (stateOf(has, useKg) !== 'gap') return undefined;
  // Where nothing grows meanwhile, next week's sowing bears as soon.
  if (bearing.window(crop, beds[0]?.id ?? '', bearing.today + 7, 1)?.first === of.first) return undefined;
  const wanted = (useKg - has) / of.kgPerWeek;
  const best = roomiest(bearing, windows, beds, of, room);
  const areaM2 = best ? Math.min(wanted, best.free) : wanted;
  if (areaM2 < 0.05) return undefined;
  if (best) room.set(best.id, room.get(best.id)! + areaM2);
  const window = { ...of, bed: best?.id ?? '', areaM2, kgPerWeek: of.kgPerWeek * areaM2 };
  return { crop, bed: best?.id, areaM2, window, has, wants: useKg };
}

/** The bed with most room for as long as the crop stands, less what this week's list already took. */
function roomiest(bearing: Bearing, windows: readonly Window[], beds: readonly Kept<'bed'>[], of: Window, taken: ReadonlyMap<string, number>): { id: string; free: number } | undefined {
  return beds
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
  const [last, first] = frostsAbout(of.sown, lastFrost, firstFrost);
  const told = bearing.ask('stands_open', { crop: of.crop, today: dateOf(of.sown), first: dateOf(of.first), last_frost: last, first_frost: first });
  return told?.text === 'yes';
}

/** The last frost and the first of the warm season that a day lies in or, after it, of the next. */
function frostsAbout(today: number, lastFrost: string, firstFrost: string): [last: string, first: string] {
  const year = new Date(today * day).getUTCFullYear();
  const past = today >= dayOf(`${year}-${firstFrost}`);
  const across = firstFrost <= lastFrost;
  return [`${year - Number(across && !past) + Number(!across && past)}-${lastFrost}`, `${year + Number(past)}-${firstFrost}`];
}
