// One device of a history: the app's own parts, but for the timers, so that it
// talks to the server when a step says so.
import { create } from '@bufbuild/protobuf';

import { contact } from '../../src/device/contact';
import { callsOf, type Calls } from '../../src/device/calls';
import type { Clock } from '../../src/device/clock';
import { openDatabase, type Database } from '../../src/device/database';
import type { Draft } from '../../src/device/draft';
import { fact } from '../../src/device/facts';
import { bytesOf, type Install } from '../../src/device/ids';
import { join } from '../../src/device/join';
import { listLeft } from '../../src/device/left';
import { enterInto, ownInstall } from '../../src/device/open';
import { Overlay } from '../../src/device/overlay';
import { Reader } from '../../src/device/reader';
import { bearerOf } from '../../src/device/renew';
import { readStatus } from '../../src/device/status';
import { TroubleError } from '../../src/device/trouble';
import type { Left } from '../../src/device/view';
import { NotedSchema } from '../../src/gen/freshet/v1/change_pb';
import { span, type Step } from './history';
import { Network } from './network';

export const began = Date.UTC(2026, 2, 2, 8);

export class Party {
  readonly network = new Network();
  /** Labels of its operations. */
  readonly numbers = new Map<number, string>();
  private db: Database | undefined;
  private install!: Install;
  private readonly overlay = new Overlay();
  private readonly clocks = { off: 0, boot: 0, booted: began - 3_600_000, wallOnly: false };

  constructor(
    readonly name: string,
    private readonly history: string,
    private readonly now: () => number,
  ) {}

  setClock(s: Step): void {
    if (s.off) this.clocks.off = span(s.off);
    if (s.reboot) {
      this.clocks.boot++;
      this.clocks.booted = this.now() - 60_000;
    }
    this.clocks.wallOnly ||= s.wall_only === true;
  }

  private readonly clock: Clock = {
    now: () => this.now() + this.clocks.off,
    noted: () => {
      const { off, boot, booted, wallOnly } = this.clocks;
      const steady = wallOnly ? {} : { monotonicMs: BigInt(this.now() - booted), bootId: boot + 1 };
      return create(NotedSchema, { wallMs: BigInt(this.now() + off), ...steady });
    },
  };

  /** The device's database, opened when it is first used. */
  private async opened(install?: string): Promise<Database> {
    if (this.db) return this.db;
    this.db = await openDatabase(`history-${this.history}-${this.name}`);
    if (install) await this.db.put('facts', bytesOf(install), 'install');
    this.install = await ownInstall(this.db);
    await this.overlay.load(this.db);
    return this.db;
  }

  async restart(): Promise<void> {
    this.db?.close();
    this.db = undefined;
    await this.opened();
  }

  async join(code: string, install?: string): Promise<void> {
    await join(await this.opened(install), { code, device: this.name, person: this.name });
  }

  async enter(fill: (draft: Draft) => void): Promise<number> {
    const { first, operations } = await enterInto(await this.opened(), this.clock, fill);
    this.overlay.add(operations);
    return first;
  }

  /** One round of contact; the name of what went wrong, empty where nothing did. */
  async sync(): Promise<string> {
    const db = await this.opened();
    try {
      await contact(db, this.install, this.clock, { changed: () => undefined, busy: () => undefined, quiet: async () => undefined, emptied: async () => undefined }, new AbortController().signal);
      return '';
    } catch (error) {
      if (!(error instanceof TroubleError)) throw error;
      return error.noSignal ? 'NO_SIGNAL' : error.reason;
    } finally {
      await this.overlay.load(db);
    }
  }

  async ask<T>(call: (calls: Calls) => Promise<T>): Promise<T> {
    const db = await this.opened();
    return call(callsOf(await fact(db, 'address'), bearerOf(db, this.clock)));
  }

  async memberId(): Promise<string> {
    return fact(await this.opened(), 'memberId');
  }

  async read(): Promise<Reader> {
    return new Reader(await this.opened(), this.install, this.overlay, () => this.now());
  }

  async waiting(): Promise<number> {
    return (await readStatus(await this.opened(), false)).waiting;
  }

  async left(): Promise<Left[]> {
    return listLeft(await this.opened());
  }

  close(): void {
    this.db?.close();
  }
}
