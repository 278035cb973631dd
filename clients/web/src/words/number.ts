// Numbers as a person writes and reads them.

/** Significant digits to read: two or three, never a false fourth. */
export function written(locale: string, value: number, digits = 3): string {
  if (!Number.isFinite(value)) return '–';
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value) || 1)));
  return plain(locale, value, Math.min(places, value === 0 ? 0 : 6));
}

/** A number with at most this many places, none of them idle noughts. */
export function plain(locale: string, value: number, places: number): string {
  return formatter(locale, { maximumFractionDigits: places }).format(value);
}

/** Digits as they were typed: 750 with 2 decimals is 7.50. */
export function typedAs(locale: string, digits: bigint | number, decimals: number): string {
  const options = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  return formatter(locale, options).format(Number(digits) / 10 ** decimals);
}

/** The mark this language puts before decimals. */
export function decimalMark(locale: string): string {
  return formatter(locale, {}).formatToParts(1.5).find((p) => p.type === 'decimal')?.value ?? '.';
}

/** A share as percent. */
export function percent(locale: string, share: number): string {
  return formatter(locale, { style: 'percent', maximumFractionDigits: 0 }).format(share);
}

const kept = new Map<string, Intl.NumberFormat>();

function formatter(locale: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  const key = locale + JSON.stringify(options);
  let f = kept.get(key);
  if (!f) kept.set(key, (f = new Intl.NumberFormat(locale, options)));
  return f;
}
