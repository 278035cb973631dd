import type { Topic } from './topics';

/** What tabs with the same device tell each other. */
export type Told =
  /** Something changed. Overlay: own entries were noted, sent, or came back. */
  | { kind: 'changed'; topics: Topic[]; overlay: boolean }
  /** Please make contact within so many ms. */
  | { kind: 'please'; ms: number }
  /** A contact begins or ends. */
  | { kind: 'busy'; busy: boolean };

/** Talks to the other tabs, and settles which of them makes contact for all. */
export class Tabs {
  private readonly channel: BroadcastChannel;
  private readonly leaving = new AbortController();

  constructor(private readonly name: string, heed: (told: Told) => void) {
    this.channel = new BroadcastChannel('freshet-' + name);
    this.channel.onmessage = (event: MessageEvent<Told>) => heed(event.data);
  }

  tell(told: Told): void {
    if (!this.leaving.signal.aborted) this.channel.postMessage(told);
  }

  /** Calls lead once no other tab leads; this one leads from then until it is closed. */
  async whenLeading(lead: () => void): Promise<void> {
    const { signal } = this.leaving;
    const held = new Promise<void>((resolve) => signal.addEventListener('abort', () => resolve()));
    await navigator.locks
      .request(lockOf(this.name), { signal }, () => {
        lead();
        return held;
      })
      .catch(() => undefined); // closed before it could lead
  }

  close(): void {
    this.leaving.abort();
    this.channel.close();
  }
}

/** The lock that whoever makes contact for a device holds. */
export const lockOf = (name: string) => 'freshet-contact-' + name;
