import { clone, type Message } from '@bufbuild/protobuf';

import type { Operation } from '../gen/freshet/v1/change_pb';
import type { Quantity } from '../gen/freshet/v1/reading_pb';
import { breath } from './breath';
import { entryAt, firstFrom, spanOf, type Chunk, type ChunkKey } from './chunk';
import type { Database, KeptEvent, KeptRecord } from './database';
import { Gatherer, keptEntry, waitingEntry } from './entries';
import { hexOf, type Install } from './ids';
import { eventKinds, recordField, type EventKind, type RecordKind, type RecordOf } from './kinds';
import { mergeEdit, newMerged, readMerged, type Merged } from './merge';
import { NewestOf, newestRows, seriesFrom } from './newest';
import type { Overlay, Waiting } from './overlay';
import { SeriesBuilder } from './series';
import { eventTopic, recordTopic, type Topic } from './topics';
import type { Entry, Newest, Recorded, Series, View, Want } from './view';

const day = 86_400_000;

// So many events are read, and so many decoded, before the page may do something else.
const slice = 400;
const atOnce = 100;

/** Answers queries from the copy and the overlay, and notes what each asked for. */
export class Reader implements View {
  private recordsRead: Promise<KeptRecord[]> | undefined;
  // Taken before the copy is read: what came back meanwhile is then in both, never in neither.
  private readonly waiting: readonly Waiting[];

  constructor(
    private readonly db: Database,
    private readonly install: Install,
    private readonly overlay: Overlay,
    private readonly now: () => number,
    /** What was read, to tell which changes matter. */
    private readonly read = new Set<Topic>(),
  ) {
    this.waiting = overlay.all();
  }

  async records<K extends RecordKind>(kind: K, siteId?: string): Promise<Recorded<K>[]> {
    return (await this.recordsWithout(kind, new Set())).filter((r) => siteId === undefined || r.siteId === siteId);
  }

  /** Records of a kind as they would be without some of the own operations that wait. */
  async recordsWithout<K extends RecordKind>(kind: K, numbers: ReadonlySet<number>): Promise<Recorded<K>[]> {
    this.read.add(recordTopic(kind));
    const number = recordField(kind).number;
    const waiting = this.waiting.filter((w) => !numbers.has(w.number));
    const all = new Map<string, Merged>();
    for (const kept of await this.keptRecords()) {
      if (kept.kind === number) all.set(kept.id, readMerged(kept)!);
    }
    const pending = new Set<string>();
    for (const w of waiting) {
      const id = layOver(all, w.op.change, kind);
      if (id && w.number > this.overlay.through) pending.add(id);
    }
    return [...all]
      .filter(([, m]) => !m.removed)
      .map(([id, m]) => ({ id, kind, siteId: m.siteId, value: m.message as RecordOf<K>, pending: pending.has(id) }))
      .sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  // A query asks for many kinds: they are read once, and all are of one moment.
  private keptRecords(): Promise<KeptRecord[]> {
    return (this.recordsRead ??= this.db.getAll('records'));
  }

  async record<K extends RecordKind>(kind: K, id: string): Promise<Recorded<K> | undefined> {
    return (await this.records(kind)).find((r) => r.id === id);
  }

  async events<K extends EventKind>(kinds: K | readonly K[], want: Want = {}): Promise<Entry<K>[]> {
    const wanted = (Array.isArray(kinds) ? kinds : [kinds]) as K[];
    this.foresee(wanted, want.siteId ?? '');
    const gatherer = new Gatherer(wanted, want);
    const own = hexOf(this.install);
    const sites = want.siteId === undefined ? await this.sites() : [want.siteId];
    for (const [i, kept] of (await this.kept(sites, wanted, want)).entries()) {
      if (i % atOnce === atOnce - 1) await breath();
      gatherer.add(keptEntry(kept, own));
    }
    if (wanted.includes('reading' as K)) {
      for (const site of sites) await this.readingsInto(gatherer, site, want);
    }
    for (const w of this.waiting) gatherer.add(waitingEntry(w, this.install, this.overlay.through));
    return gatherer.finish() as unknown as Entry<K>[];
  }

  foresee(kinds: readonly EventKind[], siteId: string): void {
    for (const kind of [...kinds, 'correction']) this.read.add(eventTopic(kind, siteId));
  }

  private async kept(sites: readonly string[], kinds: readonly EventKind[], want: Want): Promise<KeptEvent[]> {
    const scopes = sites.flatMap((site) => ['site:' + site, 'house:' + site]);
    return (await Promise.all(scopes.flatMap((scope) => [
      ...kinds.filter((k) => k !== 'correction').map((kind) => this.keptOf(scope, kind, want)),
      this.keptOf(scope, 'correction', {}),
    ]))).flat();
  }

  /** Events of one kind, slice by slice: thousands that come at once hold up a thumb, since the browser makes objects of all of them in one go. */
  private async keptOf(scope: string, kind: EventKind, want: Want): Promise<KeptEvent[]> {
    const all: KeptEvent[] = [];
    let from = want.from ?? -Infinity;
    for (let most = slice; ; ) {
      const span = IDBKeyRange.bound([scope, kind, from], [scope, kind, want.to ?? Infinity], false, want.to !== undefined);
      const some = await this.db.getAllFromIndex('events', 'place', span, most);
      if (some.length < most) return all.concat(some);
      // Others of the last moment may stand beyond the slice: it is read again.
      const last = some[some.length - 1]!.occurredMs;
      const before = some.filter((e) => e.occurredMs < last);
      all.push(...before);
      if (before.length > 0) from = last;
      else most *= 2;
    }
  }

  private async readingsInto(gatherer: Gatherer, site: string, want: Want): Promise<void> {
    const own = hexOf(this.install);
    for (const chunk of await this.chunks(site, want.from, want.to)) {
      if (want.about && !want.about.includes(chunk.place)) continue;
      const end = want.to === undefined ? chunk.offsets.length : firstFrom(chunk, want.to);
      for (let i = want.from === undefined ? 0 : firstFrom(chunk, want.from); i < end; i++) gatherer.add(entryAt(chunk, i, own));
    }
  }

  private chunks(site: string, from = -Infinity, to = Infinity): Promise<Chunk[]> {
    const scope = 'site:' + site;
    return this.db.getAll('readings', IDBKeyRange.bound([scope, spanOf(from)], [scope, spanOf(to), []]));
  }

  private async sites(): Promise<string[]> {
    return (await this.records('site')).map((s) => s.id);
  }

  async event(id: string): Promise<Entry | undefined> {
    return (await this.events(eventKinds)).find((e) => e.id === id);
  }

  async series(siteId: string, placeId: string, quantity: Quantity, from: number, to: number): Promise<Series> {
    this.foresee(['reading'], siteId);
    const own = hexOf(this.install);
    const kept = await this.kept([siteId], ['reading'], { from, to });
    const singles: Entry<'reading'>[] = [];
    const corrections = new Map<string, Entry<'correction'>>();
    for (const e of [...kept.map((k) => keptEntry(k, own)), ...this.waiting.map((w) => waitingEntry(w, this.install, this.overlay.through))]) {
      if (e?.event.siteId !== siteId) continue;
      if (e.kind === 'reading') singles.push(e);
      if (e.kind === 'correction' && !corrections.has(e.id)) corrections.set(e.id, e);
    }
    const found = new SeriesBuilder(placeId, quantity, from, to, corrections, singles);
    const store = this.db.transaction('readings').store;
    const keys: ChunkKey[] = [];
    for (let span = spanOf(from); span <= spanOf(to); span++) keys.push(['site:' + siteId, span, placeId, quantity]);
    for (const chunk of await Promise.all(keys.map((key) => store.get(key)))) if (chunk) found.add(chunk);
    return found.finish();
  }

  async newest(siteId: string, days = 30): Promise<Newest[]> {
    this.foresee(['reading'], siteId);
    const own = hexOf(this.install);
    const from = this.now() - days * day;
    const gatherer = new Gatherer(['reading'], { siteId, from });
    const [series, singles] = await Promise.all([seriesFrom(this.db, siteId, from), this.kept([siteId], ['reading'], { from })]);
    for (const kept of singles) gatherer.add(keptEntry(kept, own));
    for (const w of this.waiting) gatherer.add(waitingEntry(w, this.install, this.overlay.through));
    const found = new NewestOf();
    for (const entry of gatherer.finish()) found.add(entry as Entry<'reading'>);
    await newestRows(this.db, series, from, gatherer.replaced(), own, found);
    return found.all();
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
