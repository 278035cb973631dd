/** A number as it was typed: 7.50 is digits 750 with decimals 2. */
export interface Digits {
  digits: bigint;
  decimals: number;
}

/**
 * Reads a typed number, with comma or point before its decimals; undefined
 * where the text is none, has more than 9 decimals, or more than 12 digits.
 */
export function digitsOf(text: string): Digits | undefined {
  const parts = /^\s*([+\-\u2212]?)(\d*)(?:[.,](\d*))?\s*$/.exec(text);
  if (!parts) return undefined;
  const [, sign = '', whole = '', fraction = ''] = parts;
  const all = whole + fraction;
  if (all === '' || fraction.length > 9 || all.replace(/^0+/, '').length > 12) return undefined;
  const digits = BigInt(all);
  return { digits: sign === '' || sign === '+' ? digits : -digits, decimals: fraction.length };
}

/** The value that digits stand for. */
export function valueOf(d: Digits): number {
  return Number(d.digits) / 10 ** d.decimals;
}

/** Digits as text, with a point: what was typed, "7.50". */
export function textOf(d: Digits): string {
  return valueOf(d).toFixed(d.decimals);
}
