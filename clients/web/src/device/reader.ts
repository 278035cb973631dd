import { clone, type Message } from '@bufbuild/protobuf';

import type { Operation } from '../gen/freshet/v1/change_pb';
import type { Quantity } from '../gen/freshet/v1/reading_pb';
import type { Database, KeptEvent } from './database';
import { valueOf } from './digits';
import { Gatherer, keptEntry, waitingEntry } from './entries';
import type { Install } from './ids';
import { eventKinds, recordField, type EventKind, type RecordKind, type RecordOf } from './kinds';
import { mergeEdit, newMerged, readMerged, type Merged } from './merge';
import type { Overlay } from './overlay';
import { eventTopic, recordTopic, type Topic } from './topics';
import type { Entry, Newest, Recorded, Series, View, Want } from './view';

const day = 86_400_000;

/** Answers queries from the copy and the overlay, and notes what each asked for. */
export class Reader implements View {
  /** What was read, to tell which changes matter. */
  readonly read = new Set<Topic>();

  constructor(
    private readonly db: Database,
    private readonly install: Install,
    private readonly overlay: Overlay,
    private readonly now: () => number,
  ) {}

  async records<K extends RecordKind>(kind: K, siteId?: string): Promise<Recorded<K>[]> {
    this.read.add(recordTopic(kind));
    const number = recordField(kind).number;
    const waiting = this.overlay.all();
    const all = new Map<string, Merged>();
    for (const kept of await this.db.getAll('records')) {
      if (kept.kind === number) all.set(kept.id, readMerged(kept)!);
    }
    const pending = new Set<string>();
    for (const w of waiting) {
      const id = layOver(all, w.op.change, kind);
      if (id && w.number > this.overlay.through) pending.add(id);
    }
    return [...all]
      .filter(([, m]) => !m.removed && (siteId === undefined || m.siteId === siteId))
      .map(([id, m]) => ({ id, kind, siteId: m.siteId, value: m.message as RecordOf<K>, pending: pending.has(id) }))
      .sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  async record<K extends RecordKind>(kind: K, id: string): Promise<Recorded<K> | undefined> {
    return (await this.records(kind)).find((r) => r.id === id);
  }

  async events<K extends EventKind>(kinds: K | readonly K[], want: Want = {}): Promise<Entry<K>[]> {
    const wanted = (Array.isArray(kinds) ? kinds : [kinds]) as K[];
    return (await this.gather(wanted, want)).finish() as unknown as Entry<K>[];
  }

  private async gather(kinds: readonly EventKind[], want: Want): Promise<Gatherer> {
    for (const kind of [...kinds, 'correction']) this.read.add(eventTopic(kind, want.siteId ?? ''));
    const waiting = this.overlay.all();
    const gatherer = new Gatherer(kinds, want);
    for (const kept of await this.kept(kinds, want)) {
      const entry = keptEntry(kept, this.install);
      if (entry) gatherer.add(entry);
    }
    for (const w of waiting) {
      const entry = waitingEntry(w, this.install, this.overlay.through);
      if (entry) gatherer.add(entry);
    }
    return gatherer;
  }

  private async kept(kinds: readonly EventKind[], want: Want): Promise<KeptEvent[]> {
    const index = this.db.transaction('events').store.index('place');
    const sites = want.siteId === undefined ? await this.sites() : [want.siteId];
    const spans = sites.flatMap((site) => ['site:' + site, 'house:' + site]).flatMap((scope) => [
      ...kinds.filter((k) => k !== 'correction').map((kind) =>
        IDBKeyRange.bound([scope, kind, want.from ?? -Infinity], [scope, kind, want.to ?? Infinity], false, want.to !== undefined)),
      IDBKeyRange.bound([scope, 'correction', -Infinity], [scope, 'correction', Infinity]),
    ]);
    return (await Promise.all(spans.map((span) => index.getAll(span)))).flat();
  }

  private async sites(): Promise<string[]> {
    return (await this.records('site')).map((s) => s.id);
  }

  async event(id: string): Promise<Entry | undefined> {
    return (await this.events(eventKinds)).find((e) => e.id === id);
  }

  async series(siteId: string, placeId: string, quantity: Quantity, from: number, to: number): Promise<Series> {
    const found = (await this.events('reading', { siteId, from, to }))
      .filter((e) => e.body.placeId === placeId && e.body.quantity === quantity);
    return {
      ms: Float64Array.from(found, (e) => e.at),
      values: Float64Array.from(found, (e) => valueOf(e.body)),
      beyond: Int8Array.from(found, (e) => [0, -1, 1][e.body.censoring] ?? 0),
      id: (i) => found[i]!.id,
    };
  }

  async newest(siteId: string, days = 30): Promise<Newest[]> {
    const found = new Map<string, Newest>();
    for (const entry of await this.events('reading', { siteId, from: this.now() - days * day })) {
      const { placeId, quantity } = entry.body;
      found.set(placeId + quantity, { placeId, quantity, entry, value: valueOf(entry.body) });
    }
    return [...found.values()];
  }
}

// An own entry is shown before the cooperative has judged it, so it wins.
const own: [number, string] = [Infinity, 'f'];

// Applies one own operation to the records of a kind, and names the record.
function layOver(all: Map<string, Merged>, change: Operation['change'], kind: RecordKind): string {
  if (change.case === 'removal') {
    const before = all.get(change.value.recordId);
    if (before) all.set(change.value.recordId, { ...before, removed: true });
    return before ? change.value.recordId : '';
  }
  if (change.case !== 'edit' || change.value.record.case !== kind) return '';
  const id = change.value.recordId;
  const before = all.get(id);
  const merged = before
    ? { ...before, message: clone(recordField(kind).message, before.message as Message), stamps: { ...before.stamps } }
    : newMerged(change.value, '')!;
  mergeEdit(merged, change.value, own);
  all.set(id, merged);
  return id;
}
