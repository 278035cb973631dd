import type { HelloResponse } from '../gen/freshet/v1/sync_service_pb';
import { callMs, type Calls } from './calls';
import type { Clock } from './clock';
import type { Database, Packet } from './database';
import { fact, factFrom, keepFacts } from './facts';
import { madeHere } from './marks';
import { noteSlow } from './misdated';
import { enrol } from './renew';
import { lastOf, packetsAfter } from './outbox';
import { TroubleError } from './trouble';

/** The contract's release that this app was built with. */
export const schema = 2;

// How long stored entries are kept for a server that may have to be restored,
// where it does not say that they are in a backup.
const keptMs = 30 * 86_400_000;

/** What hello found. */
export interface Heard {
  /** Outcomes were taken back: the overlay is to be read anew. */
  restored: boolean;
  /** The install's last push was not made here: this device is a copy of another. */
  copied: boolean;
}

/** Opens a contact: is it the same cooperative, and does it know what it knew before? */
export async function hello(db: Database, calls: Calls, clock: Clock): Promise<Heard> {
  const noted = clock.noted();
  const asked = performance.now();
  const install = (await db.get('facts', 'install')) as Uint8Array;
  const h = await calls.sync.hello({ install, schema, noted, brief: true }, { timeoutMs: callMs });
  const cooperative = await fact(db, 'cooperativeId');
  if (cooperative !== '' && cooperative !== h.cooperativeId) {
    throw new TroubleError({
      words: "the server at this address is another co-op's", reason: 'OTHER_COOPERATIVE',
      hint: 'nothing was sent; ask your steward for the right address',
    });
  }
  const serverAheadMs = Number(h.serverMs - noted.wallMs) - Math.round((performance.now() - asked) / 2);
  await enrol(db, calls);
  await keepFacts(db, { serverAheadMs, lastContactMs: clock.now(), backedUp: Number(h.backedUpNumber), epoch: Number(h.epoch), serverSchema: h.schema });
  const heard = await settle(db, h, clock.now());
  if (!heard.copied) await noteSlow(db, serverAheadMs);
  return heard;
}

/** Compares what the server has of this install with what the device thinks it has. */
async function settle(db: Database, h: HelloResponse, now: number): Promise<Heard> {
  const known = Number(h.throughNumber);
  const through = await fact(db, 'through');
  if (known < through) await unlearn(db, known);
  if (known > (await fact(db, 'attempted')) || !(await madeHere(db, h.mark))) return { copied: true, restored: known < through };
  await keepFacts(db, { mark: h.mark, arrived: known });
  await forget(db, Math.min(through, known), Number(h.backedUpNumber), now);
  return { copied: false, restored: known < through };
}

/** Takes back outcomes after a number: a server that has less than it had was restored, and what it lost waits again. */
async function unlearn(db: Database, through: number): Promise<void> {
  const tx = db.transaction(['facts', 'outbox', 'outcomes'], 'readwrite', { durability: 'strict' });
  const outbox = tx.objectStore('outbox');
  const lost = await packetsAfter(outbox, through);
  await Promise.all([
    tx.objectStore('facts').put(through, 'through'),
    tx.objectStore('outcomes').delete(IDBKeyRange.lowerBound(through, true)),
    ...lost.map((p) => outbox.put({ ...p, echoed: 0 })),
    tx.done,
  ]);
}

/** Lets go of entries that the cooperative has for good. */
async function forget(db: Database, through: number, backedUp: number, now: number): Promise<void> {
  const tx = db.transaction(['facts', 'outbox'], 'readwrite');
  const settled = Math.min(through, await factFrom(tx.objectStore('facts'), 'through'));
  const outbox = tx.objectStore('outbox');
  const gone = (p: Packet, upTo: number): boolean => p.echoed !== 0 && lastOf(p) <= upTo;
  const safe = (await outbox.getAll(IDBKeyRange.upperBound(Math.min(settled, backedUp)))).filter((p) => gone(p, Math.min(settled, backedUp)));
  await Promise.all(safe.map((p) => outbox.delete(p.first)));
  // What is kept for its age alone is read no further than it is old: it may be a month's entries.
  for (let at = await outbox.openCursor(IDBKeyRange.upperBound(settled)); at && at.value.notedMs < now - keptMs; at = await at.continue()) {
    if (gone(at.value, settled)) await at.delete();
  }
  await tx.done;
}
