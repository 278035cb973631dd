import type { Reading } from '../gen/freshet/v1/reading_pb';
import type { Entry } from './view';
import { bytesOf, idOf } from './ids';
import { readingEvent } from './packet';
import type { ReadingRow } from './wire/readings';

/**
 * Readings of one quantity at one place in one span of time, as columns: three
 * years of a probe are some forty of them, so that a chart reads few values of
 * the database and no messages. Rows are sorted by time, then number.
 */
export interface Chunk {
  scope: string;
  /** Which span: its start in milliseconds is span times spanMs. */
  span: number;
  place: string;
  quantity: number;
  /** Milliseconds after the start of the span. */
  offsets: Uint32Array;
  digits: Float64Array;
  /** Numbers of the operations. */
  numbers: Float64Array;
  enteredMs: Float64Array;
  /** Index into ways. */
  way: Uint16Array;
  ways: Way[];
}

/** What rows of a chunk often have in common. */
export interface Way {
  install: string;
  memberId: string;
  equipment: string;
  decimals: number;
  unit: number;
  basis: number;
  method: number;
  censoring: number;
}

/** How long a span is: offsets within it fit 32 bits. */
export const spanMs = 32 * 86_400_000;

/** The span that a moment lies in. */
export const spanOf = (ms: number) => Math.floor(ms / spanMs);

/** Where a chunk is kept. */
export type ChunkKey = [scope: string, span: number, place: string, quantity: number];

/** Rows on their way into one chunk. */
export class Filling {
  private readonly rows: { offset: number; digits: number; number: number; enteredMs: number; way: Way }[] = [];

  constructor(readonly key: ChunkKey) {}

  add(r: ReadingRow, way: Way): void {
    const offset = r.occurredMs - this.key[1] * spanMs;
    this.rows.push({ offset, digits: r.digits, number: r.number, enteredMs: r.enteredMs, way });
  }

  /** The chunk with the rows put in. */
  into(before: Chunk | undefined): Chunk {
    const [scope, span, place, quantity] = this.key;
    const ways = before ? [...before.ways] : [];
    const old = before?.offsets.length ?? 0;
    const n = old + this.rows.length;
    const chunk: Chunk = {
      scope, span, place, quantity, ways,
      offsets: new Uint32Array(n), digits: new Float64Array(n), numbers: new Float64Array(n),
      enteredMs: new Float64Array(n), way: new Uint16Array(n),
    };
    if (before) for (const c of columns) chunk[c].set(before[c]);
    this.rows.forEach((r, i) => {
      chunk.offsets[old + i] = r.offset;
      chunk.digits[old + i] = r.digits;
      chunk.numbers[old + i] = r.number;
      chunk.enteredMs[old + i] = r.enteredMs;
      chunk.way[old + i] = indexOfWay(ways, r.way);
    });
    return sorted(chunk);
  }
}

const columns = ['offsets', 'digits', 'numbers', 'enteredMs', 'way'] as const;

function indexOfWay(ways: Way[], way: Way): number {
  const last = ways.length - 1;
  const found = last >= 0 && same(ways[last]!, way) ? last : ways.findIndex((w) => same(w, way));
  return found >= 0 ? found : ways.push(way) - 1;
}

function same(a: Way, b: Way): boolean {
  return a === b || (a.install === b.install && a.unit === b.unit && a.decimals === b.decimals && a.memberId === b.memberId &&
    a.equipment === b.equipment && a.basis === b.basis && a.method === b.method && a.censoring === b.censoring);
}

function sorted(c: Chunk): Chunk {
  const { offsets, numbers } = c;
  const after = (i: number, j: number) => offsets[i]! - offsets[j]! || numbers[i]! - numbers[j]!;
  let inOrder = true;
  for (let i = 1; i < offsets.length && inOrder; i++) inOrder = after(i - 1, i) <= 0;
  if (inOrder) return c;
  const order = Array.from(offsets.keys()).sort(after);
  return {
    ...c,
    offsets: Uint32Array.from(order, (i) => c.offsets[i]!), digits: Float64Array.from(order, (i) => c.digits[i]!),
    numbers: Float64Array.from(order, (i) => c.numbers[i]!), enteredMs: Float64Array.from(order, (i) => c.enteredMs[i]!),
    way: Uint16Array.from(order, (i) => c.way[i]!),
  };
}

/** The first row at or after a moment. */
export function firstFrom(c: Chunk, ms: number): number {
  let low = 0;
  let high = c.offsets.length;
  const offset = ms - c.span * spanMs;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (c.offsets[middle]! < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The id of a row's event. */
export function idAt(c: Chunk, i: number): string {
  return idOf(bytesOf(c.ways[c.way[i]!]!.install), c.numbers[i]!);
}

/** A row as the entry it is. */
export function entryAt(c: Chunk, i: number, ownInstall: string): Entry<'reading'> {
  const way = c.ways[c.way[i]!]!;
  const at = c.span * spanMs + c.offsets[i]!;
  const event = readingEvent({
    ...way, number: c.numbers[i]!, site: c.scope.slice('site:'.length), place: c.place, quantity: c.quantity,
    digits: c.digits[i]!, occurredMs: at, enteredMs: c.enteredMs[i]!,
  });
  return {
    id: idAt(c, i), kind: 'reading', event, body: event.kind.value as Reading, at, enteredMs: c.enteredMs[i]!,
    memberId: way.memberId, own: way.install === ownInstall, pending: false, corrected: false,
  };
}
