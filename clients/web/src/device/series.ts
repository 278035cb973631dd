import type { Quantity } from '../gen/freshet/v1/reading_pb';
import { canonicalOf } from './canonical';
import { firstFrom, idAt, spanMs, type Chunk } from './chunk';
import { inForce } from './entries';
import { splitId } from './ids';
import { occurredMs } from './packet';
import type { Entry, Series } from './view';

interface Point {
  ms: number;
  value: number;
  beyond: number;
  id: string;
}

/** Collects the readings of one quantity at one place from chunks and entries. */
export class SeriesBuilder {
  private readonly replaced: ReadonlyMap<string, Entry<'correction'>>;
  private readonly suspects: ReadonlySet<number>;
  private readonly singles = new Map<string, Point>();
  private readonly runs: { chunk: Chunk; from: number; to: number; without: Set<number> }[] = [];

  /** Corrections are all of the site's; singles are readings that stand in no chunk, own ones that wait among them. */
  constructor(
    private readonly place: string,
    private readonly quantity: Quantity,
    private readonly from: number,
    private readonly to: number,
    corrections: ReadonlyMap<string, Entry<'correction'>>,
    singles: readonly Entry<'reading'>[],
  ) {
    this.replaced = inForce(corrections);
    for (const e of singles) this.single(e.id, e.at, e.body);
    for (const [id, c] of this.replaced) {
      this.singles.delete(id);
      const instead = c.body.replacement;
      if (instead?.kind.case === 'reading') this.single(id, occurredMs(instead), instead.kind.value);
    }
    this.suspects = new Set([...this.replaced.keys(), ...this.singles.keys()].map((id) => splitId(id)?.number ?? 0));
  }

  private single(id: string, ms: number, body: Entry<'reading'>['body']): void {
    if (body.placeId !== this.place || body.quantity !== this.quantity || ms < this.from || ms >= this.to) return;
    const value = canonicalOf(body.quantity, body.unit, body.basis)(Number(body.digits) / 10 ** body.decimals);
    this.singles.set(id, { ms, value, beyond: beyondOf(body.censoring), id });
  }

  /** Adds a chunk's rows within the time wanted. */
  add(chunk: Chunk): void {
    const run = { chunk, from: firstFrom(chunk, this.from), to: firstFrom(chunk, this.to), without: new Set<number>() };
    for (let i = run.from; i < run.to && this.suspects.size > 0; i++) {
      if (!this.suspects.has(chunk.numbers[i]!)) continue;
      const id = idAt(chunk, i);
      if (this.replaced.has(id)) run.without.add(i);
      else this.singles.delete(id);
    }
    this.runs.push(run);
  }

  finish(): Series {
    const n = this.runs.reduce((sum, r) => sum + r.to - r.from - r.without.size, 0);
    const columns = { ms: new Float64Array(n), values: new Float64Array(n), beyond: new Int8Array(n) };
    const rows = new Uint32Array(n);
    const ends: number[] = [];
    let at = 0;
    for (const { chunk, from, to, without } of this.runs) {
      const ways = chunk.ways.map((w) => ({ value: canonicalOf(chunk.quantity, w.unit, w.basis), scale: 10 ** w.decimals, beyond: beyondOf(w.censoring) }));
      for (let i = from; i < to; i++) {
        if (without.has(i)) continue;
        const way = ways[chunk.way[i]!]!;
        columns.ms[at] = chunk.span * spanMs + chunk.offsets[i]!;
        columns.values[at] = way.value(chunk.digits[i]! / way.scale);
        columns.beyond[at] = way.beyond;
        rows[at++] = i;
      }
      ends.push(at);
    }
    const series = { ...columns, id: (i: number) => idAt(this.runs[ends.findIndex((end) => i < end)]!.chunk, rows[i]!) };
    return this.singles.size === 0 ? series : merged(series, [...this.singles.values()]);
  }
}

const beyondOf = (censoring: number) => [0, -1, 1][censoring] ?? 0;

function merged(series: Series, singles: Point[]): Series {
  const all: Point[] = Array.from(series.ms, (ms, i) => ({ ms, value: series.values[i]!, beyond: series.beyond[i]!, id: '' + i }));
  const inChunks = all.length;
  for (const single of singles) all.push(single);
  const order = [...all.keys()];
  order.sort((i, j) => all[i]!.ms - all[j]!.ms || i - j);
  return {
    ms: Float64Array.from(order, (i) => all[i]!.ms),
    values: Float64Array.from(order, (i) => all[i]!.value),
    beyond: Int8Array.from(order, (i) => all[i]!.beyond),
    id: (i) => (order[i]! < inChunks ? series.id(order[i]!) : all[order[i]!]!.id),
  };
}
