import type { Edit, Operation } from '../gen/freshet/v1/change_pb';
import type { Database, Packet } from './database';
import { factFrom } from './facts';
import { unpack } from './packet';

/** How long an entry may be taken back as if it had not been made, ms. */
export const undoMs = 10_000;

/**
 * Takes the newest operations out of the outbox, where nothing came after them
 * and they were never sent: their numbers are given out again. False where they
 * must be corrected instead.
 */
export async function takeBack(db: Database, first: number, last: number): Promise<boolean> {
  const tx = db.transaction(['facts', 'outbox'], 'readwrite', { durability: 'strict' });
  const facts = tx.objectStore('facts');
  const [next, attempted] = await Promise.all([factFrom(facts, 'next'), factFrom(facts, 'attempted')]);
  const possible = next === last + 1 && attempted < first;
  if (possible) await Promise.all([tx.objectStore('outbox').delete(IDBKeyRange.bound(first, last)), facts.put(first, 'next')]);
  await tx.done;
  return possible;
}

/** The operations with numbers from first to last, as far as they are still in the outbox. */
export async function operationsBetween(db: Database, first: number, last: number): Promise<Operation[]> {
  const packets: Packet[] = await db.getAll('outbox', IDBKeyRange.bound(first - 5000, last));
  return packets.flatMap(unpack).filter((op) => op.number >= BigInt(first) && op.number <= BigInt(last));
}

/** Whether an edit made its record. */
export function makes(edit: Edit, id: string): boolean {
  return edit.recordId === id;
}
