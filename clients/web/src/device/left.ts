import { fromBinary } from '@bufbuild/protobuf';

import { OperationSchema } from '../gen/freshet/v1/change_pb';
import type { Database } from './database';
import type { Left } from './view';

/** Entries that were refused or are held, oldest first. */
export async function listLeft(db: Database): Promise<Left[]> {
  return (await db.getAll('outcomes')).map((o) => ({ ...o, aheadMs: o.aheadMs ?? 0, operation: fromBinary(OperationSchema, o.operation) }));
}

/** Notes that the person has read why entries were not stored. */
export async function markSeen(db: Database, ...numbers: readonly number[]): Promise<void> {
  const tx = db.transaction('outcomes', 'readwrite');
  for (const number of numbers) {
    const kept = await tx.store.get(number);
    if (kept) await tx.store.put({ ...kept, seen: true });
  }
  await tx.done;
}

/** An entry that was not stored, with those that it belonged together with. A copy's former ones have numbers below zero. */
export function belonging(left: readonly Left[], number: number): Left[] {
  const one = left.find((l) => l.number === number);
  if (!one) return [];
  const { group } = one.operation;
  return left.filter((l) => l === one || (group !== 0n && l.operation.group === group && l.number > 0 === one.number > 0));
}
