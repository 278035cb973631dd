import { fromBinary } from '@bufbuild/protobuf';

import { OperationSchema } from '../gen/freshet/v1/change_pb';
import type { Database } from './database';
import type { Left } from './view';

/** Entries that were refused or are held, oldest first. */
export async function listLeft(db: Database): Promise<Left[]> {
  return (await db.getAll('outcomes')).map((o) => ({ ...o, operation: fromBinary(OperationSchema, o.operation) }));
}

/** Notes that the person has read why an entry was not stored. */
export async function markSeen(db: Database, number: number): Promise<void> {
  const tx = db.transaction('outcomes', 'readwrite');
  const kept = await tx.store.get(number);
  if (kept) await tx.store.put({ ...kept, seen: true });
  await tx.done;
}
