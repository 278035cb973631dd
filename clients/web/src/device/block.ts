import { fromBinary, toBinary, type Message } from '@bufbuild/protobuf';

import { EventSchema, OperationSchema, type Edit, type Event, type Operation, type Removal } from '../gen/freshet/v1/change_pb';
import { FeedingColumnsSchema, ReadingColumnsSchema, type FeedingColumns, type ReadingColumns } from '../gen/freshet/v1/reading_columns_pb';
import { BlockSchema, type Block } from '../gen/freshet/v1/sync_service_pb';
import { Filling, spanOf, type ChunkKey, type Way } from './chunk';
import type { KeptEvent, Unread } from './database';
import { hexOf, idOf, isInstall, type Install } from './ids';
import type { Stamp } from './merge';
import { feedingEvent, occurredMs } from './packet';
import { eventTopic, everything, recordTopic, type Topic } from './topics';
import { eachFeeding } from './wire/feedings';
import { eachReading, type ReadingRow } from './wire/readings';

/** Says that a page does not continue what the device has of its scope: the copy is dropped and read anew. */
export class BrokenPage extends Error {}

/** One change of a record, in the order of the feed. */
export interface RecordChange {
  scope: string;
  at: Stamp;
  change: Edit | Removal;
  /** Where the operation is kept should part of it be of a later release. */
  unread: Unread;
}

/** What pages change in the copy, gathered before anything is written. */
export class Changes {
  records: RecordChange[] = [];
  events: KeptEvent[] = [];
  readonly readings = new Map<string, Filling>();
  unread: Unread[] = [];
  /** Own operations that came back: the first number, and how many. */
  readonly echoes: [first: number, count: number][] = [];
  readonly touched = new Set<Topic>();

  constructor(private readonly own: Install) {}

  /** Gathers a block and counts its operations. Throws BrokenPage where it cannot be read. */
  block(scope: string, sequence: number, body: Uint8Array): number {
    let block: Block;
    try {
      block = fromBinary(BlockSchema, body);
      if (!isInstall(block.install)) throw new BrokenPage('no install');
      return new BlockReader(this, scope, sequence, block, hexOf(this.own)).read();
    } catch (error) {
      throw new BrokenPage(`${scope} at ${sequence}`, { cause: error });
    }
  }

  /** Forgets what was gathered of a scope. */
  without(scope: string): void {
    this.records = this.records.filter((r) => r.scope !== scope);
    this.events = this.events.filter((e) => e.scope !== scope);
    this.unread = this.unread.filter((u) => u.scope !== scope);
    for (const [name, filling] of this.readings) if (filling.key[0] === scope) this.readings.delete(name);
  }

  filling(key: ChunkKey): Filling {
    const name = key.join('\n');
    let filling = this.readings.get(name);
    if (!filling) {
      filling = new Filling(key);
      this.readings.set(name, filling);
      this.touched.add(eventTopic('reading', key[0].slice('site:'.length)));
    }
    return filling;
  }
}

class BlockReader {
  private readonly install: string;
  private part = 0;

  constructor(
    private readonly changes: Changes,
    private readonly scope: string,
    private readonly sequence: number,
    private readonly from: Block,
    private readonly own: string,
  ) {
    this.install = hexOf(from.install);
  }

  read(): number {
    const { operations, readings, feedings } = this.from;
    for (const op of operations) this.operation(op);
    for (const c of readings) this.readingColumns(c);
    for (const c of feedings) this.feedingColumns(c);
    return operations.length + sum(readings) + sum(feedings);
  }

  private operation(op: Operation): void {
    const number = Number(op.number);
    this.echo(number, 1);
    const at = Number(op.noted?.wallMs ?? 0n);
    const unread = this.unread(toBinary(OperationSchema, op));
    switch (op.change.case) {
      case 'event':
        return this.event(number, at, op.change.value, unread);
      case 'edit':
        this.changes.touched.add(recordTopic(op.change.value.record.case ?? ''));
        break;
      case 'removal':
        this.changes.touched.add(everything);
        break;
      default:
        this.changes.unread.push(unread);
        return;
    }
    this.changes.records.push({ scope: this.scope, at: [at, this.install], change: op.change.value, unread });
  }

  private event(number: number, enteredMs: number, event: Event, unread: Unread): void {
    if (event.kind.case === undefined) this.changes.unread.push(unread);
    if (event.kind.case === 'reading' && !unknownFields(event) && !unknownFields(event.kind.value)) {
      const r = event.kind.value;
      return this.reading({
        number, enteredMs, site: event.siteId, place: r.placeId, equipment: r.equipmentId, occurredMs: occurredMs(event),
        quantity: r.quantity, digits: Number(r.digits), decimals: r.decimals, unit: r.unit, basis: r.basis,
        method: r.method, censoring: r.censoring,
      });
    }
    this.keep(number, enteredMs, event);
  }

  private keep(number: number, enteredMs: number, event: Event): void {
    const kind = event.kind.case ?? '';
    this.changes.touched.add(eventTopic(kind, event.siteId));
    this.changes.events.push({
      id: idOf(this.from.install, number), scope: this.scope, kind, occurredMs: occurredMs(event),
      enteredMs, memberId: this.from.memberId, body: toBinary(EventSchema, event),
    });
  }

  private reading(r: ReadingRow): void {
    const { equipment, decimals, unit, basis, method, censoring } = r;
    const way: Way = { install: this.install, memberId: this.from.memberId, equipment, decimals, unit, basis, method, censoring };
    this.changes.filling([this.scope, spanOf(r.occurredMs), r.place, r.quantity]).add(r, way);
  }

  private readingColumns(c: ReadingColumns): void {
    this.echo(Number(c.firstNumber), c.count);
    const unread = this.unread(new Uint8Array());
    if (unknownFields(c)) this.changes.unread.push({ ...unread, body: toBinary(ReadingColumnsSchema, c) });
    eachReading(c, (r) => this.reading(r));
  }

  private feedingColumns(c: FeedingColumns): void {
    this.echo(Number(c.firstNumber), c.count);
    const unread = this.unread(new Uint8Array());
    if (unknownFields(c)) this.changes.unread.push({ ...unread, body: toBinary(FeedingColumnsSchema, c) });
    eachFeeding(c, (r) => this.keep(r.number, r.enteredMs, feedingEvent(r)));
  }

  private unread(body: Uint8Array): Unread {
    return { scope: this.scope, sequence: this.sequence, part: this.part++, body };
  }

  private echo(first: number, count: number): void {
    if (this.install === this.own) this.changes.echoes.push([first, count]);
  }
}

function sum(columns: { count: number }[]): number {
  return columns.reduce((n, c) => n + c.count, 0);
}

function unknownFields(m: Message): boolean {
  return (m.$unknown?.length ?? 0) > 0;
}
