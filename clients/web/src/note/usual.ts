// What is usual for a reading at a place: the middle four fifths of what was
// read there, or what a working loop shows where too little was read.
import { day } from '../book/book';
import { quantityRow } from '../device/canonical';
import type { View } from '../device/view';
import type { Quantity } from '../gen/freshet/v1/reading_pb';

export interface Usual {
  /** Canonical. */
  range: readonly [number, number];
  /** It is this place's own. */
  own: boolean;
}

/** Reads what is usual of the last 120 days. */
export async function usualAt(view: View, siteId: string, placeId: string, quantity: Quantity, now: number): Promise<Usual> {
  const { values } = await view.series(siteId, placeId, quantity, now - 120 * day, now);
  const sorted = [...values].sort((a, b) => a - b);
  const row = quantityRow(quantity);
  if (sorted.length < 8) return { range: [row?.usualLow ?? 0, row?.usualHigh ?? 1], own: false };
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  return { range: [at(0.1), at(0.9)], own: true };
}

export type Doubt = 'impossible' | 'strange' | undefined;

/** Whether a value is asked about. Far: twice the usual span beyond it, or beyond what a working loop shows. */
export function doubt(quantity: Quantity, value: number, usual: Usual): Doubt {
  const row = quantityRow(quantity);
  if (row && (value < row.low || value > row.high)) return 'impossible';
  const [low, high] = usual.range;
  const reach = 2 * Math.max(high - low, Math.abs(high) * 0.05);
  if (row && (value < row.usualLow || value > row.usualHigh)) return 'strange';
  return usual.own && (value < low - reach || value > high + reach) ? 'strange' : undefined;
}
