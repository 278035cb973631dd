// What a slow clock dated before the cooperative was heard. The server settles
// when an entry was made, but keeps when it happened as the phone said it: what
// was dated "now" would stay on a day long past. The person is asked.
import type { Operation } from '../gen/freshet/v1/change_pb';
import { rightMs } from './clock';
import type { Database } from './database';
import { fact, keepFacts } from './facts';
import { packetsAfter } from './outbox';
import { occurredMs, unpack } from './packet';

/** Entries by their numbers that waited when a clock was found slow, and by how much. */
export interface Slow {
  first: number;
  last: number;
  aheadMs: number;
}

/** Notes which entries were made before this clock was found slow; what may have been sent was dated before an earlier contact. */
export async function noteSlow(db: Database, aheadMs: number): Promise<void> {
  if (aheadMs < rightMs) return;
  const [known, attempted, next] = [await fact(db, 'slow'), await fact(db, 'attempted'), await fact(db, 'next')];
  const first = Math.max(attempted, known.at(-1)?.last ?? 0) + 1;
  if (first < next) await keepFacts(db, { slow: [...known, { first, last: next - 1, aheadMs }] });
}

/** An event that a slow clock dated, and when it was by the server's clock. */
export interface Misdated {
  number: number;
  op: Operation;
  at: number;
}

/** Events that were dated "now" by a clock that was slow, but those that were not stored. */
export async function listMisdated(db: Database): Promise<Misdated[]> {
  const found: Misdated[] = [];
  for (const { first, last, aheadMs } of await fact(db, 'slow')) {
    const operations = (await packetsAfter(db.transaction('outbox').store, first - 1)).flatMap(unpack).filter((op) => op.number >= first && op.number <= last);
    const heardMs = (await fact(db, 'lastContactMs')) + (await fact(db, 'serverAheadMs'));
    for (const op of sinceItWasSet(operations)) {
      if (op.change.case !== 'event' || op.change.value.kind.case === 'correction') continue;
      const at = occurredMs(op.change.value);
      // What she dated herself stays, and what would then lie in the future was noted while the clock was right.
      if (Math.abs(at - wallMs(op)) < rightMs && at + aheadMs < heardMs + rightMs) found.push({ number: Number(op.number), op, at: at + aheadMs });
    }
  }
  const notStored = new Set(found.length > 0 ? await db.getAllKeys('outcomes') : []);
  return found.filter((m) => !notStored.has(m.number));
}

const wallMs = (op: Operation): number => Number(op.noted?.wallMs ?? 0n);

/** A clock that leaps back was set, or lost its time: what was noted before that leap was dated by another. */
function sinceItWasSet(operations: readonly Operation[]): readonly Operation[] {
  const leapt = operations.findLastIndex((op, i) => i > 0 && wallMs(op) < wallMs(operations[i - 1]!) - rightMs);
  return operations.slice(Math.max(0, leapt));
}
