// One scale for a page: px² for a litre, px² for a square metre of bed.
import type { Book, Loop } from '../book/book';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';

export interface Scale {
  /** px² of water for a litre. */
  perLitre: number;
  /** px² of bed for a square metre. */
  perM2: number;
  /** Litres an hour of the widest channel. */
  mostFlow: number;
}

/** The largest pool fills the column, and the largest bed its place beside the canal. */
export function scaleOf(book: Book, loop: Loop | undefined, width: number): Scale {
  const pools = (loop?.vessels ?? []).filter((v) => v.kind !== VesselKind.BED).map((v) => v.volumeL);
  const hung = (loop?.beds ?? []).map((b) => b.areaM2);
  const banked = book.bank.map((b) => b.areaM2);
  const widest = width - 22;
  return {
    perLitre: (widest * widest * 0.98) / Math.max(1, ...pools),
    perM2: Math.min(((width - 62) * 46) / Math.max(0.1, ...hung), ((width - 20) * 62) / Math.max(0.1, ...banked)),
    mostFlow: Math.max(1, ...(loop?.vessels ?? []).map((v) => v.flowLPerH)),
  };
}

/** px² below which a vessel could not be seen. */
export const least = 420;
