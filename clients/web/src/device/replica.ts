import { unwrap } from 'idb';

import type { CaughtUp, Cursor, PullResponse } from '../gen/freshet/v1/sync_service_pb';
import { BrokenPage, Changes, type RecordChange } from './block';
import type { Filling } from './chunk';
import { copyStores, type Database, type KeptCursor, type Writing } from './database';
import type { Install } from './ids';
import { mergeEdit, newMerged, readMerged, writeMerged, type Merged } from './merge';
import { everything, type Topic } from './topics';
import { maxRows } from './wire/columns';

/** What applying steps of a pull did. */
export interface Applied {
  pages: number;
  caughtUp: boolean;
  /** Own entries came back. */
  echoed: boolean;
  /** Scopes whose copy was not the server's: they were dropped and are to be read anew. */
  broken: string[];
  touched: Set<Topic>;
}

const none = (scope: string): KeptCursor => ({ scope, epoch: 0, sequence: 0, chain: new Uint8Array(), operationsCount: 0 });

/**
 * Puts steps of a pull into the copy, rows and cursors in one transaction. A
 * page that does not follow on the copy breaks its scope only; the others go on.
 */
export async function applySteps(db: Database, own: Install, steps: readonly PullResponse[]): Promise<Applied> {
  const cursors = new Map((await db.getAll('cursors')).map((c) => [c.scope, c]));
  const batch = new Batch(db, own, cursors);
  for (const { step } of steps) {
    if (step.case === 'page') await batch.pages(step.value.cursor, [step.value.block]);
    else if (step.case === 'pages') await batch.pages(step.value.cursor, step.value.blocks);
    else if (step.case === 'scopeGone') batch.drop(step.value.scope, true);
    else if (step.case === 'scopeReset') batch.drop(step.value.scope, false);
    else if (step.case === 'caughtUp') batch.compare(step.value);
  }
  return batch.commit();
}

class Batch {
  private readonly changes: Changes;
  private readonly moved = new Set<string>();
  private readonly dropped = new Map<string, boolean>(); // by scope, whether it is gone
  private readonly returned = new Set<string>(); // read from the start
  private readonly broken = new Set<string>();
  private readonly began: ReadonlyMap<string, KeptCursor>;
  private pagesTaken = 0;
  private caughtUp = false;

  constructor(
    private readonly db: Database,
    own: Install,
    private readonly cursors: Map<string, KeptCursor>,
  ) {
    this.changes = new Changes(own);
    this.began = new Map(cursors);
  }

  /** Takes pages that follow each other, up to where the copy then stands. */
  async pages(to: Cursor | undefined, encoded: readonly Uint8Array[]): Promise<void> {
    if (!to || this.broken.has(to.scope)) return;
    const have = this.cursors.get(to.scope) ?? none(to.scope);
    const [epoch, sequence] = [Number(to.epoch), Number(to.sequence)];
    let [first, blocks] = [sequence + 1 - encoded.length, encoded];
    if (epoch === have.epoch && first <= have.sequence) {
      blocks = encoded.slice(have.sequence + 1 - first); // another tab was faster
      first = have.sequence + 1;
    }
    if (blocks.length === 0) return;
    this.pagesTaken += blocks.length;
    let chain = have.chain;
    for (const block of blocks) chain = await next(chain, block);
    try {
      if (first !== have.sequence + 1 || !equal(chain, to.chain)) throw new BrokenPage(to.scope);
      let operationsCount = have.operationsCount;
      blocks.forEach((block, i) => (operationsCount += this.changes.block(to.scope, first + i, block)));
      this.cursors.set(to.scope, { scope: to.scope, epoch, sequence, chain, operationsCount });
      this.moved.add(to.scope);
      if (have.sequence === 0) this.returned.add(to.scope);
    } catch (error) {
      if (!(error instanceof BrokenPage)) throw error;
      this.breakUp(to.scope);
    }
  }

  private breakUp(scope: string): void {
    this.broken.add(scope);
    this.drop(scope, false);
  }

  /** What was gathered of the scope before is dropped too. */
  drop(scope: string, gone: boolean): void {
    this.dropped.set(scope, gone);
    this.cursors.delete(scope);
    this.moved.delete(scope);
    this.returned.delete(scope);
    this.changes.without(scope);
    this.changes.touched.add(everything);
  }

  /** Breaks scopes whose copy differs from the server's at the moment it was caught up. */
  compare(caughtUp: CaughtUp): void {
    this.caughtUp = true;
    for (const { cursor, operationsCount } of caughtUp.digests) {
      if (!cursor) continue;
      const have = this.cursors.get(cursor.scope) ?? none(cursor.scope);
      const sequence = Number(cursor.sequence);
      const differs = have.sequence === sequence && have.operationsCount !== Number(operationsCount);
      if (differs || have.sequence < sequence) this.breakUp(cursor.scope);
    }
  }

  async commit(): Promise<Applied> {
    const { changes, pagesTaken: pages, caughtUp } = this;
    const applied = { pages, caughtUp, echoed: changes.echoes.length > 0, broken: [...this.broken], touched: changes.touched };
    if (this.moved.size + this.dropped.size === 0) return applied;
    const tx = this.db.transaction(copyStores, 'readwrite');
    await this.stillThere(tx);
    for (const [scope, gone] of this.dropped) await dropScope(tx, scope, gone);
    await layBack(tx, this.returned);
    putAll(tx, 'events', changes.events);
    await Promise.all([
      writeRecords(tx, changes.records),
      ...[...changes.readings.values()].map((f) => writeReadings(tx, f)),
      ...changes.unread.map((u) => tx.objectStore('unread').put(u)),
      hearEchoes(tx, changes.echoes),
      ...[...this.moved].map((scope) => tx.objectStore('cursors').put(this.cursors.get(scope)!)),
    ]);
    await tx.done;
    return applied;
  }

  // The chains were computed outside the transaction: nobody may have moved the cursors meanwhile.
  private async stillThere(tx: Writing): Promise<void> {
    for (const scope of this.moved) {
      const now = await tx.objectStore('cursors').get(scope);
      if ((now?.sequence ?? 0) !== (this.began.get(scope)?.sequence ?? 0)) {
        tx.abort();
        await tx.done.catch(() => undefined);
        throw new Error('another tab is reading the same scope');
      }
    }
  }
}

/** Puts rows of which there may be thousands: nobody waits for each, and where one fails the transaction does. */
function putAll(tx: Writing, name: 'events' | 'outbox', rows: readonly object[]): void {
  const plain: IDBObjectStore = unwrap(tx.objectStore(name));
  for (const row of rows) plain.put(row);
}

async function next(chain: Uint8Array, block: Uint8Array): Promise<Uint8Array> {
  const both = new Uint8Array(chain.length + block.length);
  both.set(chain);
  both.set(block, chain.length);
  return new Uint8Array(await crypto.subtle.digest('SHA-256', both)).slice(0, 16);
}

function equal(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}

async function writeRecords(tx: Writing, changes: readonly RecordChange[]): Promise<void> {
  const store = tx.objectStore('records');
  const ids = [...new Set(changes.map((c) => c.change.recordId))];
  const kept = await Promise.all(ids.map((id) => store.get(id)));
  const records = new Map<string, Merged>();
  kept.forEach((k) => {
    const merged = k && readMerged(k);
    if (merged) records.set(k.id, merged);
  });
  const unread = changes.filter((c) => !changeRecord(records, c)).map((c) => tx.objectStore('unread').put(c.unread));
  await Promise.all([...unread, ...[...records].map(([id, m]) => store.put(writeMerged(id, m)))]);
}

// Tells whether all of the change could be read.
function changeRecord(records: Map<string, Merged>, { scope, at, change }: RecordChange): boolean {
  let merged = records.get(change.recordId);
  if (change.$typeName === 'freshet.v1.Removal') {
    if (merged?.scope === scope) merged.removed = true;
    return true;
  }
  if (!merged) {
    merged = newMerged(change, scope);
    if (!merged) return false;
    records.set(change.recordId, merged);
  }
  return mergeEdit(merged, change, at);
}

async function writeReadings(tx: Writing, filling: Filling): Promise<void> {
  const store = tx.objectStore('readings');
  await store.put(filling.into(await store.get(filling.key)));
}

/** Notes that own operations came back: from now on the copy shows them. A packet goes to one scope by one push, so a part of it stands for the whole. */
async function hearEchoes(tx: Writing, echoes: readonly (readonly [first: number, count: number])[]): Promise<void> {
  if (echoes.length === 0) return;
  const spans = [...echoes].sort((a, b) => a[0] - b[0]);
  const [first, last] = spans.reduce(([low, high], [f, n]) => [Math.min(low, f), Math.max(high, f + n - 1)], [Infinity, 0]);
  const store = tx.objectStore('outbox');
  const near = await store.getAll(IDBKeyRange.bound(first - maxRows, last));
  let at = 0;
  const heard = near.filter((p) => {
    while (at < spans.length && spans[at]![0] + spans[at]![1] <= p.first) at++;
    return p.echoed !== 1 && at < spans.length && spans[at]![0] < p.first + p.count;
  });
  putAll(tx, 'outbox', heard.map((p) => ({ ...p, echoed: 1 })));
}

/** Lays own entries of scopes over that were gone and are read again. */
async function layBack(tx: Writing, scopes: ReadonlySet<string>): Promise<void> {
  if (scopes.size === 0) return;
  const outbox = tx.objectStore('outbox');
  const hidden = (await outbox.index('echoed').getAll(2)).filter((p) => scopes.has(p.scope));
  await Promise.all(hidden.map((p) => outbox.put({ ...p, echoed: 0 })));
}

/** Deletes a scope's rows. What the device itself entered there is laid over again as far as it is kept; where the scope is gone, until it is answered. */
async function dropScope(tx: Writing, scope: string, gone: boolean): Promise<void> {
  const all = IDBKeyRange.bound([scope], [scope, []]);
  const events = await tx.objectStore('events').index('place').getAllKeys(all);
  const records = await tx.objectStore('records').index('scope').getAllKeys(scope);
  const packets = (await tx.objectStore('outbox').getAll()).filter((p) => p.scope === scope);
  await Promise.all([
    ...events.map((id) => tx.objectStore('events').delete(id)),
    ...records.map((id) => tx.objectStore('records').delete(id)),
    tx.objectStore('readings').delete(all),
    tx.objectStore('unread').delete(all),
    tx.objectStore('cursors').delete(scope),
    ...packets.map((p) => tx.objectStore('outbox').put({ ...p, echoed: gone ? 2 : 0 })),
  ]);
}
