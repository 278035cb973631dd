// How a cohort grows here: told from its own weighings and the warmth between them.
import { day } from '../book/book';
import type { Herd, Weight } from '../book/herds';
import { number, speciesName, type Ask } from './asking';

/** Mean water temperature of each day, by days since 1970 in the site's zone. */
export type Warmth = ReadonlyMap<number, number>;

export interface Growth {
  /** Thermal-unit growth coefficient in the form times 1000. */
  coefficient: number;
  /** Its coefficient of variation. */
  cv: number;
  /** Intervals between weighings it rests on. */
  intervals: number;
}

/** The day a moment lies in, as a number; shift is the zone's offset, ms. */
export const dayNumber = (at: number, shift: number): number => Math.floor((at + shift) / day);

export class Growing {
  private readonly unitsAt = new Map<number, number>();

  constructor(
    private readonly ask: Ask,
    readonly herd: Herd,
    private readonly warmth: Warmth,
    private readonly shift: number,
  ) {}

  /** Growth units of a day at this warmth. */
  dayUnits(celsius: number): number {
    const key = Math.round(celsius * 20);
    let units = this.unitsAt.get(key);
    if (units === undefined) {
      units = number(this.ask, 'growth_units', { species: speciesName(this.herd.cohort.species), temperature_celsius: key / 20 }) ?? 0;
      this.unitsAt.set(key, units);
    }
    return units;
  }

  /** Growth units from one day up to another; days without readings count as the last that had one. */
  private units(from: number, to: number): number {
    let sum = 0;
    let last: number | undefined;
    for (let d = from; d < to; d++) {
      last = this.warmth.get(d) ?? last;
      if (last !== undefined) sum += this.dayUnits(last);
    }
    return sum;
  }

  private between(a: Weight, b: Weight): number {
    return this.units(dayNumber(a.at, this.shift), dayNumber(b.at, this.shift));
  }

  /** The growth coefficient from the last five weighings; undefined where fewer than two tell. */
  growth(): Growth | undefined {
    const recent = this.herd.weights.slice(-5);
    const each = recent.slice(1).flatMap((w, i) => {
      const before = recent[i]!;
      const heat = this.between(before, w);
      const c = (Math.cbrt(w.grams) - Math.cbrt(before.grams)) / heat * 1000;
      return heat > 0 && Number.isFinite(c) && c > 0 ? [c] : [];
    });
    return spread(each);
  }

  /** Mean weight at a moment: between weighings on a straight line of cube roots, after the last grown on. */
  weightAt(at: number): number | undefined {
    const { weights } = this.herd;
    const before = weights.findLast((w) => w.at <= at) ?? weights[0];
    if (!before) return undefined;
    const after = weights.find((w) => w.at > at);
    if (after && after !== before) {
      const share = Math.max(0, (at - before.at) / (after.at - before.at));
      return (Math.cbrt(before.grams) + share * (Math.cbrt(after.grams) - Math.cbrt(before.grams))) ** 3;
    }
    const growth = this.growth();
    const degree_days = this.units(dayNumber(before.at, this.shift), dayNumber(at, this.shift));
    if (!growth || degree_days < 0.1) return before.grams;
    return number(this.ask, 'weight_by_heat', { start_g: before.grams, coefficient_x1000: growth.coefficient, degree_days }) ?? before.grams;
  }
}

/** Mean and spread; few intervals are never taken as surer than twenty weighed fish leave open. */
function spread(each: readonly number[]): Growth | undefined {
  if (each.length === 0) return undefined;
  const mean = each.reduce((a, b) => a + b, 0) / each.length;
  const squares = each.reduce((a, b) => a + (b - mean) ** 2, 0);
  const cv = each.length > 1 ? Math.max(0.08, (Math.sqrt(squares / (each.length - 1)) / mean) * Math.sqrt(1 + 1 / each.length)) : 0.2;
  return { coefficient: mean, cv, intervals: each.length };
}
