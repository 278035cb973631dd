import { create } from '@bufbuild/protobuf';

import { ReadingColumnsSchema, type ReadingColumns } from '../../gen/freshet/v1/reading_columns_pb';

/** The first schema whose server reads dense readings, and sends pages many in a step. */
export const schemaOfDense = 2;

const stepsMs = [3_600_000n, 60_000n, 1000n, 1n];

/** Gives columns dense times, in steps and without repeating in one list what another says; the twin of wire.Dense. */
export function denseOf(c: ReadingColumns): ReadingColumns {
  const differences = c.occurredMs.length === 0 ? Array<bigint>(c.count).fill(0n) : c.occurredMs;
  const step = stepsMs.find((s) => differences.every((d) => d % s === 0n)) ?? 1n;
  let [occurred, after, before] = [0n, 0n, 0n];
  const enteredMs = differences.map((d, i) => {
    occurred += d;
    after += c.enteredAfterMs[i] ?? 0n;
    const entered = occurred + after - before;
    before = occurred + after;
    return entered;
  });
  return create(ReadingColumnsSchema, {
    ...c,
    occurredMs: differences.map((d) => d / step),
    enteredAfterMs: [],
    enteredMs: enteredMs.slice(1).every((d) => d === 0n) ? enteredMs.slice(0, 1) : enteredMs,
    stepMs: Number(step),
  });
}
