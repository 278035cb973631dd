import { fromBinary, toBinary } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import vectors from '../../../../../testdata/vectors/columns.json';
import { FeedingColumnsSchema, ReadingColumnsSchema } from '../../gen/freshet/v1/reading_columns_pb';
import { bytesOf, hexOf, idOf, splitId } from '../ids';
import { denseOf } from './dense';
import { eachFeeding, encodeFeedings, type FeedingRow } from './feedings';
import { eachReading, encodeReadings, type ReadingRow } from './readings';

// Names in the vectors begin with a capital letter.
function small<T>(row: object): T {
  return Object.fromEntries(Object.entries(row).map(([k, v]) => [k[0]!.toLowerCase() + k.slice(1), v])) as T;
}

test.each(vectors.ids)('id of $number', ({ install, number, id }) => {
  expect(idOf(bytesOf(install), number)).toBe(id);
  expect(splitId(id)).toEqual({ install, number });
});

test('readings are read and written as everywhere', () => {
  for (const v of vectors.readings) {
    const rows = v.rows.map((r) => small<ReadingRow>(r));
    const read: ReadingRow[] = [];
    eachReading(fromBinary(ReadingColumnsSchema, bytesOf(v.message)), (r) => read.push({ ...r }));
    expect(read).toEqual(rows);
    expect(hexOf(toBinary(ReadingColumnsSchema, encodeReadings(rows)))).toBe(v.message);
  }
});

test('dense times are written as everywhere', () => {
  for (const { plain, dense } of vectors.dense) {
    expect(hexOf(toBinary(ReadingColumnsSchema, denseOf(fromBinary(ReadingColumnsSchema, bytesOf(plain)))))).toBe(dense);
  }
});

test('feedings are read and written as everywhere', () => {
  for (const v of vectors.feedings) {
    const rows = v.rows.map((r) => small<FeedingRow>(r));
    const read: FeedingRow[] = [];
    eachFeeding(fromBinary(FeedingColumnsSchema, bytesOf(v.message)), (r) => read.push({ ...r }));
    expect(read).toEqual(rows);
    expect(hexOf(toBinary(FeedingColumnsSchema, encodeFeedings(rows)))).toBe(v.message);
  }
});

test.each(Object.entries(vectors.refused))('%s is refused', (_, { kind, message }) => {
  expect(() => {
    if (kind === 'reading') eachReading(fromBinary(ReadingColumnsSchema, bytesOf(message)), () => undefined);
    else eachFeeding(fromBinary(FeedingColumnsSchema, bytesOf(message)), () => undefined);
  }).toThrow();
});
