import { create, type MessageInitShape } from '@bufbuild/protobuf';
import { timestampFromMs } from '@bufbuild/protobuf/wkt';

import {
  CorrectionSchema, EditSchema, EventSchema, OperationSchema, RemovalSchema, type Event, type Operation,
} from '../gen/freshet/v1/change_pb';
import type { Clock } from './clock';
import type { Lane } from './database';
import { exchanged } from './exchanged';
import { idOf, splitId, type Install } from './ids';
import {
  eventField, recordField, scopeOfEvent, scopeOfRecord, type EventKind, type FieldsOf, type InitOf, type RecordKind,
} from './kinds';
import { laneOf, occurredMs, type Entered } from './packet';
import type { Entry, Recorded } from './view';

// Keeps a group within one push.
const maxGroup = 1000;

/** Where and when something happened. */
export interface Place {
  siteId: string;
  /** Milliseconds since 1970 UTC; now where it is left out. */
  at?: number;
}

/**
 * Takes entries that are committed together: after a crash all of them are
 * there or none. Ids are handed out at once, so that a later entry of the same
 * draft may name an earlier one.
 */
export class Draft {
  /** What was drafted, in order. */
  readonly drafted: Entered[] = [];
  private group = 0;

  /** Drafts are made by Device.enter. */
  constructor(
    private readonly install: Install,
    private readonly memberId: string,
    private next: number,
    private readonly clock: Clock,
  ) {}

  /** Drafts an event and gives its id. */
  note<K extends EventKind>(kind: K, body: InitOf<K>, place: Place): string {
    return this.event(this.eventOf(kind, body, place), kind);
  }

  /** Drafts an event that is there in whole, and gives its id. */
  noteWhole(event: Event): string {
    if (event.kind.case === undefined) throw new RangeError('an event of a later release cannot be entered');
    return this.event(event, event.kind.case);
  }

  /** Makes an event without drafting it: what is to stand in another's place. */
  eventOf<K extends EventKind>(kind: K, body: InitOf<K>, { siteId, at }: Place): Event {
    if (siteId === '') throw new RangeError('an event needs the site it happened at');
    const value = create(eventField(kind).message, body as MessageInitShape<never>);
    return create(EventSchema, {
      siteId,
      occurredAt: timestampFromMs(Math.round(at ?? this.clock.now())),
      kind: { case: kind, value } as Event['kind'],
    });
  }

  /** Drafts that another event stands in an entry's place; words say why. */
  correct(entry: Entry, replacement: Event, words = ''): string {
    return this.correction(entry, create(CorrectionSchema, { eventId: entry.id, replacement, words }));
  }

  /** Drafts that an entry is void; words say why. */
  void(entry: Entry, words = ''): string {
    return this.correction(entry, create(CorrectionSchema, { eventId: entry.id, words }));
  }

  private correction(entry: Entry, value: Event['kind']['value']): string {
    const event = create(EventSchema, {
      siteId: entry.event.siteId,
      occurredAt: timestampFromMs(Math.round(this.clock.now())),
      kind: { case: 'correction', value } as Event['kind'],
    });
    return this.event(event, entry.kind);
  }

  /** Drafts a new record and gives its id. A new site stands as its own site. */
  make<K extends RecordKind>(kind: K, fields: FieldsOf<K>, siteId = ''): string {
    const id = idOf(this.install, this.next);
    this.edit(kind, id, fields, kind === 'site' ? id : siteId);
    return id;
  }

  /** Drafts that fields of a record are set. A field given as undefined is cleared. */
  set<K extends RecordKind>(record: Recorded<K>, fields: FieldsOf<K>): void {
    this.edit(record.kind, record.id, fields, record.siteId);
  }

  private edit<K extends RecordKind>(kind: K, recordId: string, fields: FieldsOf<K>, siteId: string): void {
    const { message } = recordField(kind);
    const names = Object.keys(fields).map((local) => message.field[local]!.name);
    if (names.length === 0) throw new RangeError('an edit names the fields it sets');
    const given = Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined));
    const edit = create(EditSchema, {
      recordId,
      siteId,
      fields: { paths: names },
      record: { case: kind, value: create(message, given as MessageInitShape<never>) } as never,
    });
    this.add(create(OperationSchema, { change: { case: 'edit', value: edit } }), 'other', scopeOfRecord(kind, siteId, this.memberId));
  }

  /** Drafts that a record is taken away. */
  remove(record: Recorded<RecordKind>): void {
    const removal = create(RemovalSchema, { recordId: record.id, siteId: record.siteId });
    const op = create(OperationSchema, { change: { case: 'removal', value: removal } });
    this.add(op, 'other', scopeOfRecord(record.kind, record.siteId, this.memberId));
  }

  /** Drafts entries that the cooperative stores whole or not at all: at most 1000; groups do not nest. */
  together(fill: () => void): void {
    if (this.group !== 0) throw new RangeError('a group cannot hold another group');
    this.group = this.next;
    fill();
    if (this.next - this.group > maxGroup) throw new RangeError('a group holds at most 1000 entries');
    this.group = 0;
  }

  /** Drafts operations that were not stored once more, later by so many ms: together where there are several, with what one made named anew in the others. */
  again(operations: readonly Operation[], laterMs: number): void {
    const made = operations.flatMap(({ change, number }, i) => (change.case === 'edit' && splitId(change.value.recordId)?.number === Number(number) ? [[change.value.recordId, idOf(this.install, this.next + i)] as const] : []));
    const ids = new Map(made);
    const all = (): void => operations.forEach((op) => this.once(exchanged(op, ids), laterMs));
    if (operations.length > 1) this.together(all);
    else all();
  }

  private once({ change }: Operation, laterMs: number): void {
    if (change.case === 'event' && change.value.kind.case !== undefined) {
      const { kind, siteId } = change.value;
      change.value.occurredAt = timestampFromMs(occurredMs(change.value) + Math.round(laterMs));
      this.add(create(OperationSchema, { change }), this.group ? 'other' : laneOf(change.value), scopeOfEvent(kind.case, siteId));
    } else if (change.case === 'edit' && change.value.record.case !== undefined) {
      this.add(create(OperationSchema, { change }), 'other', scopeOfRecord(change.value.record.case, change.value.siteId, this.memberId));
    } else {
      throw new RangeError('only events and edits can be entered once more');
    }
  }

  private event(event: Event, kind: EventKind): string {
    const id = idOf(this.install, this.next);
    const op = create(OperationSchema, { change: { case: 'event', value: event } });
    this.add(op, this.group ? 'other' : laneOf(event), scopeOfEvent(kind, event.siteId));
    return id;
  }

  private add(op: Operation, lane: Lane, scope: string): void {
    op.number = BigInt(this.next++);
    op.group = BigInt(this.group);
    op.noted = this.clock.noted();
    this.drafted.push({ op, lane, scope });
  }
}
