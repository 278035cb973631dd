// What bears when: a window for each planting, from the crop table drawn
// towards the grower's own past plantings.
import type { Air } from '../book/air';
import { day, type Book, type Kept } from '../book/book';
import { pastOf, stands, type Stand } from '../book/plantings';
import { PlantingMethod } from '../gen/freshet/v1/planting_pb';
import { number, type Ask, type Told } from './asking';
import { dayNumber } from './growth';

export interface Window {
  crop: string;
  bed: string;
  /** Day numbers. */
  sown: number;
  early: number;
  first: number;
  late: number;
  last: number;
  areaM2: number;
  kgPerWeek: number;
  stand?: Stand;
}

/** Asks after windows; keeps what it was told of each crop. */
export class Bearing {
  readonly all: Stand[];
  private readonly told = new Map<string, { early: number; first: number; late: number; bearing: number; kgPerM2: number } | undefined>();

  constructor(
    readonly ask: Ask,
    readonly book: Book,
    readonly shift: number,
    private readonly air?: Air,
  ) {
    this.all = stands(book);
  }

  get today(): number {
    return dayNumber(this.book.now, this.shift);
  }

  /** The window of a crop started on a day; undefined where the crop's days are not known. */
  window(crop: string, bed: string, sown: number, areaM2: number, transplant = false): Window | undefined {
    const air = this.airOf(bed);
    const key = air ? `${crop} ${transplant} ${sown} ${air === this.air?.covered}` : crop + transplant;
    if (!this.told.has(key)) this.told.set(key, this.days(crop, transplant, sown, air));
    const t = this.told.get(key);
    if (!t) return undefined;
    const weeks = Math.max(1, t.bearing / 7);
    return {
      crop, bed, sown, areaM2, early: sown + t.early, first: sown + t.first, late: sown + t.late, last: sown + t.first + t.bearing - 1,
      kgPerWeek: (t.kgPerM2 * areaM2) / weeks,
    };
  }

  /** The air of the year at a bed; undefined where it is not known. */
  private airOf(bed: string): number[] | undefined {
    return this.bed(bed)?.covered ? this.air?.covered : this.air?.open;
  }

  /** Beds that plants come on alike in, covered ones first; all together where the air is not known. */
  climes(): Kept<'bed'>[][] {
    const beds = this.beds();
    if (!this.air?.open) return [beds];
    return [beds.filter((b) => b.covered), beds.filter((b) => !b.covered)].filter((of) => of.length > 0);
  }

  private where(air: number[] | undefined): Record<string, string | number> {
    if (!air) return {};
    return { air_of_year_celsius: `[${air.map((t) => t.toFixed(2)).join(' ')}]`, latitude_degrees: this.book.site.latitudeDegrees };
  }

  /** Days from a start to the first harvest, as good ones where the air is known. */
  private goodDays(s: Stand, days: number): number {
    const air = this.airOf(s.bed);
    const from = dayNumber(s.began!, this.shift);
    return (air && number(this.ask, 'good_days', { crop: s.planting.crop, from: dateOf(from), to: dateOf(from + days), ...this.where(air) })) ?? days;
  }

  private days(crop: string, transplant: boolean, sown: number, air: number[] | undefined) {
    const past = pastOf(this.all, crop);
    const list = (v: number[]): Record<string, string> | undefined => (v.length ? { l: `[${v.join(' ')}]` } : undefined);
    const own_days = list(past.map((p) => this.goodDays(p.stand, p.toFirst)).filter((d) => d > 0));
    const own_bearing = list(past.map((p) => p.bearing).filter((b) => b > 0));
    const told = this.ask('bearing_window', {
      crop, planted: dateOf(sown), ...this.where(air), transplant: transplant ? 'yes' : 'no', area_m2: 1,
      ...(own_days && { own_days: own_days.l! }), ...(own_bearing && { own_bearing: own_bearing.l! }),
    });
    if (!told || !Number.isFinite(told.low)) return undefined;
    const lasting = this.lasting(crop, own_bearing?.l);
    return { early: told.low, first: middle(told), late: told.high, bearing: Math.max(1, Math.round(lasting)), kgPerM2: middle(this.ask('expected_yield', { crop })) };
  }

  /** Days that a harvest lasts, drawn towards the grower's own. */
  private lasting(crop: string, own: string | undefined): number {
    const table = this.ask('bearing_days', { crop });
    if (!own || !table || !Number.isFinite(table.low)) return middle(table);
    return number(this.ask, 'shrunk_days', { published_low: table.low, published_high: table.high, own }) ?? middle(table);
  }

  /** Windows of all that stands. */
  standing(): Window[] {
    return this.all.flatMap((s) => {
      if (s.began === undefined || s.pulled !== undefined) return [];
      const began = s.transplanted ?? s.began;
      const method = s.transplanted !== undefined || s.planting.method === PlantingMethod.TRANSPLANT;
      const w = this.window(s.planting.crop, s.bed, dayNumber(began, this.shift), this.area(s), method && s.transplanted !== undefined);
      return w ? [{ ...w, stand: s }] : [];
    });
  }

  area(s: Stand): number {
    if (s.planting.areaM2 > 0) return s.planting.areaM2;
    const density = s.planting.plantsCount > 0 ? number(this.ask, 'crop_density', { crop: s.planting.crop }) : undefined;
    return density ? s.planting.plantsCount / density : Math.max(0.01, this.bed(s.bed)?.areaM2 ?? 0.01);
  }

  bed(id: string): Kept<'bed'> | undefined {
    return this.beds().find((b) => b.id === id);
  }

  beds(): Kept<'bed'>[] {
    return [...this.book.loops.flatMap((l) => l.beds), ...this.book.bank];
  }
}

const middle = (t: Told | undefined): number => (t ? (Number.isFinite(t.value) ? t.value : (t.low + t.high) / 2) : 0);

/** Days between 1970 and a date YYYY-MM-DD. */
export const dayOf = (date: string): number => Date.parse(date + 'T00:00:00Z') / day;

/** A day number as YYYY-MM-DD. */
export const dateOf = (number: number): string => new Date(number * day).toISOString().slice(0, 10);

