import { create } from '@bufbuild/protobuf';

import type { Noted } from '../../gen/freshet/v1/change_pb';
import { ReadingColumnsSchema, type ReadingColumns } from '../../gen/freshet/v1/reading_columns_pb';
import { at, ColumnsError, Dictionary, differences, fits, fold, foldZero, mustRun, named, runs, whole } from './columns';

/** One reading of a column message. */
export interface ReadingRow {
  number: number;
  site: string;
  place: string; // id, or empty
  equipment: string; // id, or empty
  occurredMs: number;
  enteredMs: number; // the device's wall clock
  quantity: number;
  digits: number;
  decimals: number;
  unit: number;
  basis: number;
  method: number;
  censoring: number;
}

/** Packs rows whose numbers run on without gaps; the twin of wire.EncodeReadings. */
export function encodeReadings(rows: ReadingRow[], noted?: Noted): ReadingColumns {
  mustRun(rows);
  const ids = new Dictionary();
  const sites = rows.map((r) => {
    const site = ids.index(r.site);
    return [site, ids.optional(r.place), ids.optional(r.equipment)] as const;
  });
  const places = sites.map((s) => s[1]);
  return create(ReadingColumnsSchema, {
    firstNumber: BigInt(rows[0]!.number),
    count: rows.length,
    ids: ids.ids,
    sites: fold(sites.map((s) => s[0])),
    places: fold(places),
    equipment: fold(sites.map((s) => s[2])),
    occurredMs: foldZero(differences(rows.map((r) => r.occurredMs))),
    enteredAfterMs: foldZero(differences(rows.map((r) => r.enteredMs - r.occurredMs))),
    quantities: fold(rows.map((r) => r.quantity)),
    digits: foldZero(withinSeries(rows, places)),
    decimals: fold(rows.map((r) => r.decimals)),
    units: fold(rows.map((r) => r.unit)),
    bases: fold(rows.map((r) => r.basis)),
    methods: fold(rows.map((r) => r.method)),
    censorings: fold(rows.map((r) => r.censoring)),
    noted,
  });
}

// A series is a pair of place and quantity: digits are differences within it.
const seriesKey = (place: number, quantity: number) => place * 2 ** 32 + quantity;

function withinSeries(rows: ReadingRow[], places: number[]): bigint[] {
  const before = new Map<number, number>();
  return rows.map((r, i) => {
    const key = seriesKey(places[i]!, r.quantity);
    const step = BigInt(r.digits - (before.get(key) ?? 0));
    before.set(key, r.digits);
    return step;
  });
}

/** Calls each for every row in order. The row is used again: each must not keep it. Throws ColumnsError. */
export function eachReading(c: ReadingColumns, each: (row: ReadingRow) => void): void {
  const n = c.count;
  const first = Number(c.firstNumber);
  if (!runs(first, n) || !readingsFit(c, n)) throw new ColumnsError();
  const series = new Map<number, number>();
  const row = {} as ReadingRow;
  let occurred = 0;
  let after = 0;
  for (let i = 0; i < n; i++) {
    occurred += step(c.occurredMs, i);
    after += step(c.enteredAfterMs, i);
    const place = at(c.places, i);
    row.quantity = at(c.quantities, i);
    const key = seriesKey(place, row.quantity);
    row.digits = (series.get(key) ?? 0) + step(c.digits, i);
    series.set(key, row.digits);
    row.number = first + i;
    row.site = named(c.ids, at(c.sites, i) + 1);
    row.place = named(c.ids, place);
    row.equipment = named(c.ids, at(c.equipment, i));
    row.occurredMs = occurred;
    row.enteredMs = occurred + after;
    row.decimals = at(c.decimals, i);
    row.unit = at(c.units, i);
    row.basis = at(c.bases, i);
    row.method = at(c.methods, i);
    row.censoring = at(c.censorings, i);
    each(row);
  }
}

function step(column: bigint[], i: number): number {
  return column.length === 0 ? 0 : Number(column[i]);
}

function readingsFit(c: ReadingColumns, n: number): boolean {
  const folded = [c.sites, c.places, c.equipment, c.quantities, c.decimals, c.units, c.bases, c.methods, c.censorings];
  return folded.every((f) => fits(f, n)) && [c.occurredMs, c.enteredAfterMs, c.digits].every((d) => whole(d, n));
}
