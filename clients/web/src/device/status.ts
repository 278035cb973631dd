import type { Database } from './database';
import type { Status } from './device';
import { factFrom } from './facts';
import { listMisdated } from './misdated';
import { storageState } from './storage';

/** Reads how a device stands; it needs no network. */
export async function readStatus(db: Database, busy: boolean): Promise<Status> {
  const tx = db.transaction(['facts', 'outbox', 'outcomes']);
  const facts = tx.objectStore('facts');
  const [next, through, cooperativeId, memberId, address, lastContact, serverAhead, trouble] = await Promise.all([
    factFrom(facts, 'next'), factFrom(facts, 'through'), factFrom(facts, 'cooperativeId'), factFrom(facts, 'memberId'),
    factFrom(facts, 'address'), factFrom(facts, 'lastContactMs'), factFrom(facts, 'serverAheadMs'), factFrom(facts, 'trouble'),
  ]);
  // Numbers run on without gaps: those after the last settled one wait.
  const oldest = await firstAfter(tx.objectStore('outbox'), through, next);
  const left = (await tx.objectStore('outcomes').getAll()).filter((o) => !o.seen);
  const [storage, misdated] = await Promise.all([storageState(), listMisdated(db)]);
  return {
    cooperativeId, memberId, address, waiting: next - 1 - through, serverAhead, busy,
    refused: left.filter((o) => !o.held).length,
    held: left.filter((o) => o.held).length,
    misdated: misdated.length,
    // By this device's clock they were noted; by the server's they are told.
    ...(oldest && { oldest: oldest + serverAhead }),
    ...(lastContact && { lastContact: lastContact + serverAhead }),
    ...(trouble && { trouble }),
    ...(storage && { storage }),
  };
}

interface Outbox {
  get(query: IDBKeyRange): Promise<{ notedMs: number } | undefined>;
}

async function firstAfter(outbox: Outbox, through: number, next: number): Promise<number | undefined> {
  if (next - 1 <= through) return undefined;
  return (await outbox.get(IDBKeyRange.lowerBound(through + 1)))?.notedMs;
}
