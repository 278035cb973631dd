import { fromBinary } from '@bufbuild/protobuf';

import { EventSchema, type Event } from '../gen/freshet/v1/change_pb';
import type { KeptEvent } from './database';
import { idOf, splitId, type Install } from './ids';
import type { EventKind } from './kinds';
import type { Waiting } from './overlay';
import { occurredMs } from './packet';
import type { Entry, Want } from './view';

/** An event of the copy as an entry, by this device's install in hex; undefined where it is of a later release. */
export function keptEntry(kept: KeptEvent, own: string): Entry | undefined {
  const event = fromBinary(EventSchema, kept.body);
  if (event.kind.case === undefined) return undefined;
  return {
    ...plain(kept.id, event, event.kind.case),
    enteredMs: kept.enteredMs,
    memberId: kept.memberId,
    own: splitId(kept.id)?.install === own,
  } as Entry;
}

/** An own operation as an entry; undefined where it is no event. */
export function waitingEntry(w: Waiting, install: Install, through: number): Entry | undefined {
  if (w.op.change.case !== 'event' || w.op.change.value.kind.case === undefined) return undefined;
  const event = w.op.change.value;
  return {
    ...plain(idOf(install, w.number), event, event.kind.case!),
    enteredMs: Number(w.op.noted?.wallMs ?? 0n),
    own: true,
    pending: w.number > through,
  } as Entry;
}

function plain(id: string, event: Event, kind: EventKind): Entry {
  return {
    id, kind, event, body: event.kind.value, at: occurredMs(event),
    enteredMs: 0, memberId: '', own: false, pending: false, corrected: false,
  } as Entry;
}

/** Collects entries and the corrections that change them. */
export class Gatherer {
  private readonly found = new Map<string, Entry>();
  private readonly corrections = new Map<string, Entry<'correction'>>();
  private readonly kinds: ReadonlySet<EventKind>;

  constructor(kinds: readonly EventKind[], private readonly want: Want) {
    this.kinds = new Set(kinds);
  }

  add(e: Entry | undefined): void {
    if (!e) return;
    if (e.kind === 'correction') {
      // The copy's is added first, with its settled time.
      if (!this.corrections.has(e.id)) this.corrections.set(e.id, e);
      if (!this.kinds.has('correction')) return;
    }
    if (!this.found.has(e.id) && this.matches(e)) this.found.set(e.id, e);
  }

  /** The entries with the corrections in force put in, in the order they happened. */
  finish(): Entry[] {
    for (const [id, c] of inForce(this.corrections)) this.correct(id, c);
    return [...this.found.values()].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  }

  /** Ids of the events that a correction stands in place of. */
  replaced(): ReadonlySet<string> {
    return new Set(inForce(this.corrections).keys());
  }

  private matches(e: Entry): boolean {
    const { siteId, from, to, about } = this.want;
    return this.kinds.has(e.kind) && (siteId === undefined || e.event.siteId === siteId) &&
      (from === undefined || e.at >= from) && (to === undefined || e.at < to) && (about === undefined || names(e, about));
  }

  // What stands in an event's place may be wanted where the event itself was not.
  private correct(id: string, c: Entry<'correction'>): void {
    const before = this.found.get(id);
    this.found.delete(id);
    const replacement = c.body.replacement;
    if (replacement?.kind.case === undefined) return;
    const instead = {
      ...plain(id, replacement, replacement.kind.case),
      enteredMs: before?.enteredMs ?? c.enteredMs,
      memberId: before?.memberId ?? c.memberId,
      own: before?.own ?? c.own,
      pending: c.pending,
      corrected: true,
    } as Entry;
    if (this.matches(instead)) this.found.set(id, instead);
  }
}

function names(e: Entry, about: readonly string[]): boolean {
  return Object.values(e.body).some((v) => typeof v === 'string' && v !== '' && about.includes(v));
}

/**
 * Gives, for each event that was corrected, the correction that holds. A
 * correction may itself be corrected, and two phones may correct one event
 * without knowing of each other: all that go back to one event compete, the one
 * entered last holds, and between equal times the one with the greater id.
 */
export function inForce(corrections: ReadonlyMap<string, Entry<'correction'>>): Map<string, Entry<'correction'>> {
  const holds = new Map<string, Entry<'correction'>>();
  for (const c of corrections.values()) {
    let root = c.body.eventId;
    // Bounded: ids from elsewhere could run in a ring.
    for (let i = 0; i < corrections.size; i++) {
      const above = corrections.get(root);
      if (!above) break;
      root = above.body.eventId;
    }
    const before = holds.get(root);
    if (!before || c.enteredMs > before.enteredMs || (c.enteredMs === before.enteredMs && c.id > before.id)) holds.set(root, c);
  }
  return holds;
}
