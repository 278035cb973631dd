// A phone that is set up from another's backup is a copy: both would go on
// numbering as one install. The mark of the install's last push tells them
// apart, and the one that did not make it takes an install of its own.
import { equals, fromBinary, toBinary } from '@bufbuild/protobuf';

import { EventSchema, type Edit, type Event, type Operation } from '../gen/freshet/v1/change_pb';
import { entryAt, spanOf } from './chunk';
import type { Database, Packet } from './database';
import { exchanged, exchangedIn } from './exchanged';
import { fact, factFrom } from './facts';
import { hexOf, idOf, newInstall, type Install } from './ids';
import { recordField } from './kinds';
import { readMerged } from './merge';
import { packetsAfter } from './outbox';
import { occurredMs, packAll, unpack, type Entered } from './packet';
import { TroubleError } from './trouble';

/**
 * Gives a copy an install of its own, once its copy of the records is up to
 * date: what waits is entered again under new numbers, but for what the other
 * device sent for both. The bytes of install are replaced where they stand.
 */
export async function becomeOwn(db: Database, install: Install): Promise<void> {
  const former = install.slice();
  const fresh = newInstall();
  const [next, through] = await Promise.all([fact(db, 'next'), fact(db, 'through')]);
  const waiting = (await packetsAfter(db.transaction('outbox').store, through)).flatMap(entered).filter((e) => Number(e.op.number) > through);
  const alone: Entered[] = [];
  for (const e of waiting) if (!(await isSent(db, former, e.op))) alone.push(e);
  await startOver(db, next, fresh, packAll(renamed(alone, former, fresh)), alone.length);
  install.set(fresh);
}

function entered(p: Packet): Entered[] {
  const lane = p.lane === 'readingColumns' ? 'readings' : p.lane === 'feedingColumns' ? 'feedings' : p.lane;
  return unpack(p).map((op) => ({ op, lane, scope: p.scope }));
}

/** Whether the records hold what an operation says, under its id. In doubt they do not: an entry shown twice can be taken back by who sees it. */
async function isSent(db: Database, former: Install, op: Operation): Promise<boolean> {
  const number = Number(op.number);
  const id = idOf(former, number);
  if (op.change.case === 'event') {
    const stored = (await storedEvent(db, id)) ?? (await storedReading(db, former, number, op.change.value));
    return stored !== undefined && hexOf(toBinary(EventSchema, stored)) === hexOf(toBinary(EventSchema, op.change.value));
  }
  // Saying again what a field is changes nothing.
  return op.change.case === 'edit' && op.change.value.recordId === id && recordSays(db, id, op.change.value);
}

async function storedEvent(db: Database, id: string): Promise<Event | undefined> {
  const kept = await db.get('events', id);
  return kept && fromBinary(EventSchema, kept.body);
}

async function storedReading(db: Database, former: Install, number: number, event: Event): Promise<Event | undefined> {
  if (event.kind.case !== 'reading') return undefined;
  const { placeId, quantity } = event.kind.value;
  const chunk = await db.get('readings', ['site:' + event.siteId, spanOf(occurredMs(event)), placeId, quantity]);
  const row = chunk?.numbers.findIndex((n, i) => n === number && chunk.ways[chunk.way[i]!]!.install === hexOf(former)) ?? -1;
  return chunk && row >= 0 ? entryAt(chunk, row, '').event : undefined;
}

async function recordSays(db: Database, id: string, edit: Edit): Promise<boolean> {
  const kept = await db.get('records', id);
  const merged = kept && readMerged(kept);
  if (!merged || edit.record.case === undefined) return false;
  const { message } = recordField(edit.record.case);
  return merged.message.$typeName === message.typeName && equals(message, merged.message as never, edit.record.value as never);
}

/** Operations with new numbers, and new ids in the place of former ones. */
function renamed(alone: readonly Entered[], former: Install, fresh: Install): Entered[] {
  const ids = new Map(alone.map(({ op }, i) => [idOf(former, Number(op.number)), idOf(fresh, i + 1)]));
  const numbers = new Map(alone.map(({ op }, i) => [op.number, BigInt(i + 1)]));
  return alone.map(({ op, lane, scope }, i) => {
    const again = exchanged(op, ids);
    again.number = BigInt(i + 1);
    if (op.group !== 0n) {
      // The first that is left of a group gives it its number.
      if (!numbers.has(op.group)) numbers.set(op.group, again.number);
      again.group = numbers.get(op.group)!;
    }
    return { op: again, lane, scope: exchangedIn(scope, ids) };
  });
}

/** Begins the outbox anew. What was refused or held stays to be read, under numbers below zero. */
async function startOver(db: Database, next: number, fresh: Install, packets: readonly Packet[], count: number): Promise<void> {
  const tx = db.transaction(['facts', 'outbox', 'outcomes'], 'readwrite', { durability: 'strict' });
  const [facts, outbox, outcomes] = [tx.objectStore('facts'), tx.objectStore('outbox'), tx.objectStore('outcomes')];
  if ((await factFrom(facts, 'next')) !== next) {
    tx.abort();
    await tx.done.catch(() => undefined);
    throw new TroubleError({ words: 'something was noted meanwhile', reason: 'INSTALL_COPIED', hint: 'it is tried again', noSignal: true });
  }
  const left = await outcomes.getAll();
  await Promise.all([
    outcomes.clear(),
    ...left.map((o) => outcomes.put({ ...o, number: -Math.abs(o.number) })),
    outbox.clear(),
    ...packets.map((p) => outbox.put(p)),
    facts.put(fresh, 'install'),
    facts.put(count + 1, 'next'),
    ...(['through', 'arrived', 'attempted', 'backedUp', 'mark', 'pushes', 'slow'] as const).map((name) => facts.delete(name)),
    tx.done,
  ]);
}
