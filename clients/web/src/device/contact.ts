import type { Calls } from './calls';
import { callsOf } from './calls';
import type { Clock } from './clock';
import type { Database } from './database';
import { fact, keepFacts } from './facts';
import { becomeOwn } from './copied';
import { empty } from './emptied';
import { hello, type Heard } from './hello';
import { newInstall, type Install } from './ids';
import { pull, Silence } from './pull';
import { push } from './push';
import { bearerOf } from './renew';
import { everything, type Topic } from './topics';
import { understand, type TroubleError } from './trouble';

/** Told while contact goes on. */
export interface Ears {
  /** Something changed; overlay where own entries were sent or came back. */
  changed(topics: Iterable<Topic>, overlay: boolean): void;
  busy(busy: boolean): void;
  /** The member left the cooperative, and this device was emptied. */
  emptied(): Promise<void>;
  /** All is sent and fetched: what may wait for that is done now, such as pictures. */
  quiet(calls: Calls): Promise<void>;
}

/** One round of contact: hello, what waits is sent, what is new is fetched. Sending and fetching do not wait for each other. */
export async function contact(db: Database, install: Install, clock: Clock, ears: Ears, signal: AbortSignal): Promise<void> {
  const [address, token] = [await fact(db, 'address'), await fact(db, 'token')];
  if (token === '') return;
  const calls = callsOf(address, bearerOf(db, clock));
  ears.busy(true);
  let trouble: TroubleError | undefined;
  try {
    const once = (own: Install): Promise<void> => pull(db, calls, own, (applied) => ears.changed(applied.touched, applied.echoed), signal);
    // A token that ended since hello is renewed by another: calls renew theirs, streams do not.
    const read = (own: Install): Promise<void> =>
      once(own).catch(async (error: unknown) => {
        if (understand(error).reason !== 'UNAUTHENTICATED') throw error;
        await hello(db, calls, clock);
        await once(own);
      });
    const heard = await greet(db, calls, clock);
    if (heard.restored) ears.changed([everything], true);
    if (heard.copied) {
      // What came from the other device is no echo of this one's entries.
      await read(newInstall());
      await becomeOwn(db, install);
      ears.changed([everything], true);
      await hello(db, calls, clock);
    }
    const sent = await Promise.allSettled([push(db, calls, clock, () => ears.changed(['status'], true))]);
    await read(install);
    for (const s of sent) if (s.status === 'rejected') throw s.reason;
    await ears.quiet(calls);
  } catch (error) {
    trouble = understand(error);
    if (trouble.reason === 'MEMBER_LEFT') {
      await empty(db, install);
      await ears.emptied();
    }
    throw trouble;
  } finally {
    await keepFacts(db, { trouble: trouble?.plain() });
    ears.busy(false);
    ears.changed(['status'], false);
  }
}

/** Opens a contact; also what the server itself found to be a copy is heard as one. */
async function greet(db: Database, calls: Calls, clock: Clock): Promise<Heard> {
  try {
    return await hello(db, calls, clock);
  } catch (error) {
    if (understand(error).reason !== 'INSTALL_COPIED') throw error;
    return { copied: true, restored: false };
  }
}

// A round without trouble is made again after so long, though no hint came.
const usualMs = 5 * 60_000;
// After trouble rounds follow after growing pauses between these.
const firstPauseMs = 1_000;
const longestPauseMs = 5 * 60_000;
// A watch says something every 15 seconds only where something moved; it is begun anew with each round.
const watchMs = 2 * usualMs;

/** Makes contact again and again, for all tabs: on open, when asked, on hints, and by a timer. */
export class Contact {
  private readonly leaving = new AbortController();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private due = Infinity;
  private running: Promise<void> | undefined;
  private again = false;
  private failures = 0;
  private watching: AbortController | undefined;

  constructor(
    private readonly db: Database,
    private readonly install: Install,
    private readonly clock: Clock,
    private readonly ears: Ears,
  ) {}

  /** Makes a round within so many ms. */
  within(ms: number): void {
    const at = performance.now() + ms;
    if (at >= this.due || this.leaving.signal.aborted) return;
    clearTimeout(this.timer);
    this.due = at;
    this.timer = setTimeout(() => void this.round(), ms);
  }

  /** Makes a round now. Resolves when it has ended, also in trouble. */
  round(): Promise<void> {
    clearTimeout(this.timer);
    this.due = Infinity;
    if (this.running) {
      this.again = true;
      return this.running;
    }
    this.running = this.once().finally(() => {
      this.running = undefined;
      if (this.again) this.within(0);
      this.again = false;
    });
    return this.running;
  }

  private async once(): Promise<void> {
    try {
      await contact(this.db, this.install, this.clock, this.ears, this.leaving.signal);
      this.failures = 0;
      this.within(jittered(usualMs));
      void this.watch();
    } catch (error) {
      const { noSignal, afterMs } = understand(error);
      const pause = Math.min(longestPauseMs, firstPauseMs * 2 ** this.failures++);
      this.within(Math.min(longestPauseMs, afterMs) + jittered(noSignal ? pause : longestPauseMs));
    }
  }

  /** Listens for hints, one stream at a time. A lost hint costs delay, never rows. */
  private async watch(): Promise<void> {
    const calls: Calls = callsOf(await fact(this.db, 'address'), bearerOf(this.db, this.clock));
    this.watching?.abort();
    const watching = new AbortController();
    this.watching = watching;
    const silence = new Silence(AbortSignal.any([watching.signal, this.leaving.signal]), watchMs);
    try {
      for await (const { cursor } of calls.sync.watch({}, { signal: silence.signal })) {
        silence.broken();
        const have = cursor && (await this.db.get('cursors', cursor.scope));
        if (cursor && (have?.sequence ?? 0) < Number(cursor.sequence)) this.within(200 * Math.random());
      }
    } catch {
      // The next round begins another.
    } finally {
      silence.end();
    }
  }

  close(): void {
    clearTimeout(this.timer);
    this.leaving.abort();
  }
}

function jittered(ms: number): number {
  return ms / 2 + Math.random() * ms;
}
