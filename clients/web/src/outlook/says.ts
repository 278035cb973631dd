// The words for what is told of the days to come.
import type { Desk } from '../desk.svelte';
import type { Told } from './coming';
import type { Judged } from '../reckon/water';
import { asOfLate, type Named, type Otherwise } from './learnt';

/** A figure's value in the person's unit, and that unit. */
export function figureParts(desk: Desk, name: Named, v: number): { value: string; symbol: string } {
  if (name === 'temperature') return desk.say.parts('temperature', v, 3);
  return { value: desk.say.number(v, name === 'ph' || name === 'alkalinity' ? 3 : 2), symbol: desk.t.outlook.unit[name] };
}

/** A figure's value with its unit. */
export function figureSays(desk: Desk, name: Named, v: number): string {
  const { value, symbol } = figureParts(desk, name, v);
  return value + (symbol && `\u00a0${symbol}`);
}

/** What somebody may wonder about, by the names of its words. */
export const wonders = {
  unfed: { ...asOfLate, unfedDays: 2 },
  half: { ...asOfLate, feedShare: 0.5 },
  more: { ...asOfLate, feedShare: 1.5 },
  fish: { ...asOfLate, addedFishKg: 10 },
  still: { ...asOfLate, stillHours: 6 },
  cold: { ...asOfLate, airWarmerK: -5 },
  warm: { ...asOfLate, airWarmerK: 5 },
  water: { ...asOfLate, replacedShare: 0.1 },
} satisfies Record<string, Otherwise>;
export type Wonder = keyof typeof wonders;

/** From what chance on a danger is told. */
const worthSaying = 0.1;

/** The limit that is likeliest to be passed, on the day on which it is likeliest; undefined where none is worth saying. */
export function likeliest(told: readonly Told[], days: number, of: (t: Told) => { passes: number }[] = (t) => t.days): { told: Told; day: number; chance: number } | undefined {
  const all = told.flatMap((t) => of(t).slice(0, days).map((d, day) => ({ told: t, day, chance: d.passes })));
  return all.filter((a) => a.chance >= worthSaying).reduce<(typeof all)[number] | undefined>((a, b) => (a && a.chance >= b.chance ? a : b), undefined);
}

/** Figures of the water as it stands that have a limit in the days to come, by their names there. */
const standing: Partial<Record<Judged['figure'], Named>> = { ammonia: 'unionized', oxygen: 'oxygen', nitrite: 'nitrite' };

/** What the last tests say is not well, first the most pressing: the days to come must not seem to take that back. */
function amiss(water: readonly Judged[]): Named | undefined {
  const found = water.find((j) => standing[j.figure] && (j.standing === 'watch' || j.standing === 'act'));
  return found && standing[found.figure];
}

/** The sentence above all figures. */
export function comingSays(desk: Desk, found: ReturnType<typeof likeliest>, days: number, first: number, water: readonly Judged[]): string {
  const t = desk.t.outlook;
  const now = amiss(water);
  if (!found) return now ? t.calmYet(desk.say.cap(t.name[now]), days) : t.calm(days);
  const { told, day, chance } = found;
  const inTen = Math.max(1, Math.min(9, Math.round(chance * 10)));
  const says = t.passes(desk.say.cap(t.name[told.name]), told.least === true, figureSays(desk, told.name, told.limit ?? NaN), desk.say.weekdayOf(first + day), inTen);
  return now && now !== told.name ? t.besides(desk.say.cap(t.name[now]), says) : says;
}
