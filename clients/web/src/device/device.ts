// One grower's device in a browser: everything a person can note with no
// network, kept until the cooperative has it, and a copy of the cooperative's
// records to read from. The twin of clients/device; what a client promises is
// written in clients/README.md.

import type { Operation } from '../gen/freshet/v1/change_pb';
import { thisMachine, type Clock } from './clock';
import { openDatabase, type Database } from './database';
import { Draft } from './draft';
import { newInstall, type Install } from './ids';
import { fillInvented } from './invented';
import { Overlay } from './overlay';
import { packAll } from './packet';
import { Reader } from './reader';
import { concerns, eventTopic, recordTopic, type Topic } from './topics';
import type { Left, View } from './view';

export type { Draft, Place } from './draft';
export type { Entry, Left, Newest, Recorded, Series, View, Want } from './view';
export { digitsOf, textOf, valueOf } from './digits';

/** How a device is opened. */
export interface Options {
  /** Which of this browser's notebooks: "own" where it is left out, "invented" to look around without any server. */
  name?: string;
  /** Where it reads its clocks; this machine's where it is left out. */
  clock?: Clock;
}

/** Entries that were just noted. */
export interface Noted {
  /** Numbers of the first and the last operation. */
  first: number;
  last: number;
}

/** How a device stands towards its cooperative. */
export interface Status {
  /** Empty before joining. */
  cooperativeId: string;
  memberId: string;
  address: string;
  /** Entries only on this device. */
  waiting: number;
  /** When the oldest of them was noted, ms since 1970 UTC. */
  oldest?: number;
  /** When the cooperative was last heard from. */
  lastContact?: number;
  /** A contact is going on. */
  busy: boolean;
  /** Why the last contact failed; undefined when it did not. */
  trouble?: Trouble;
  /** Entries refused or held that the person has not read about. */
  refused: number;
  held: number;
  /** Bytes that this site uses and may use; undefined where the browser does not tell. */
  storage?: { used: number; quota: number; lasting: boolean };
}

/** Why something did not work, in words a person can follow. */
export interface Trouble {
  words: string;
  reason: string;
  hint: string;
  /** The server was not reached, or could not answer now. */
  noSignal: boolean;
}

/** Ends a subscription. */
export type Stop = () => void;

/** One grower's device. */
export interface Device {
  /** Which of this browser's notebooks it is. */
  readonly name: string;
  /** What time it is: use this, not Date.now, since invented records have a day of their own. */
  now(): number;
  /** Calls heed with what a query gives now, and again after every change that could alter it. */
  live<T>(query: (view: View) => Promise<T>, heed: (value: T) => void, failed?: (error: unknown) => void): Stop;
  /** Runs a query once. */
  once<T>(query: (view: View) => Promise<T>): Promise<T>;
  /** Commits what fill drafts. When it resolves, the entries outlive a crash; an error enters nothing. */
  enter(fill: (draft: Draft) => void): Promise<Noted>;
  /** Takes back what was just noted. */
  undo(noted: Noted): Promise<void>;
  /** Calls heed with how the device stands now and after every change of it. */
  liveStatus(heed: (status: Status) => void): Stop;
  /** Entries that were refused or are held, oldest first. */
  left(): Promise<Left[]>;
  /** Lets go of what the device holds open. */
  close(): void;
}

/** The notebook that is filled with invented records. */
export const invented = 'invented';

/** Opens a device and makes it where there is none. It needs no network. */
export async function openDevice(options: Options = {}): Promise<Device> {
  const name = options.name ?? 'own';
  const db = await openDatabase(name);
  const install = await ownInstall(db);
  const clock = options.clock ?? (name === invented ? await fillInvented(db, install) : thisMachine());
  const overlay = new Overlay();
  await overlay.load(db);
  return new OpenDevice(name, db, install, overlay, clock);
}

// Reads the install, and makes one at the first start.
async function ownInstall(db: Database): Promise<Install> {
  const facts = db.transaction('facts', 'readwrite', { durability: 'strict' });
  let install = (await facts.store.get('install')) as Install | undefined;
  if (!install) {
    install = newInstall();
    await facts.store.put(install, 'install');
  }
  await facts.done;
  return install;
}

interface Subscription {
  read: ReadonlySet<Topic>;
  again(): void;
}

class OpenDevice implements Device {
  private readonly subscriptions = new Set<Subscription>();

  constructor(
    readonly name: string,
    private readonly db: Database,
    private readonly install: Install,
    private readonly overlay: Overlay,
    private readonly clock: Clock,
  ) {}

  now(): number {
    return this.clock.now();
  }

  once<T>(query: (view: View) => Promise<T>): Promise<T> {
    return query(this.reader());
  }

  private reader(): Reader {
    return new Reader(this.db, this.install, this.overlay, () => this.now());
  }

  live<T>(query: (view: View) => Promise<T>, heed: (value: T) => void, failed: (error: unknown) => void = console.error): Stop {
    let running = 0;
    const subscription: Subscription = {
      read: new Set(),
      again: () => {
        const run = ++running;
        const reader = this.reader();
        subscription.read = reader.read;
        query(reader).then(
          (value) => run === running && heed(value),
          (error) => run === running && failed(error),
        );
      },
    };
    this.subscriptions.add(subscription);
    subscription.again();
    return () => {
      running = -1;
      this.subscriptions.delete(subscription);
    };
  }

  async enter(fill: (draft: Draft) => void): Promise<Noted> {
    const tx = this.db.transaction(['facts', 'outbox'], 'readwrite', { durability: 'strict' });
    const facts = tx.objectStore('facts');
    const first = ((await facts.get('next')) as number | undefined) ?? 1;
    const draft = new Draft(this.install, ((await facts.get('memberId')) as string | undefined) ?? '', first, this.clock);
    try {
      fill(draft);
    } catch (error) {
      tx.abort();
      await tx.done.catch(() => undefined);
      throw error;
    }
    const packets = packAll(draft.drafted);
    await Promise.all([
      ...packets.map((p) => tx.objectStore('outbox').add(p)),
      facts.put(first + draft.drafted.length, 'next'),
      tx.done,
    ]);
    const operations = draft.drafted.map((d) => d.op);
    this.overlay.add(operations);
    this.changed(new Set(operations.flatMap(topicsOf)));
    return { first, last: first + operations.length - 1 };
  }

  async undo(_noted: Noted): Promise<void> {
    throw new Error('undo is not there yet');
  }

  private changed(touched: ReadonlySet<Topic>): void {
    for (const s of this.subscriptions) if (concerns(s.read, touched)) s.again();
  }

  liveStatus(heed: (status: Status) => void): Stop {
    const subscription: Subscription = { read: new Set(['status']), again: () => heed(this.status()) };
    this.subscriptions.add(subscription);
    subscription.again();
    return () => this.subscriptions.delete(subscription);
  }

  private status(): Status {
    const waiting = this.overlay.all().filter((w) => w.number > this.overlay.through);
    const oldest = waiting[0]?.op.noted?.wallMs;
    return {
      cooperativeId: '', memberId: '', address: '', waiting: waiting.length, busy: false, refused: 0, held: 0,
      ...(oldest !== undefined && { oldest: Number(oldest) }),
    };
  }

  async left(): Promise<Left[]> {
    return [];
  }

  close(): void {
    this.subscriptions.clear();
    this.db.close();
  }
}

// What an operation touches.
function topicsOf(op: Operation): Topic[] {
  switch (op.change.case) {
    case 'event':
      return ['status', eventTopic(op.change.value.kind.case ?? '', op.change.value.siteId)];
    case 'edit':
      return ['status', recordTopic(op.change.value.record.case ?? '')];
  }
  return ['*'];
}
