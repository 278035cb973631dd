// What the air is like through the year where plants stand.
import { breath } from '../device/breath';
import type { View } from '../device/view';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { day, placeOf, type Book } from './book';

/** Usual means of the 53 weeks of the year from 1 January, degC; undefined where fewer than half were read. */
export interface Air {
  open: number[] | undefined;
  covered: number[] | undefined;
}

/** Reads the air of the last year. What stands under cover without air of its own has the open's, and the other way. */
export async function readAir(view: View, book: Book, shift: number): Promise<Air> {
  const open = new Year();
  const covered = new Year();
  for (const { placeId } of book.newest.filter((n) => n.quantity === Quantity.AIR_TEMPERATURE)) {
    const year = placeOf(book, placeId)?.bed?.covered ? covered : open;
    for (let quarter = 4; quarter > 0; quarter--) {
      await breath();
      const from = book.now + 1 - 91.25 * day * quarter;
      const { ms, values } = await view.series(book.site.id, placeId, Quantity.AIR_TEMPERATURE, from, from + 91.25 * day);
      ms.forEach((at, i) => year.add(weekOfYear(Math.floor((at + shift) / day)), values[i]!));
    }
  }
  const [o, c] = [open.weeks(), covered.weeks()];
  return { open: o ?? c, covered: c ?? o };
}

/** The week of the year of a day number, 0 to 52. */
export function weekOfYear(d: number): number {
  return Math.floor((d - Date.UTC(new Date(d * day).getUTCFullYear(), 0, 1) / day) / 7);
}

export class Year {
  private readonly sum = new Array<number>(53).fill(0);
  private readonly n = new Array<number>(53).fill(0);

  add(week: number, value: number): void {
    this.sum[week]! += value;
    this.n[week]!++;
  }

  /** The means; a week that was not read has the nearest one's. */
  weeks(): number[] | undefined {
    if (this.n.filter((n) => n > 0).length < Math.floor(this.n.length / 2)) return undefined;
    return this.n.map((_, week) => this.near(week));
  }

  private near(week: number): number {
    for (let away = 0; ; away++) {
      for (const at of [week - away, week + away].map((w) => (w + 53) % 53)) if (this.n[at]! > 0) return this.sum[at]! / this.n[at]!;
    }
  }
}
