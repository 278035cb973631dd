// Is the water safe today? Each figure with what it rests on, how it stands,
// and the single change that would turn it.
import { day, newestIn, type Book, type Kept, type Loop } from '../book/book';
import type { Newest } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { number, pressing, speciesName, type Ask, type Standing } from './asking';

export type Figure = 'ammonia' | 'oxygen' | 'nitrite' | 'temperature' | 'ph' | 'carbonDioxide' | 'nitrate';

/** One value an answer rests on. */
export type Used =
  | { reading: Newest }
  | { setting: 'ammoniaLimit' | 'oxygenLimit' | 'elevation' | 'low' | 'high'; value: number; from: Source };

/** Who set a bound. */
export type Source = { kind: 'loop' } | { kind: 'species'; species: string } | { kind: 'site' } | { kind: 'published'; source: string };

export interface Judged {
  figure: Figure;
  standing: Standing;
  /** In the figure's own unit: mg/L as N, percent of saturation, degC, pH, mg/L. */
  value: number | undefined;
  used: Used[];
  source: string;
  /** Quantities that were never read here. */
  missing: Quantity[];
  /** Readings too old to lean on. */
  old: Newest[];
  /** Bounds, and what else the sentence tells, by name. */
  facts: Partial<Record<'limit' | 'low' | 'high' | 'turnsAtPh' | 'safeBelow' | 'full' | 'measured' | 'chlorideRatio', number>>;
  /** Whose bound is broken, where a species' is. */
  species?: string;
}

/** How old a hand test may be, and what a probe says. */
const tested = 4 * day;
const read = day / 2;

/** FAO TP 589 prints 5 to 150 mg/L of nitrate as ion; a seventh of it, nearly, is nitrogen. */
const nitrateIonPerN = 62.004 / 14.007;

/** Judges a loop's water, most pressing first. */
export function judgeWater(ask: Ask, book: Book, loop: Loop): Judged[] {
  const g = new Glass(ask, book, loop);
  return [g.ammonia(), g.oxygen(), g.nitrite(), g.temperature(), g.ph(), g.carbonDioxide(), g.nitrate()].sort(pressing);
}

/** A loop's water looked at at one moment. */
export class Glass {
  readonly species: string[];

  constructor(
    private readonly ask: Ask,
    private readonly book: Book,
    private readonly loop: Loop,
  ) {
    this.species = [...new Set(loop.cohorts.map((c) => c.species))];
  }

  newest(q: Quantity): Newest | undefined {
    return newestIn(this.book, this.loop, q);
  }

  private system(): Kept<'system'> {
    return this.loop.system;
  }

  /** Starts an answer: what is missing and what is old among the readings it needs. */
  private begin(figure: Figure, source: string, needs: Partial<Record<Quantity, number>>): { judged: Judged; values: number[]; whole: boolean } {
    const asked = (Object.keys(needs).map(Number) as Quantity[]).map((q) => ({ q, newest: this.newest(q) }));
    const there = asked.flatMap((a) => a.newest ?? []);
    const judged: Judged = {
      figure, source, standing: 'unknown', value: undefined, facts: {},
      used: there.map((reading) => ({ reading })),
      missing: asked.filter((a) => !a.newest).map((a) => a.q),
      old: there.filter((n) => this.book.now - n.entry.at > (needs[n.quantity] ?? tested)),
    };
    return { judged, values: asked.map((a) => a.newest?.value ?? NaN), whole: judged.missing.length === 0 };
  }

  ammoniaLimit(): { value: number; from: Source } {
    const set = this.system().targetUnionizedAmmoniaHighMgPerL;
    if (set > 0) return { value: set, from: { kind: 'loop' } };
    return this.strictest('species_unionized_ammonia_limit', { value: 0.05, from: { kind: 'published', source: 'UF/IFAS FA-16' } }, (a, b) => a < b);
  }

  oxygenLimit(): { value: number; from: Source } {
    const set = this.system().targetOxygenLowMgPerL;
    if (set > 0) return { value: set, from: { kind: 'loop' } };
    const all = { value: 5, from: { kind: 'published', source: 'FAO TP 589' } } as const;
    return this.strictest('species_oxygen_minimum', this.species.length === 0 ? all : { value: 0, from: all.from }, (a, b) => a > b, all);
  }

  private strictest(
    formula: string, start: { value: number; from: Source }, stricter: (a: number, b: number) => boolean, none = start,
  ): { value: number; from: Source } {
    let best = start;
    for (const species of this.species) {
      const v = number(this.ask, formula, { species: speciesName(species) });
      if (v !== undefined && v > 0 && stricter(v, best.value)) best = { value: v, from: { kind: 'species', species } };
    }
    return best.value > 0 ? best : none;
  }

  ammonia(): Judged {
    const { judged, values, whole } = this.begin('ammonia', 'Emerson, Russo, Lund & Thurston 1975', {
      [Quantity.TOTAL_AMMONIA]: tested, [Quantity.PH]: tested, [Quantity.WATER_TEMPERATURE]: tested,
    });
    if (!whole) return judged;
    const given = this.named(judged, { tan_mg_n_per_l: Quantity.TOTAL_AMMONIA, ph: Quantity.PH, temperature_celsius: Quantity.WATER_TEMPERATURE });
    judged.value = number(this.ask, 'uia_concentration', given);
    if (judged.value === undefined || values.some(Number.isNaN)) return judged;
    const limit = this.ammoniaLimit();
    judged.used.push({ setting: 'ammoniaLimit', ...limit });
    const limit_mg_n_per_l = limit.value;
    judged.facts.limit = limit_mg_n_per_l;
    const share = judged.value / limit_mg_n_per_l;
    judged.standing = share > 1 ? 'act' : share > 0.5 ? 'watch' : 'well';
    const { ph, ...atAnyPh } = given;
    judged.facts.turnsAtPh = number(this.ask, 'ph_at_ammonia_limit', { ...atAnyPh, limit_mg_n_per_l });
    const { tan_mg_n_per_l: _, ...atAnyTotal } = given;
    judged.facts.safeBelow = number(this.ask, 'ammonia_at_limit', { ...atAnyTotal, limit_mg_n_per_l });
    return judged;
  }

  /** Readings under the names a formula gives its inputs. */
  private named(judged: Judged, names: Record<string, Quantity>): Record<string, number> {
    const value = (q: Quantity): number => {
      const used = judged.used.find((u): u is { reading: Newest } => 'reading' in u && u.reading.quantity === q);
      return used?.reading.value ?? NaN;
    };
    return Object.fromEntries(Object.entries(names).map(([name, q]) => [name, value(q)]));
  }

  oxygen(): Judged {
    const { judged, whole } = this.begin('oxygen', 'Benson & Krause 1984; Standard Methods 4500-O', {
      [Quantity.DISSOLVED_OXYGEN]: read, [Quantity.WATER_TEMPERATURE]: read,
    });
    if (!whole) return judged;
    const elevation_m = this.book.site.elevationM;
    const given = this.named(judged, { do_mg_per_l: Quantity.DISSOLVED_OXYGEN, temperature_celsius: Quantity.WATER_TEMPERATURE });
    const { do_mg_per_l: measured = NaN, ...water } = given;
    judged.value = number(this.ask, 'do_percent', { ...given, elevation_m });
    const limit = this.oxygenLimit();
    judged.used.push({ setting: 'elevation', value: elevation_m, from: { kind: 'site' } }, { setting: 'oxygenLimit', ...limit });
    judged.facts = { measured, limit: limit.value, full: number(this.ask, 'do_saturation', { ...water, elevation_m }) ?? NaN };
    if (judged.value !== undefined) judged.standing = measured < limit.value ? 'act' : measured < limit.value * 1.15 ? 'watch' : 'well';
    return judged;
  }

  nitrite(): Judged {
    const judged = this.ranged('nitrite', Quantity.NITRITE, 0, 0.3, { kind: 'published', source: 'FAO TP 589' });
    const chloride = this.newest(Quantity.CHLORIDE);
    if (judged.value === undefined) return judged;
    if (chloride && judged.value > 0) {
      judged.used.push({ reading: chloride });
      judged.facts.chlorideRatio = chloride.value / judged.value;
    } else if (!chloride && judged.standing !== 'well') judged.missing.push(Quantity.CHLORIDE);
    if (judged.value > 1) judged.standing = 'act';
    return judged;
  }

  nitrate(): Judged {
    return this.ranged('nitrate', Quantity.NITRATE, 5 / nitrateIonPerN, 150 / nitrateIonPerN, { kind: 'published', source: 'FAO TP 589' });
  }

  ph(): Judged {
    const { targetPhLow, targetPhHigh } = this.system();
    const from: Source = targetPhLow || targetPhHigh ? { kind: 'loop' } : { kind: 'published', source: 'FAO TP 589' };
    const judged = this.ranged('ph', Quantity.PH, targetPhLow || 6, targetPhHigh || 7.5, from);
    const { value, facts } = judged;
    // At the bound, to the digits a person reads, it is still within.
    if (value !== undefined && (Math.abs(value - facts.low!) < 0.05 || Math.abs(value - facts.high!) < 0.05)) judged.standing = 'well';
    return judged;
  }

  private ranged(figure: Figure, q: Quantity, low: number, high: number, from: Source): Judged {
    const { judged, values, whole } = this.begin(figure, from.kind === 'published' ? from.source : '', { [q]: 2 * tested });
    if (!whole) return judged;
    const value = values[0]!;
    judged.used.push({ setting: 'low', value: low, from }, { setting: 'high', value: high, from });
    return { ...judged, value, facts: { low, high }, standing: value < low || value > high ? 'watch' : 'well' };
  }

  temperature(): Judged {
    const { judged, values, whole } = this.begin('temperature', '', { [Quantity.WATER_TEMPERATURE]: read });
    if (!whole) return judged;
    judged.value = values[0]!;
    judged.standing = 'well';
    for (const species of this.species) this.warmthFor(judged, species, values[0]!);
    return judged;
  }

  private warmthFor(judged: Judged, species: string, celsius: number): void {
    const of = (column: string) => this.ask('species_' + column, { species: speciesName(species) });
    const [dies, feeds, stops, boils] = [of('lethal_low'), of('feeding_low'), of('feeding_high'), of('lethal_high')];
    const known = (t: ReturnType<typeof of>): number => (t && t.source !== '' ? t.value : NaN);
    const deadly = celsius <= known(dies) + 1 || celsius >= known(boils) - 1;
    const cold = celsius < known(feeds);
    if (!deadly && !cold && !(celsius > known(stops))) return;
    if (judged.standing === 'act') return;
    judged.standing = deadly ? 'act' : 'watch';
    judged.species = species;
    judged.source = (deadly ? dies : cold ? feeds : stops)?.source ?? '';
    judged.facts = deadly ? { limit: celsius <= known(dies) + 1 ? known(dies) : known(boils) } : cold ? { low: known(feeds) } : { high: known(stops) };
  }

  carbonDioxide(): Judged {
    const { judged, whole } = this.begin('carbonDioxide', 'Plummer & Busenberg 1982', {
      [Quantity.PH]: tested, [Quantity.WATER_TEMPERATURE]: tested, [Quantity.ALKALINITY]: 14 * day,
    });
    if (!whole) return judged;
    const given = this.named(judged, { ph: Quantity.PH, temperature_celsius: Quantity.WATER_TEMPERATURE, alkalinity_mg_per_l: Quantity.ALKALINITY });
    judged.value = number(this.ask, 'co2_concentration', given);
    judged.facts.high = 20; // a common target; common practice, no source
    if (judged.value !== undefined) judged.standing = judged.value > 20 ? 'watch' : 'well';
    return judged;
  }
}
