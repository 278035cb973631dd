import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction } from 'idb';

import type { Chunk, ChunkKey } from './chunk';
import { databaseOf } from './names';

/** Operations as they are sent: a piece of an encoded PushRequest. */
export interface Packet {
  first: number;
  count: number;
  /** Number of the first operation of the group they belong to; 0 alone. */
  group: number;
  lane: Lane;
  scope: string;
  notedMs: number;
  /** 1 once the server's echo has come: from then on the copy shows them. 2 while the scope is gone: once they are answered nobody here reads them. */
  echoed: 0 | 1 | 2;
  body: Uint8Array;
}

/** How a packet's operations are packed. */
export type Lane = 'readings' | 'feedings' | 'other' | 'readingColumns' | 'feedingColumns';

/** What the cooperative said of an operation that it did not store. */
export interface KeptOutcome {
  number: number;
  held: boolean;
  reason: string;
  field: string;
  hint: string;
  /** The person has read it. */
  seen: boolean;
  operation: Uint8Array;
  /** Server's clock less this device's at that contact; releases before did not keep it. */
  aheadMs?: number;
}

/** How far a scope was read. */
export interface KeptCursor {
  scope: string;
  epoch: number;
  sequence: number;
  chain: Uint8Array;
  operationsCount: number;
}

/** A record as the edits in the feed leave it. */
export interface KeptRecord {
  id: string;
  scope: string;
  siteId: string;
  /** Field number of the record's kind in Edit. */
  kind: number;
  removed: boolean;
  body: Uint8Array;
  /** By field name, who set it last: settled time and install. */
  stamps: Record<string, [ms: number, install: string]>;
}

/** An event of the copy that came as a row. */
export interface KeptEvent {
  id: string;
  scope: string;
  /** Name of its kind; empty for kinds of a later release. */
  kind: string;
  occurredMs: number;
  enteredMs: number;
  memberId: string;
  body: Uint8Array;
}

/** An operation that this release cannot read in full, as it came, for the next one. */
export interface Unread {
  scope: string;
  sequence: number;
  part: number;
  body: Uint8Array;
}

interface Shape extends DBSchema {
  facts: { key: string; value: unknown };
  outbox: { key: number; value: Packet; indexes: { echoed: number } };
  outcomes: { key: number; value: KeptOutcome };
  cursors: { key: string; value: KeptCursor };
  records: { key: string; value: KeptRecord; indexes: { scope: string } };
  events: { key: string; value: KeptEvent; indexes: { place: [string, string, number] } };
  readings: { key: ChunkKey; value: Chunk };
  unread: { key: [string, number, number]; value: Unread };
}

export type Database = IDBPDatabase<Shape>;

/** The stores that hold the copy, and the outbox, which hears of its echoes. */
export const copyStores = ['outbox', 'cursors', 'records', 'events', 'readings', 'unread'] as const;

/** A transaction that changes the copy. */
export type Writing = IDBPTransaction<Shape, typeof copyStores, 'readwrite'>;

/** Opens a device's database and makes it where there is none. */
export function openDatabase(name: string): Promise<Database> {
  return openDB<Shape>(databaseOf(name), 1, {
    upgrade(db) {
      db.createObjectStore('facts');
      db.createObjectStore('outbox', { keyPath: 'first' }).createIndex('echoed', 'echoed');
      db.createObjectStore('outcomes', { keyPath: 'number' });
      db.createObjectStore('cursors', { keyPath: 'scope' });
      db.createObjectStore('records', { keyPath: 'id' }).createIndex('scope', 'scope');
      db.createObjectStore('events', { keyPath: 'id' }).createIndex('place', ['scope', 'kind', 'occurredMs']);
      db.createObjectStore('readings', { keyPath: ['scope', 'span', 'place', 'quantity'] });
      db.createObjectStore('unread', { keyPath: ['scope', 'sequence', 'part'] });
    },
  });
}

/** What a device keeps about itself. */
export interface Facts {
  install: Uint8Array;
  /** Number of the next operation. */
  next: number;
  /** Every operation up to it has a lasting outcome. */
  through: number;
  /** Operations up to it may have been sent. */
  attempted: number;
  backedUp: number;
  epoch: number;
  address: string;
  token: string;
  cooperativeId: string;
  memberId: string;
  deviceId: string;
  lastContactMs: number;
  /** Server's clock less this device's, at the last contact. */
  serverAheadMs: number;
}
