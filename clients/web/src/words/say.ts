// How a person is told: their language, units, time zone. A catalogue's words
// are made with one of these.
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import { decimalMark, percent, plain, typedAs, written } from './number';
import { shownIn, unitFor, type Kind } from './units';

/** Words that change with a number, by the language's own plural classes. */
export type Forms = Partial<Record<Intl.LDMLPluralRule, string>> & { other: string };

const hour = 3_600_000;

export class Say {
  // What a browser knows of languages takes it long to fetch the first time: none of it is
  // asked for before a number is told.
  private plurals: Intl.PluralRules | undefined;
  private relative: Intl.RelativeTimeFormat | undefined;
  private readonly dates = new Map<string, Intl.DateTimeFormat>();
  private clockFace: Intl.DateTimeFormat | undefined;

  constructor(
    /** BCP 47: "es-MX". */
    readonly locale: string,
    readonly units: UnitSystem,
    /** IANA: "Europe/Madrid". */
    readonly zone: string,
    private readonly clock: () => number,
  ) {}

  /** What stands before decimals. */
  get mark(): string {
    return decimalMark(this.locale);
  }

  /** "2 entries": the form of the number's class, with # for the number. */
  count(n: number, forms: Forms): string {
    return (forms[(this.plurals ??= new Intl.PluralRules(this.locale)).select(n)] ?? forms.other).replace('#', plain(this.locale, n, 0));
  }

  number(value: number, digits = 3): string {
    return written(this.locale, value, digits);
  }

  places(value: number, places: number): string {
    return plain(this.locale, value, places);
  }

  /** Digits as they were typed: "7.50". */
  typed(digits: bigint | number, decimals: number): string {
    return typedAs(this.locale, digits, decimals);
  }

  percent(share: number): string {
    return percent(this.locale, share);
  }

  /** An amount in the person's units: "640 g", "1.4 lb". */
  amount(kind: Kind, si: number, digits?: number): string {
    const { value, symbol } = this.parts(kind, si, digits);
    return `${value}\u00a0${symbol}`;
  }

  /** Amounts that are compared, all in the unit of the least. */
  amounts(kind: Kind, si: readonly number[], digits?: number): string[] {
    const u = unitFor(this.units, kind, Math.min(...si.map(Math.abs)));
    return si.map((v) => `${this.number(shownIn(u, v), digits ?? u.digits)}\u00a0${u.symbol}`);
  }

  /** The same, number and unit apart. */
  parts(kind: Kind, si: number, digits?: number): { value: string; symbol: string } {
    const u = unitFor(this.units, kind, si);
    return { value: this.number(shownIn(u, si), digits ?? u.digits), symbol: u.symbol };
  }

  /** With a capital at its beginning; "pH" keeps its own. */
  cap(text: string): string {
    if (/^\p{Ll}\p{Lu}/u.test(text)) return text;
    const [first = '', ...rest] = text;
    return first.toLocaleUpperCase(this.locale) + rest.join('');
  }

  /** "a, b and c". */
  list(items: readonly string[], type: 'conjunction' | 'disjunction' = 'conjunction'): string {
    return new Intl.ListFormat(this.locale, { type }).format(items);
  }

  private past(count: number, unit: Intl.RelativeTimeFormatUnit): string {
    this.relative ??= new Intl.RelativeTimeFormat(this.locale, { numeric: 'auto' });
    return this.relative.format(-count, unit);
  }

  private format(at: number, options: Intl.DateTimeFormatOptions, zone = this.zone): string {
    const key = zone + JSON.stringify(options);
    let f = this.dates.get(key);
    if (!f) this.dates.set(key, (f = new Intl.DateTimeFormat(this.locale, { timeZone: zone, ...options })));
    return f.format(at);
  }

  time(at: number): string {
    return this.format(at, { timeStyle: 'short' });
  }

  /** "Wednesday 25 November". */
  longDay(at: number): string {
    return this.format(at, { weekday: 'long', day: 'numeric', month: 'long' });
  }

  /** "25 Nov", with the year where it is far off. */
  day(at: number): string {
    const other = Math.abs(at - this.clock()) > 300 * 24 * hour;
    return this.format(at, { day: 'numeric', month: 'short', ...(other && { year: 'numeric' }) });
  }

  /** A day number (days since 1970), whatever the zone. */
  dayOf(number: number, long = false): string {
    const at = number * 24 * hour;
    const other = Math.abs(at - this.clock()) > 300 * 24 * hour;
    return this.format(at, { day: 'numeric', month: long ? 'long' : 'short', ...(other && { year: 'numeric' }) }, 'UTC');
  }

  /** "Wed", of a day number. */
  weekday(number: number): string {
    return this.format(number * 24 * hour, { weekday: 'short' }, 'UTC');
  }

  /** "Wednesday 2 December", of a day number. */
  weekdayOf(number: number): string {
    return this.format(number * 24 * hour, { weekday: 'long', day: 'numeric', month: 'short' }, 'UTC');
  }

  month(number: number): string {
    return this.format(number * 24 * hour, { month: 'short' }, 'UTC');
  }

  /** "June 2025", of a day as "2025-06-01". */
  monthOf(on: string): string {
    return this.format(Date.parse(on), { month: 'long', year: 'numeric' }, 'UTC');
  }

  /** Days since 1970 in the site's zone. */
  dayNumber(at: number): number {
    return Math.floor((at + this.shift(at)) / (24 * hour));
  }

  /** The zone's offset at a moment, ms. */
  shift(at: number): number {
    this.clockFace ??= new Intl.DateTimeFormat('en-US', {
      timeZone: this.zone, hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric', second: 'numeric',
    });
    const parts = this.clockFace.formatToParts(at);
    const get = (type: string): number => Number(parts.find((p) => p.type === type)?.value);
    return Date.UTC(get('year'), get('month') - 1, get('day'), get('hour'), get('minute'), get('second')) - Math.floor(at / 1000) * 1000;
  }

  /** "06:12" today, "yesterday 06:12", "Monday 06:12", "3 Nov". */
  when(at: number): string {
    const days = this.dayNumber(this.clock()) - this.dayNumber(at);
    if (days === 0) return this.time(at);
    if (days === 1) return `${this.past(1, 'day')} ${this.time(at)}`;
    if (days > 1 && days < 7) return `${this.format(at, { weekday: 'long' })} ${this.time(at)}`;
    return this.day(at);
  }

  /** "3 days ago", "in 2 weeks". */
  ago(at: number): string {
    const gone = (this.clock() - at) / hour;
    if (Math.abs(gone) < 1) return this.past(Math.round(gone * 60), 'minute');
    if (Math.abs(gone) < 36) return this.past(Math.round(gone), 'hour');
    return this.past(this.dayNumber(this.clock()) - this.dayNumber(at), 'day');
  }
}
