// What readings and feedings as columns have in common; the twin of api/wire/columns.go.

/** The most rows one column message may carry. */
export const maxRows = 5000;

/** Says that a column message cannot be read. */
export class ColumnsError extends Error {
  constructor() {
    super('columns do not fit together');
  }
}

/** Turns values into differences from the one before. */
export function differences(values: number[]): bigint[] {
  let before = 0;
  return values.map((v) => {
    const step = BigInt(v - before);
    before = v;
    return step;
  });
}

/** Numbers ids in the order they come. */
export class Dictionary {
  readonly ids: string[] = [];
  private readonly seen = new Map<string, number>();

  index(id: string): number {
    let i = this.seen.get(id);
    if (i === undefined) {
      i = this.ids.length;
      this.seen.set(id, i);
      this.ids.push(id);
    }
    return i;
  }

  /** Index plus one, so that 0 can say none. */
  optional(id: string): number {
    return id === '' ? 0 : this.index(id) + 1;
  }
}

/** Shortens a column of equal values to one, and of zeros to none. */
export function fold<T extends number>(column: T[]): T[] {
  if (column.some((v) => v !== column[0])) return column;
  return column[0] === 0 ? [] : column.slice(0, 1);
}

/** Shortens a column of differences only where all are zero: one value there would mean a first value followed by equal steps. */
export function foldZero(column: bigint[]): bigint[] {
  return column.some((v) => v !== 0n) ? column : [];
}

/** Refuses batches that are empty, too long, or whose numbers have gaps: the caller cuts them. */
export function mustRun(rows: { number: number }[]): void {
  if (rows.length === 0 || rows.length > maxRows) throw new RangeError('a batch has 1 to 5000 rows');
  if (rows.some((row, i) => row.number !== rows[0]!.number + i)) {
    throw new RangeError('numbers of a batch run on without gaps');
  }
}

/** Tells whether a column has one value for all rows, one for each, or none. */
export function fits(column: ArrayLike<unknown>, n: number): boolean {
  return column.length <= 1 || column.length === n;
}

/** Fits, for columns of differences, which are never folded to one. */
export function whole(column: ArrayLike<unknown>, n: number): boolean {
  return column.length === 0 || column.length === n;
}

/** Reads a folded column of numbers. */
export function at(column: ArrayLike<number>, i: number): number {
  switch (column.length) {
    case 0:
      return 0;
    case 1:
      return column[0]!;
  }
  return column[i]!;
}

/** Looks an optional index up. */
export function named(ids: string[], plusOne: number): string {
  if (plusOne === 0) return '';
  const id = ids[plusOne - 1];
  if (id === undefined) throw new ColumnsError();
  return id;
}

/** Whether a batch's count and first number can be. */
export function runs(first: number, count: number): boolean {
  return count > 0 && count <= maxRows && first > 0 && first <= Number.MAX_SAFE_INTEGER - maxRows;
}
