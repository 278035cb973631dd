// How the pages ask the husbandry formulas, which run in this phone.

/** What a formula said. */
export interface Told {
  /** NaN where the answer is a range or words. */
  value: number;
  low: number;
  high: number;
  text: string;
  unit: string;
  source: string;
}

/** Asks a formula by its name; undefined where it refuses, since an input is missing or out of range. */
export type Ask = (formula: string, given: Readonly<Record<string, string | number>>) => Told | undefined;

/** The number a formula gives, undefined where it gives none. */
export function number(ask: Ask, formula: string, given: Readonly<Record<string, string | number>>): number | undefined {
  const told = ask(formula, given);
  return told && Number.isFinite(told.value) ? told.value : undefined;
}

/** How a state stands; it is always told in words too. */
export type Standing = 'well' | 'watch' | 'act' | 'unknown';

const order: readonly Standing[] = ['well', 'unknown', 'watch', 'act'];

/** Puts what presses first. */
export const pressing = (a: { standing: Standing }, b: { standing: Standing }): number => order.indexOf(b.standing) - order.indexOf(a.standing);

/** The name the species table uses: "nile_tilapia" in records. */
export const speciesName = (species: string): string => species.replaceAll('_', ' ');
