// A trial in words.
import type { Kept } from '../book/book';
import type { Desk } from '../desk.svelte';
import { TrialMeasure } from '../gen/freshet/v1/trial_pb';
import { verdict, type Look } from './compared';

/** What an arm is called on the sheet. */
export const letter = (arm: number): string => 'ABCDEF'[arm] ?? '?';

/** A measured value, or a difference of two, with its unit. */
export function figure(desk: Desk, measure: TrialMeasure, value: number): string {
  if (measure === TrialMeasure.PIECES_PER_PLANT) return desk.t.trial.pieces(desk.say.number(value, 2));
  if (measure === TrialMeasure.DAYS_TO_BEARING) return desk.t.trial.days(desk.say.number(value, 2));
  return desk.say.amount('yield', value, 2);
}

/** What a look tells, one sentence for each further arm, with what would tell more. */
export function says(desk: Desk, trial: Kept<'trial'>, look: Look): { arm: number; words: string; told: boolean; wanted: string }[] {
  const t = desk.t.trial;
  const of = (v: number): string => figure(desk, trial.measure, v);
  return trial.arms.slice(1).map((other, i) => {
    const d = look.differences[i];
    const first = trial.arms[0]!.name;
    if (!d) return { arm: i + 1, words: t.tooFew(other.name, first), told: false, wanted: '' };
    const way = verdict(d);
    const [near, far] = [Math.abs(d.low), Math.abs(d.high)].sort((a, b) => a - b).map(of);
    const wanted = d.wanted === undefined ? '' : t.wanted(desk.say.percent((trial.worthwhilePercent || 20) / 100), d.wanted);
    if (way === 'open') return { arm: i + 1, words: t[d.value < 0 ? 'openLess' : 'openMore'](other.name, first, of(Math.abs(d.value)), of(Math.abs(d.low)), of(d.high)), told: false, wanted };
    const words = t[way === 'more' ? 'decidedMore' : 'decidedLess'](other.name, first, of(Math.abs(d.value)), near!, far!, desk.say.places(d.confidence * 100, 2));
    return { arm: i + 1, words, told: true, wanted: '' };
  });
}
