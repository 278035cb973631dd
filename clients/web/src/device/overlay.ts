import type { Operation } from '../gen/freshet/v1/change_pb';
import type { Database } from './database';
import { factFrom } from './facts';
import { packetsAfter } from './outbox';
import { unpack } from './packet';

/** An operation of this device's own that the copy does not show yet. */
export interface Waiting {
  op: Operation;
  number: number;
}

/**
 * Own operations whose echo has not come, in the order they were entered,
 * without those that were refused or are held. Also those that came back, or
 * whose scope is gone, until they are answered: others of their packet may be
 * refused. It is kept in memory, since every answer needs it.
 */
export class Overlay {
  private waiting: Waiting[] = [];
  /** Every operation up to it has a lasting outcome. */
  through = 0;

  /** Reads everything anew. */
  async load(db: Database): Promise<void> {
    const tx = db.transaction(['facts', 'outbox', 'outcomes']);
    const outbox = tx.objectStore('outbox');
    this.through = await factFrom(tx.objectStore('facts'), 'through');
    const [unechoed, unanswered, left] = await Promise.all([
      outbox.index('echoed').getAll(0), packetsAfter(outbox, this.through), tx.objectStore('outcomes').getAllKeys(),
    ]);
    const notStored = new Set(left);
    this.waiting = [...unechoed, ...unanswered.filter((p) => p.echoed !== 0)]
      .sort((a, b) => a.first - b.first)
      .flatMap(unpack)
      .map((op) => ({ op, number: Number(op.number) }))
      .filter((w) => !notStored.has(w.number));
  }

  /** Lays operations over that were just noted. */
  add(operations: Operation[]): void {
    this.waiting = this.waiting.concat(operations.map((op) => ({ op, number: Number(op.number) })));
  }

  /** All of them, oldest first. The list is replaced, never changed while somebody goes through it. */
  all(): readonly Waiting[] {
    return this.waiting;
  }
}
