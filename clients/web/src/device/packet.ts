import { create, fromBinary, toBinary } from '@bufbuild/protobuf';
import { timestampFromMs, timestampMs } from '@bufbuild/protobuf/wkt';

import {
  EventSchema, NotedSchema, OperationSchema, type Event, type Noted, type Operation,
} from '../gen/freshet/v1/change_pb';
import { FeedingSchema } from '../gen/freshet/v1/feeding_pb';
import { ReadingSchema } from '../gen/freshet/v1/reading_pb';
import { PushRequestSchema } from '../gen/freshet/v1/sync_service_pb';
import type { Lane, Packet } from './database';
import { maxRows } from './wire/columns';
import { eachFeeding, encodeFeedings, type FeedingRow } from './wire/feedings';
import { eachReading, encodeReadings, type ReadingRow } from './wire/readings';

/** The fewest rows that are worth packing as columns. */
export const columnsFrom = 8;

// Packets of rows stay well within a push.
const maxPacketRows = 500;
const maxPacketBytes = 128 << 10;

/** The lane of an event. */
export function laneOf(event: Event): Lane {
  if (event.kind.case === 'reading') return 'readings';
  // Columns have no room for what was left.
  if (event.kind.case === 'feeding' && event.kind.value.leftG === 0) return 'feedings';
  return 'other';
}

/** An operation with where it goes. */
export interface Entered {
  op: Operation;
  lane: Lane;
  scope: string;
}

/** A run is operations with consecutive numbers that go into one packet. */
export class Run {
  private readonly operations: Operation[] = [];
  private bytes = 0;

  constructor(
    private readonly lane: Lane,
    private readonly scope: string,
    private readonly group: number,
  ) {}

  takes(op: Operation, lane: Lane, scope: string): boolean {
    if (this.lane !== lane || this.scope !== scope || this.group !== Number(op.group)) return false;
    if (lane === 'other') return this.operations.length < maxPacketRows && this.bytes < maxPacketBytes;
    return this.operations.length < maxRows && op.noted?.bootId === this.operations[0]?.noted?.bootId;
  }

  add(op: Operation): void {
    this.operations.push(op);
    if (this.lane === 'other') this.bytes += toBinary(OperationSchema, op).length;
  }

  /** Encodes the run. */
  pack(): Packet {
    const operations = this.operations;
    const first = operations[0]!;
    const request = create(PushRequestSchema, { operations });
    let lane = this.lane;
    const noted = operations[operations.length - 1]!.noted;
    if (operations.length >= columnsFrom && lane === 'readings') {
      request.readings = [encodeReadings(operations.map(readingRow), noted)];
      lane = 'readingColumns';
    } else if (operations.length >= columnsFrom && lane === 'feedings') {
      request.feedings = [encodeFeedings(operations.map(feedingRow), noted)];
      lane = 'feedingColumns';
    }
    if (lane !== this.lane) request.operations = [];
    return {
      first: Number(first.number),
      count: operations.length,
      group: this.group,
      lane,
      scope: this.scope,
      notedMs: Number(first.noted?.wallMs ?? 0n),
      echoed: 0,
      body: toBinary(PushRequestSchema, request),
    };
  }
}

/** Packs operations with consecutive numbers. */
export function packAll(operations: readonly Entered[]): Packet[] {
  const packets: Packet[] = [];
  let run: Run | undefined;
  for (const { op, lane, scope } of operations) {
    if (!run?.takes(op, lane, scope)) {
      if (run) packets.push(run.pack());
      run = new Run(lane, scope, Number(op.group));
    }
    run.add(op);
  }
  if (run) packets.push(run.pack());
  return packets;
}

/** Joins packets of rows that follow each other and go to the same scope. */
export class Joined {
  private readonly packets: Packet[] = [];
  private some: Packet[] = [];
  private count = 0;
  private bytes = 0;

  add(p: Packet): void {
    if (!this.takes(p)) this.flush();
    this.some.push(p);
    this.count += p.count;
    this.bytes += p.body.length;
  }

  private takes(p: Packet): boolean {
    const [first] = this.some;
    if (!first || !isRows(first) || !isRows(p) || first.scope !== p.scope || first.group !== p.group) return false;
    return this.count + p.count <= maxPacketRows && this.bytes + p.body.length <= maxPacketBytes;
  }

  private flush(): void {
    const [first] = this.some;
    if (first) this.packets.push(this.some.length === 1 ? first : { ...first, count: this.count, lane: 'other', body: joined(this.some.map((p) => p.body), this.bytes) });
    this.some = [];
    [this.count, this.bytes] = [0, 0];
  }

  finish(): Packet[] {
    this.flush();
    return this.packets;
  }
}

const isRows = (p: Packet): boolean => p.lane !== 'readingColumns' && p.lane !== 'feedingColumns';

/** Protobuf joins messages by joining their bytes. */
function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const all = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/** A packet's operations as rows, whatever it is packed as. */
export function unpack(packet: Packet): Operation[] {
  const request = fromBinary(PushRequestSchema, packet.body);
  const operations = request.operations;
  for (const c of request.readings) {
    eachReading(c, (r) => operations.push(rowOperation(r.number, r.enteredMs, c.noted, readingEvent(r))));
  }
  for (const c of request.feedings) {
    eachFeeding(c, (r) => operations.push(rowOperation(r.number, r.enteredMs, c.noted, feedingEvent(r))));
  }
  return operations;
}

function rowOperation(number: number, enteredMs: number, noted: Noted | undefined, event: Event): Operation {
  return create(OperationSchema, {
    number: BigInt(number),
    noted: create(NotedSchema, { wallMs: BigInt(enteredMs), bootId: noted?.bootId ?? 0 }),
    change: { case: 'event', value: event },
  });
}

/** When an event happened, milliseconds since 1970 UTC. */
export function occurredMs(event: Event): number {
  return event.occurredAt ? Math.floor(timestampMs(event.occurredAt)) : 0;
}

function readingRow(op: Operation): ReadingRow {
  const event = op.change.value as Event;
  const r = event.kind.case === 'reading' ? event.kind.value : create(ReadingSchema);
  return {
    number: Number(op.number), site: event.siteId, place: r.placeId, equipment: r.equipmentId,
    occurredMs: occurredMs(event), enteredMs: Number(op.noted?.wallMs ?? 0n), quantity: r.quantity,
    digits: Number(r.digits), decimals: r.decimals, unit: r.unit, basis: r.basis, method: r.method, censoring: r.censoring,
  };
}

function feedingRow(op: Operation): FeedingRow {
  const event = op.change.value as Event;
  const f = event.kind.case === 'feeding' ? event.kind.value : create(FeedingSchema);
  return {
    number: Number(op.number), site: event.siteId, vessel: f.vesselId, cohort: f.cohortId, feed: f.feedId,
    occurredMs: occurredMs(event), enteredMs: Number(op.noted?.wallMs ?? 0n), massG: f.massG,
  };
}

/** A row of columns as the event it is. */
export function readingEvent(r: ReadingRow): Event {
  return create(EventSchema, {
    siteId: r.site,
    occurredAt: timestampFromMs(r.occurredMs),
    kind: {
      case: 'reading',
      value: create(ReadingSchema, {
        quantity: r.quantity, digits: BigInt(r.digits), decimals: r.decimals, unit: r.unit, basis: r.basis,
        method: r.method, censoring: r.censoring, placeId: r.place, equipmentId: r.equipment,
      }),
    },
  });
}

/** A row of columns as the event it is. */
export function feedingEvent(r: FeedingRow): Event {
  return create(EventSchema, {
    siteId: r.site,
    occurredAt: timestampFromMs(r.occurredMs),
    kind: {
      case: 'feeding',
      value: create(FeedingSchema, { vesselId: r.vessel, cohortId: r.cohort, feedId: r.feed, massG: r.massG }),
    },
  });
}
