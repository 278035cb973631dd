import { create } from '@bufbuild/protobuf';

import type { Noted } from '../../gen/freshet/v1/change_pb';
import { FeedingColumnsSchema, type FeedingColumns } from '../../gen/freshet/v1/reading_columns_pb';
import { at, ColumnsError, Dictionary, differences, fits, fold, foldZero, mustRun, named, runs, whole } from './columns';

/** One feeding of a column message. */
export interface FeedingRow {
  number: number;
  site: string;
  vessel: string; // id, or empty
  cohort: string; // id, or empty
  feed: string; // id, or empty
  occurredMs: number;
  enteredMs: number; // the device's wall clock
  massG: number;
}

/** Packs rows whose numbers run on without gaps; the twin of wire.EncodeFeedings. */
export function encodeFeedings(rows: FeedingRow[], noted?: Noted): FeedingColumns {
  mustRun(rows);
  const ids = new Dictionary();
  const named = rows.map((r) => {
    const site = ids.index(r.site);
    return [site, ids.optional(r.vessel), ids.optional(r.cohort), ids.optional(r.feed)] as const;
  });
  return create(FeedingColumnsSchema, {
    firstNumber: BigInt(rows[0]!.number),
    count: rows.length,
    ids: ids.ids,
    sites: fold(named.map((n) => n[0])),
    vessels: fold(named.map((n) => n[1])),
    cohorts: fold(named.map((n) => n[2])),
    feeds: fold(named.map((n) => n[3])),
    occurredMs: foldZero(differences(rows.map((r) => r.occurredMs))),
    enteredAfterMs: foldZero(differences(rows.map((r) => r.enteredMs - r.occurredMs))),
    massesG: fold(rows.map((r) => r.massG)),
    noted,
  });
}

/** Calls each for every row in order. The row is used again: each must not keep it. Throws ColumnsError. */
export function eachFeeding(c: FeedingColumns, each: (row: FeedingRow) => void): void {
  const n = c.count;
  const first = Number(c.firstNumber);
  if (!runs(first, n) || !feedingsFit(c, n)) throw new ColumnsError();
  const row = {} as FeedingRow;
  let occurred = 0;
  let after = 0;
  for (let i = 0; i < n; i++) {
    occurred += Number(c.occurredMs[i] ?? 0);
    after += Number(c.enteredAfterMs[i] ?? 0);
    row.number = first + i;
    row.site = named(c.ids, at(c.sites, i) + 1);
    row.vessel = named(c.ids, at(c.vessels, i));
    row.cohort = named(c.ids, at(c.cohorts, i));
    row.feed = named(c.ids, at(c.feeds, i));
    row.occurredMs = occurred;
    row.enteredMs = occurred + after;
    row.massG = at(c.massesG, i);
    each(row);
  }
}

function feedingsFit(c: FeedingColumns, n: number): boolean {
  return [c.sites, c.vessels, c.cohorts, c.feeds, c.massesG].every((f) => fits(f, n)) &&
    [c.occurredMs, c.enteredAfterMs].every((d) => whole(d, n));
}
