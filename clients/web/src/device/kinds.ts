import type { DescField, DescMessage } from '@bufbuild/protobuf';

import { EditSchema, EventSchema, type Edit, type Event } from '../gen/freshet/v1/change_pb';

// Kinds of records and events, by the names that the contract's oneofs have in TypeScript.
export type RecordKind = NonNullable<Edit['record']['case']>;
export type EventKind = NonNullable<Event['kind']['case']>;

/** What a record of a kind holds: a Vessel, a Cohort. */
export type RecordOf<K extends RecordKind> = Extract<Edit['record'], { case: K }>['value'];

/** Fields of a record that are to be set; those left out stay as they are. */
export type FieldsOf<K extends RecordKind> = Partial<Omit<RecordOf<K>, '$typeName' | '$unknown'>>;

/** What an event of a kind holds: a Reading, a Feeding. */
export type BodyOf<K extends EventKind> = Extract<Event['kind'], { case: K }>['value'];

/** Fields of an event's body; those left out are zero or empty. */
export type InitOf<K extends EventKind> = Partial<Omit<BodyOf<K>, '$typeName' | '$unknown'>>;

const recordFields = fieldsOfOneof(EditSchema, 'record');
const eventFields = fieldsOfOneof(EventSchema, 'kind');

/** All kinds of records, in the contract's order. */
export const recordKinds = [...recordFields.keys()] as RecordKind[];

/** All kinds of events, in the contract's order. */
export const eventKinds = [...eventFields.keys()] as EventKind[];

function fieldsOfOneof(schema: DescMessage, oneof: string): Map<string, DescField & { message: DescMessage }> {
  const found = new Map<string, DescField & { message: DescMessage }>();
  for (const field of schema.oneofs.find((o) => o.localName === oneof)?.fields ?? []) {
    if (field.message) found.set(field.localName, field as DescField & { message: DescMessage });
  }
  return found;
}

/** The field of Edit that holds a kind of record. */
export function recordField(kind: RecordKind): DescField & { message: DescMessage } {
  return recordFields.get(kind)!;
}

/** The field of Event that holds a kind of event. */
export function eventField(kind: EventKind): DescField & { message: DescMessage } {
  return eventFields.get(kind)!;
}

/** The kind of record whose field in Edit has a number; undefined for kinds of a later release. */
export function recordKindOf(number: number): RecordKind | undefined {
  return recordKinds.find((kind) => recordField(kind).number === number);
}

const privateKinds = new Set<EventKind>(['labour', 'expense', 'note', 'photo']);

/** The scope in which the server keeps an event of a kind. A correction goes where what it corrects is. */
export function scopeOfEvent(kind: EventKind, siteId: string): string {
  return (privateKinds.has(kind) ? 'house:' : 'site:') + siteId;
}

/** The scope in which the server keeps a record of a kind. */
export function scopeOfRecord(kind: RecordKind, siteId: string, memberId: string): string {
  if (kind === 'member') return 'member:' + memberId;
  return siteId === '' ? 'coop' : 'site:' + siteId;
}
