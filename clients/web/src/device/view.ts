import type { Event, Operation } from '../gen/freshet/v1/change_pb';
import type { Quantity } from '../gen/freshet/v1/reading_pb';
import type { EventKind, BodyOf, RecordKind, RecordOf } from './kinds';

/** One record as this device sees it: the cooperative's fields, with its own entries laid over. */
export interface Recorded<K extends RecordKind = RecordKind> {
  id: string;
  kind: K;
  /** Empty for records of the cooperative and of the member. */
  siteId: string;
  value: RecordOf<K>;
  /** Own edits of it are not yet with the cooperative. */
  pending: boolean;
}

/** One event as this device sees it: corrected where it was corrected. */
export type Entry<K extends EventKind = EventKind> = { [E in K]: EntryOf<E> }[K];

interface EntryOf<K extends EventKind> {
  id: string;
  kind: K;
  event: Event;
  /** What the event holds: a Reading, a Feeding. */
  body: BodyOf<K>;
  /** When it happened, milliseconds since 1970 UTC. */
  at: number;
  /** When it was entered, as far as is known. */
  enteredMs: number;
  /** Who entered it; empty for own entries that were not yet sent. */
  memberId: string;
  /** Entered on this device. */
  own: boolean;
  /** The cooperative has not said what became of it. */
  pending: boolean;
  /** Another event stands in its place. */
  corrected: boolean;
}

/** Narrows what is read. Fields left out do not narrow. */
export interface Want {
  siteId?: string;
  /** Inclusive, milliseconds since 1970 UTC. */
  from?: number;
  /** Exclusive. */
  to?: number;
  /** Only events whose body names one of these: vessels, beds, cohorts, plantings. */
  about?: readonly string[];
}

/** Readings of one quantity at one place, oldest first, as columns of equal length. */
export interface Series {
  /** When, milliseconds since 1970 UTC. */
  ms: Float64Array;
  /** Values in the quantity's canonical unit. */
  values: Float64Array;
  /** The kit's scale ended there: -1 the truth is below the value, 1 above, 0 the value itself. */
  beyond: Int8Array;
  /** Ids of the readings, for asking after one of them. */
  id(index: number): string;
}

/** The newest reading of a quantity at a place. */
export interface Newest {
  placeId: string;
  quantity: Quantity;
  entry: Entry<'reading'>;
  /** In the quantity's canonical unit. */
  value: number;
}

/** What a query reads from: the copy of the cooperative's records with this device's own entries laid over it. */
export interface View {
  /** Records of a kind in the order they were made, without removed ones. */
  records<K extends RecordKind>(kind: K, siteId?: string): Promise<Recorded<K>[]>;
  /** One record, undefined where there is none or it was removed. */
  record<K extends RecordKind>(kind: K, id: string): Promise<Recorded<K> | undefined>;
  /** Events of some kinds in the order they happened, voided ones left out. */
  events<K extends EventKind>(kinds: K | readonly K[], want?: Want): Promise<Entry<K>[]>;
  /** Says what will be read of a site's events, for a query that reads them later: what changes until then makes it run again. */
  foresee(kinds: readonly EventKind[], siteId: string): void;
  /** One event by its id, corrected where it was corrected; undefined where it is void or unknown. */
  event(id: string): Promise<Entry | undefined>;
  /** Readings of a quantity at a place ('' the site's air) of a site. */
  series(siteId: string, placeId: string, quantity: Quantity, from: number, to: number): Promise<Series>;
  /** The newest reading of every quantity at every place of a site, of the days given before now. */
  newest(siteId: string, days?: number): Promise<Newest[]>;
}

/** An entry that the cooperative did not store, for ever, with why. */
export interface Left {
  number: number;
  /** Kept for a steward to settle; else refused. */
  held: boolean;
  /** A name of ErrorReason without its prefix. */
  reason: string;
  /** The field it is about, as a path. */
  field: string;
  /** What to do, in words. */
  hint: string;
  /** The person has read it. */
  seen: boolean;
  /** Server's clock less this device's when it was not stored, ms; 0 where that was not kept. */
  aheadMs: number;
  operation: Operation;
}
