import { create, fromBinary, toBinary } from '@bufbuild/protobuf';

import { OperationSchema, type Operation } from '../gen/freshet/v1/change_pb';
import { OutcomeKind, PushRequestSchema, type Outcome, type PushRequest, type PushResponse } from '../gen/freshet/v1/sync_service_pb';
import { callMs, type Calls } from './calls';
import type { Clock } from './clock';
import type { Database, KeptOutcome, Packet } from './database';
import { fact } from './facts';
import { markPush } from './marks';
import { lastOf, packetsAfter } from './outbox';
import { columnsFrom, Joined, packAll, unpack } from './packet';
import { TroubleError } from './trouble';
import { denseOf, schemaOfDense } from './wire/dense';

// A push holds at most so much.
const maxOperations = 5000;
const maxBytes = 1_000_000;

/** Sends packets until none waits. Calls heed after each push. */
export async function push(db: Database, calls: Calls, clock: Clock, heed: () => void): Promise<void> {
  const dense = (await fact(db, 'serverSchema')) >= schemaOfDense;
  for (;;) {
    const packets = await nextPush(db);
    if (packets.length === 0) return;
    const last = lastOf(packets.at(-1)!);
    const marks = await markPush(db, last);
    const request = create(PushRequestSchema, { install: (await db.get('facts', 'install')) as Uint8Array, noted: clock.noted(), ...marks });
    const sent = fill(request, packets, dense);
    const answer = await calls.sync.push(request, { timeoutMs: 2 * callMs });
    await learn(db, packets, sent, answer, marks.mark);
    heed();
  }
}

function take(request: PushRequest, part: PushRequest, dense: boolean): void {
  for (const op of part.operations) request.operations.push(op);
  if (dense) request.denseReadings.push(...part.readings.map(denseOf));
  else request.readings.push(...part.readings);
  request.feedings.push(...part.feedings);
}

/** The packets that wait longest, as many as one push may hold. A group is never cut. */
async function nextPush(db: Database): Promise<Packet[]> {
  const through = await fact(db, 'through');
  const waiting = await packetsAfter(db.transaction('outbox').store, through, maxOperations);
  const packets: Packet[] = [];
  let count = 0;
  let bytes = 0;
  for (const p of waiting) {
    count += p.count;
    bytes += p.body.length;
    if (packets.length > 0 && (count > maxOperations || bytes > maxBytes)) return wholeGroups(packets);
    packets.push(p);
  }
  return packets;
}

// Leaves a group that goes on beyond the end for the next push.
function wholeGroups(packets: Packet[]): Packet[] {
  const group = packets.at(-1)!.group;
  let end = packets.length;
  while (group !== 0 && end > 0 && packets[end - 1]!.group === group) end--;
  return end === 0 ? packets : packets.slice(0, end); // a group always fits into one push
}

/**
 * Puts packets into a push, and gives them as they are kept from then on. A
 * morning's entries made one by one are many small packets: runs of readings and
 * of feedings become columns, and rows that follow each other are joined.
 */
function fill(request: PushRequest, packets: readonly Packet[], dense: boolean): Packet[] {
  const kept = new Joined();
  for (const run of alike(packets)) {
    const { lane, scope, group } = run[0]!;
    const rows = lane === 'readings' || lane === 'feedings' ? run.flatMap(unpack) : [];
    if (group !== 0 || rows.length < columnsFrom) run.forEach((p) => kept.add(p));
    else packAll(rows.map((op) => ({ op, lane, scope }))).forEach((p) => kept.add(p));
  }
  const all = kept.finish();
  for (const packet of all) take(request, fromBinary(PushRequestSchema, packet.body), dense);
  return all;
}

/** Packets that follow each other and are packed alike. */
function alike(packets: readonly Packet[]): Packet[][] {
  const runs: Packet[][] = [];
  for (const p of packets) {
    const last = runs.at(-1)?.[0];
    if (last && last.lane === p.lane && last.scope === p.scope && last.group === p.group) runs.at(-1)!.push(p);
    else runs.push([p]);
  }
  return runs;
}

/** Keeps the outcomes of a push, and the packets as they are kept once they were sent. */
async function learn(db: Database, packets: Packet[], sent: Packet[], answer: PushResponse, mark: Uint8Array): Promise<void> {
  const first = packets[0]!.first;
  const last = lastOf(packets.at(-1)!);
  if (answer.throughNumber < BigInt(last)) throw new TroubleError({ words: 'the answer is too short', reason: 'FOREIGN_ANSWER', noSignal: true });
  const aheadMs = await fact(db, 'serverAheadMs'); // as Hello has just found it
  const left = answer.outcomes.filter((o) => o.kind === OutcomeKind.REFUSED || o.kind === OutcomeKind.HELD_FOR_REVIEW);
  const operations = new Map<number, Operation>();
  if (left.length > 0) for (const op of sent.flatMap(unpack)) operations.set(Number(op.number), op);
  const tx = db.transaction(['facts', 'outbox', 'outcomes'], 'readwrite', { durability: 'strict' });
  const outbox = tx.objectStore('outbox');
  // Another tab may have heard echoes of them meanwhile, or that their scope is gone.
  const waited = (await outbox.index('echoed').getAllKeys(0)).filter((number) => number >= first && number <= last);
  const echoed = waited.length !== packets.length;
  await Promise.all([
    ...left.map((o) => tx.objectStore('outcomes').put(kept(o, operations.get(Number(o.number)), aheadMs))),
    ...(echoed ? [] : [outbox.delete(IDBKeyRange.bound(first, last)), ...sent.map((p) => outbox.put(p))]),
    tx.objectStore('facts').put(last, 'through'),
    tx.objectStore('facts').put(mark, 'mark'),
    tx.done,
  ]);
}

function kept(o: Outcome, op: Operation | undefined, aheadMs: number): KeptOutcome {
  const { reason, field, hint } = o;
  return {
    number: Number(o.number), held: o.kind === OutcomeKind.HELD_FOR_REVIEW, reason, field, hint, seen: false, aheadMs,
    operation: op ? toBinary(OperationSchema, op) : new Uint8Array(),
  };
}
