// One time line for fish, beds and crops: weeks from this Monday on.
import { mondayOf, weeksAhead } from '../reckon/supply';

export interface Span {
  /** Day number at the inline start. */
  from: number;
  days: number;
  /** px. */
  width: number;
}

export const spanOf = (today: number, width: number, weeks = weeksAhead): Span => ({ from: mondayOf(today), days: weeks * 7, width });

/** Where a day lies, px; beyond the ends it may lie outside. */
export const xOf = (s: Span, day: number): number => Math.round(((day - s.from) / s.days) * s.width * 10) / 10;

/** The day at a place. */
export const dayAt = (s: Span, x: number): number => s.from + (x / s.width) * s.days;

/** First days of the months that begin within. */
export function monthsOf(s: Span): number[] {
  const first = new Date(s.from * 86_400_000);
  return Array.from({ length: 8 }, (_, i) => Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + 1 + i, 1) / 86_400_000).filter((d) => d < s.from + s.days - 6);
}
