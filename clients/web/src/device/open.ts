import { clone, create, toBinary } from '@bufbuild/protobuf';
import { timestampFromMs } from '@bufbuild/protobuf/wkt';
import { deleteDB } from 'idb';

import { EventSchema, type Operation } from '../gen/freshet/v1/change_pb';
import type { Photo } from '../gen/freshet/v1/photo_pb';
import { PushRequestSchema } from '../gen/freshet/v1/sync_service_pb';
import { callsOf, type Calls } from './calls';
import { Righted, thisMachine, type Clock } from './clock';
import { Contact } from './contact';
import { openDatabase, type Database } from './database';
import type { Device, Noted, Status } from './device';
import { Draft } from './draft';
import { waitingEntry } from './entries';
import { fact, factFrom, keepFacts } from './facts';
import { hexOf, newInstall, type Install } from './ids';
import { fillInvented } from './invented';
import { join, type Invitation } from './join';
import { belonging, listLeft, markSeen } from './left';
import { Live, type Stop } from './live';
import { listMisdated } from './misdated';
import { databaseOf, invented } from './names';
import { packetsAfter } from './outbox';
import { Overlay } from './overlay';
import { packAll } from './packet';
import { fetchPhoto, fetchThumbnail, sendPhotos } from './photolane';
import { Photos, type PhotosStand } from './photos';
import { Reader } from './reader';
import { bearerOf } from './renew';
import { askToLast, isFull } from './storage';
import { readStatus } from './status';
import { Tabs, type Told } from './tabs';
import { everything, eventTopic, recordTopic, type Topic } from './topics';
import { TroubleError, understand } from './trouble';
import { drawBack, takeBack, undoMs } from './undo';
import type { Entry, Left, View } from './view';

// What is on the phone is drawn before the network is asked.
const firstContactMs = 1500;

/** A device that is open in this tab. */
export class OpenDevice implements Device {
  private readonly live_ = new Live();
  private readonly tabs: Tabs;
  private readonly maker: Contact;
  private readonly leaving = new AbortController();
  private readonly photos: Photos;
  private busy = false;
  private leads = false;
  private readonly righted: Righted;

  private constructor(
    readonly name: string,
    private readonly db: Database,
    private readonly install: Install,
    private readonly overlay: Overlay,
    private readonly clock: Clock,
  ) {
    this.photos = new Photos(name);
    this.righted = new Righted(clock);
    this.tabs = new Tabs(name, (told) => void this.hear(told));
    this.maker = new Contact(db, install, clock, {
      changed: (topics, overlay) => void this.changedHere([...topics], overlay),
      busy: (busy) => this.setBusy(busy),
      emptied: async () => {
        await this.photos.forget();
        await this.changedHere([everything], true);
      },
      quiet: (calls) => this.sendPhotos(calls),
    });
  }

  static async open(name: string, clock?: Clock): Promise<OpenDevice> {
    const db = await openDatabase(name);
    const overlay = new Overlay();
    const installed = ownInstall(db);
    const runs = clock ?? (name === invented ? await fillInvented(db, await installed) : thisMachine());
    // Asked for at once: each answer takes a turn of the page.
    const [install, told] = await Promise.all([installed, toldTime(db), overlay.load(db)]);
    const device = new OpenDevice(name, db, install, overlay, runs);
    device.righted.hear(told);
    if (name !== invented) device.begin();
    return device;
  }

  // Contact is made by one tab for all: on opening, on coming back to it, when
  // the network returns, and by the contact's own timer.
  private begin(): void {
    void this.tabs.whenLeading(() => {
      this.leads = true;
      this.maker.within(firstContactMs);
    });
    const soon = () => this.please(0);
    const { signal } = this.leaving;
    addEventListener('online', soon, { signal });
    addEventListener('focus', soon, { signal });
    // Also on leaving: what waits is sent while there still is a page.
    if (typeof document !== 'undefined') document.addEventListener('visibilitychange', soon, { signal });
  }

  private please(ms: number): void {
    if (this.leads) this.maker.within(ms);
    else this.tabs.tell({ kind: 'please', ms });
  }

  private async hear(told: Told): Promise<void> {
    switch (told.kind) {
      case 'please':
        if (this.leads) this.maker.within(told.ms);
        return;
      case 'busy':
        this.busy = told.busy;
        return this.live_.changed(['status']);
      case 'changed':
        if (told.topics.includes(everything)) this.install.set((await this.db.get('facts', 'install')) as Install); // a copy took another
        if (told.overlay) await this.overlay.load(this.db);
        if (told.topics.includes('status')) await this.hearTime();
        this.live_.changedElsewhere(told.topics);
    }
  }

  private async changedHere(topics: Topic[], overlay: boolean): Promise<void> {
    if (overlay) await this.overlay.load(this.db);
    if (topics.includes('status')) await this.hearTime();
    this.live_.changedElsewhere(topics);
    this.tabs.tell({ kind: 'changed', topics, overlay });
  }

  private async hearTime(): Promise<void> {
    this.righted.hear(await toldTime(this.db));
  }

  private setBusy(busy: boolean): void {
    this.busy = busy;
    this.live_.changed(['status']);
    this.tabs.tell({ kind: 'busy', busy });
  }

  now(): number {
    return this.righted.now();
  }

  once<T>(query: (view: View) => Promise<T>): Promise<T> {
    return query(this.reader());
  }

  private reader(read?: Set<Topic>): Reader {
    return new Reader(this.db, this.install, this.overlay, () => this.now(), read);
  }

  live<T>(query: (view: View) => Promise<T>, heed: (value: T) => void, failed: (error: unknown) => void = console.error): Stop {
    return this.live_.subscribe((read) => query(this.reader(read)), heed, failed);
  }

  async enter(fill: (draft: Draft) => void): Promise<Noted> {
    const { first, operations } = await enterInto(this.db, this.righted, fill);
    this.overlay.add(operations);
    setTimeout(() => this.entered(operations)); // that it is noted is said first
    if (first === 1) void askToLast();
    // Not at once: for some seconds it can be taken back as if it had not been made.
    this.please(undoMs + 500);
    return { first, last: first + operations.length - 1 };
  }

  rehearse(fill: (draft: Draft) => void): void {
    const draft = new Draft(newInstall(), '', 1, this.righted);
    fill(draft);
    packAll(draft.drafted);
  }

  private entered(operations: readonly Operation[]): void {
    const topics = new Set(operations.flatMap(topicsOf));
    this.live_.changed(topics);
    this.tabs.tell({ kind: 'changed', topics: [...topics], overlay: true });
  }

  async keepPhoto(sha256: Uint8Array, picture: Blob): Promise<void> {
    await this.photos.keep(sha256, picture).catch((error: unknown) => {
      throw roomless(error);
    });
  }

  async photo(siteId: string, photo: Photo): Promise<Blob> {
    return (await this.photos.find(photo.sha256)) ?? this.ask((calls) => fetchPhoto(this.photos, calls, siteId, photo));
  }

  async thumbnail(siteId: string, photo: Photo): Promise<{ picture: Blob; whole: boolean }> {
    const kept = await this.photos.find(photo.sha256);
    return { picture: kept ?? (await this.ask((calls) => fetchThumbnail(this.photos, calls, siteId, photo.sha256))), whole: kept !== undefined };
  }

  async photosStand(): Promise<PhotosStand> {
    return this.photos.stand(await this.photoSites());
  }

  // The site of each photo that an entry names, by the hash of its file, in hex.
  private async photoSites(): Promise<Map<string, string>> {
    return new Map((await this.once((view) => view.events('photo'))).map((e) => [hexOf(e.body.sha256), e.event.siteId]));
  }

  // A server with another epoch was restored, and may have lost files.
  private async sendPhotos(calls: Calls): Promise<void> {
    await this.photos.at(await fact(this.db, 'epoch'));
    await sendPhotos(this.photos, calls, {
      sites: () => this.photoSites(),
      entriesWait: async () => (await readStatus(this.db, false)).waiting > 0,
    });
  }

  async undo({ first, last }: Noted): Promise<void> {
    const operations = this.overlay.all().filter((w) => w.number >= first && w.number <= last).map((w) => w.op);
    if (await takeBack(this.db, first, last)) {
      await this.overlay.load(this.db);
      return this.entered(operations);
    }
    const reader = this.reader();
    const back = await drawBack(reader, operations, this.install);
    await this.enter(back);
  }

  liveStatus(heed: (status: Status) => void): Stop {
    return this.live_.subscribe(
      (read) => {
        read.add('status');
        return readStatus(this.db, this.busy);
      },
      heed,
      console.error,
    );
  }

  left(): Promise<Left[]> {
    return listLeft(this.db);
  }

  async seen(number: number): Promise<void> {
    await markSeen(this.db, number);
    await this.changedHere(['status'], false);
  }

  async again(number: number, laterMs: number): Promise<Noted> {
    const all = belonging(await listLeft(this.db), number);
    const noted = await this.enter((draft) => draft.again(all.map((l) => l.operation), laterMs));
    await markSeen(this.db, ...all.map((l) => l.number));
    await this.changedHere(['status'], false);
    return noted;
  }

  async misdated(): Promise<{ entry: Entry; rightMs: number }[]> {
    const all = (await listMisdated(this.db)).flatMap((m) => {
      const entry = waitingEntry(m, this.install, this.overlay.through);
      return entry ? [{ entry, rightMs: m.at }] : [];
    });
    if (all.length === 0) return all;
    const corrected = new Set((await this.once((view) => view.events('correction'))).map((c) => c.body.eventId));
    return all.filter(({ entry }) => !corrected.has(entry.id));
  }

  async dateRight(as: readonly { entry: Entry; rightMs: number }[] = []): Promise<Noted | undefined> {
    const right = ({ entry, rightMs }: (typeof as)[number]) => ({ ...clone(EventSchema, entry.event), occurredAt: timestampFromMs(rightMs) });
    const noted = as.length > 0 ? await this.enter((draft) => as.forEach((m) => draft.correct(m.entry, right(m)))) : undefined;
    await keepFacts(this.db, { slow: [] });
    await this.changedHere(['status'], false);
    return noted;
  }

  async join(invitation: Invitation): Promise<void> {
    await join(this.db, invitation);
    await this.changedHere([everything], false);
    await this.contact();
  }

  contact(): Promise<void> {
    if (this.leads) return this.maker.round();
    this.tabs.tell({ kind: 'please', ms: 0 });
    return Promise.resolve();
  }

  async ask<T>(call: (calls: Calls) => Promise<T>): Promise<T> {
    const [address, token] = await Promise.all([fact(this.db, 'address'), fact(this.db, 'token')]);
    if (token === '') throw new TroubleError({ words: 'this phone is in no co-op', reason: 'NOT_JOINED', hint: 'ask a steward for an invitation' });
    try {
      return await call(callsOf(address, bearerOf(this.db, this.clock)));
    } catch (error) {
      throw understand(error);
    }
  }

  async outboxFile(): Promise<Uint8Array> {
    const through = await fact(this.db, 'through');
    const waiting = await packetsAfter(this.db.transaction('outbox').store, through);
    const head = toBinary(PushRequestSchema, create(PushRequestSchema, { install: this.install }));
    // Protobuf joins messages by joining their bytes.
    return new Uint8Array(await new Blob([head, ...waiting.map((p) => p.body)] as BlobPart[]).arrayBuffer());
  }

  async leave(losing?: 'entries'): Promise<void> {
    const { waiting } = await readStatus(this.db, false);
    if (waiting > 0 && losing !== 'entries') {
      throw new TroubleError({ words: `${waiting} entries are only on this device`, reason: 'ENTRIES_WAIT', hint: 'send them first, or keep them as a file' });
    }
    this.close();
    await deleteDB(databaseOf(this.name));
    await this.photos.forget();
  }

  close(): void {
    this.leaving.abort();
    this.maker.close();
    this.tabs.close();
    this.live_.close();
    void this.photos.close();
    this.db.close();
  }
}

// This machine's clock as the last contact found it.
async function toldTime(db: Database): Promise<{ aheadMs: number; atMs: number }> {
  const [aheadMs, atMs] = await Promise.all([fact(db, 'serverAheadMs'), fact(db, 'lastContactMs')]);
  return { aheadMs, atMs };
}

/** Reads the install, and makes one at the first start. */
export async function ownInstall(db: Database): Promise<Install> {
  const made = (await db.get('facts', 'install')) as Install | undefined; // to write takes longer, also where nothing is written
  if (made) return made;
  const facts = db.transaction('facts', 'readwrite', { durability: 'strict' });
  let install = (await facts.store.get('install')) as Install | undefined; // another tab may have been faster
  if (!install) {
    install = newInstall();
    await facts.store.put(install, 'install');
  }
  await facts.done;
  return install;
}

/** Commits what fill drafts to the outbox, synced to the disk. Throws TroubleError where there is no room. */
export async function enterInto(db: Database, clock: Clock, fill: (draft: Draft) => void): Promise<{ first: number; operations: Operation[] }> {
  const tx = db.transaction(['facts', 'outbox'], 'readwrite', { durability: 'strict' });
  const facts = tx.objectStore('facts');
  try {
    const [own, first, memberId] = await Promise.all([facts.get('install'), factFrom(facts, 'next'), factFrom(facts, 'memberId')]);
    const draft = new Draft(own as Install, memberId, first, clock);
    fill(draft);
    const packets = packAll(draft.drafted);
    await Promise.all([
      ...packets.map((p) => tx.objectStore('outbox').add(p)),
      facts.put(first + draft.drafted.length, 'next'),
      tx.done,
    ]);
    return { first, operations: draft.drafted.map((d) => d.op) };
  } catch (error) {
    await tx.done.catch(() => undefined);
    throw roomless(error);
  }
}

/** An error as it is thrown on: that there is no room, in words. */
function roomless(error: unknown): unknown {
  if (!isFull(error)) return error;
  return new TroubleError({ words: 'this phone has no room left', reason: 'STORAGE_FULL', hint: 'nothing was noted; free some room, or send what waits, and note it again' }, error);
}

// What an operation touches.
function topicsOf(op: Operation): Topic[] {
  switch (op.change.case) {
    case 'event':
      return ['status', eventTopic(op.change.value.kind.case ?? '', op.change.value.siteId)];
    case 'edit':
      return ['status', recordTopic(op.change.value.record.case ?? '')];
  }
  return [everything];
}

