// What a trial shows, from this phone's own records, by the method fixed for all
// trials: arms within beds where every bed holds both (Yates 1933), else Welch's
// comparison of plantings. Who looks again and again finds something by chance in
// the end: before the last day a difference is told only at 1 in 1,000 (Haybittle
// 1971, Peto et al. 1976), then at 1 in 20; several arms share it (Dunn 1961).
import { day, type Kept } from '../book/book';
import type { EntryOf } from '../book/book';
import type { Stand } from '../book/plantings';
import { TrialMeasure } from '../gen/freshet/v1/trial_pb';
import { number, type Ask } from '../reckon/asking';
import { dayOf, type Bearing } from '../reckon/bearing';
import { dayNumber } from '../reckon/growth';

/** One planting of a trial with what it gave; undefined where nothing was picked yet. */
export interface Plot {
  stand: Stand;
  arm: number;
  value: number | undefined;
}

/** A further arm against the first. */
export interface Difference {
  arm: number;
  value: number;
  low: number;
  high: number;
  confidence: number;
  /** Plantings in each arm that would tell a difference worth knowing in 8 of 10 such trials. */
  wanted: number | undefined;
}

/** One look at a trial. */
export interface Look {
  /** Day number. */
  on: number;
  over: boolean;
  plots: Plot[];
  /** By arm after the first; undefined where too few plantings gave something. */
  differences: (Difference | undefined)[];
}

/** Looks at a trial with what was noted up to a day. */
export function lookAt(ask: Ask, bearing: Bearing, trial: Kept<'trial'>, on: number): Look {
  const over = trial.toOn !== '' && on > dayOf(trial.toOn);
  const end = over ? dayOf(trial.toOn) : on;
  const plots = trial.arms.flatMap((arm, i) => arm.plantingIds.flatMap((id): Plot[] => {
    const stand = bearing.all.find((s) => s.planting.id === id);
    return stand ? [{ stand, arm: i, value: measured(bearing, trial, stand, end) }] : [];
  }));
  const confidence = 1 - (over ? 0.05 : 0.001) / Math.max(1, trial.arms.length - 1);
  const differences = trial.arms.slice(1).map((_, i) => difference(ask, plots, i + 1, confidence, trial.worthwhilePercent || 20));
  return { on, over, plots, differences };
}

/** What a planting gave from the trial's first day to a day. */
function measured(bearing: Bearing, trial: Kept<'trial'>, stand: Stand, end: number): number | undefined {
  const { book, shift } = bearing;
  const from = dayOf(trial.fromOn);
  const picked = book.plants.filter((e): e is EntryOf<'bedHarvest'> => {
    const d = dayNumber(e.at, shift);
    return e.kind === 'bedHarvest' && e.body.plantingId === stand.planting.id && d >= from && d <= end;
  });
  if (picked.length === 0) return undefined;
  const sum = (of: (e: EntryOf<'bedHarvest'>) => number): number => picked.reduce((s, e) => s + of(e), 0);
  if (trial.measure === TrialMeasure.PIECES_PER_PLANT) return sum((e) => e.body.piecesCount) / Math.max(1, stand.planting.plantsCount);
  if (trial.measure === TrialMeasure.DAYS_TO_BEARING) {
    const began = stand.transplanted ?? stand.began;
    return began === undefined ? undefined : dayNumber(picked[0]!.at, shift) - dayNumber(began, shift);
  }
  return sum((e) => e.body.massG) / 1000 / bearing.area(stand);
}

/** Mean of an arm; undefined where nothing was measured. */
export function meanOf(plots: readonly Plot[], arm: number): number | undefined {
  const v = valuesOf(plots, arm).map((p) => p.value);
  return v.length > 0 ? v.reduce((a, b) => a + b, 0) / v.length : undefined;
}

const valuesOf = (plots: readonly Plot[], arm: number): { value: number; bed: string }[] =>
  plots.flatMap((p) => (p.arm === arm && p.value !== undefined ? [{ value: p.value, bed: p.stand.planting.bedId }] : []));

function difference(ask: Ask, plots: readonly Plot[], arm: number, confidence: number, worthwhile: number): Difference | undefined {
  const [first, other] = [valuesOf(plots, 0), valuesOf(plots, arm)];
  const given = blocked(first, other) ? within(first, other) : { x: list(other), y: list(first) };
  const [name, se] = 'x' in given ? ['welch_difference', 'welch_t'] : ['adjusted_difference', 'adjusted_se'];
  const told = ask(name!, { ...given, confidence });
  if (!told || !Number.isFinite(told.value) || !Number.isFinite(told.low)) return undefined;
  const scale = number(ask, se!, { ...given, confidence });
  const error = scale === undefined ? undefined : 'x' in given ? told.value / scale : scale;
  return { arm, value: told.value, low: told.low, high: told.high, confidence, wanted: wanted(ask, plots, arm, error, worthwhile) };
}

/** Every bed, of two at least, holds both arms. */
function blocked(first: readonly { bed: string }[], other: readonly { bed: string }[]): boolean {
  const beds = (of: readonly { bed: string }[]): string => [...new Set(of.map((v) => v.bed))].sort().join();
  return new Set(first.map((v) => v.bed)).size > 1 && beds(first) === beds(other);
}

const list = (of: readonly { value: number }[]): string => `[${of.map((v) => v.value).join(' ')}]`;

function within(first: readonly { value: number; bed: string }[], other: readonly { value: number; bed: string }[]): Record<string, string> {
  const all = [...first, ...other];
  const arms = [...first.map(() => '1'), ...other.map(() => '2')];
  return { value: list(all), block: `[${all.map((v) => v.bed).join(' ')}]`, a: `[${arms.join(' ')}]`, contrast: 'a2' };
}

function wanted(ask: Ask, plots: readonly Plot[], arm: number, error: number | undefined, worthwhile: number): number | undefined {
  const mean = meanOf(plots, 0);
  const n = Math.min(valuesOf(plots, 0).length, valuesOf(plots, arm).length);
  if (!mean || !error || !Number.isFinite(error)) return undefined;
  return number(ask, 'beds_needed', { delta: (Math.abs(mean) * worthwhile) / 100, sd: Math.abs(error) * Math.sqrt(n / 2) });
}

/** The days on which it is looked at: the first of each month since something could be told, and today or the last day. */
export function looks(ask: Ask, bearing: Bearing, trial: Kept<'trial'>): Look[] {
  const last = Math.min(bearing.today, trial.toOn ? dayOf(trial.toOn) + 1 : Infinity);
  const days = [];
  for (let on = last; on > dayOf(trial.fromOn); on--) if (on === last || new Date(on * day).getUTCDate() === 1) days.unshift(on);
  return days.slice(-8).map((on) => lookAt(ask, bearing, trial, on)).filter((l, i, all) => i === all.length - 1 || l.differences.some(Boolean));
}

/** Whether a difference is told, and which way. */
export const verdict = (d: Difference): 'more' | 'less' | 'open' => (d.low > 0 ? 'more' : d.high < 0 ? 'less' : 'open');
