import { concerns, type Topic } from './topics';

/** Ends a subscription. */
export type Stop = () => void;

interface Subscription {
  read: ReadonlySet<Topic>;
  again(): void;
}

// How long changes that come from elsewhere are gathered before queries run again, ms.
const gatherMs = 250;

/** Queries that are answered again when something changes that they read. */
export class Live {
  private readonly subscriptions = new Set<Subscription>();
  private gathered = new Set<Topic>();
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** Runs work now and after changes. Work says what it read, and gives undefined where a later run has overtaken it. */
  subscribe<T>(work: (read: Set<Topic>) => Promise<T>, heed: (value: T) => void, failed: (error: unknown) => void): Stop {
    let newest = 0;
    const subscription: Subscription = {
      read: new Set(),
      again: () => {
        const run = ++newest;
        const read = new Set<Topic>();
        subscription.read = read;
        work(read).then(
          (value) => run === newest && heed(value),
          (error) => run === newest && failed(error),
        );
      },
    };
    this.subscriptions.add(subscription);
    subscription.again();
    return () => {
      newest = -1;
      this.subscriptions.delete(subscription);
    };
  }

  /** Says what changed by this page's own doing: queries run again at once. */
  changed(touched: Iterable<Topic>): void {
    const topics = new Set(touched);
    for (const s of [...this.subscriptions]) if (concerns(s.read, topics)) s.again();
  }

  /** Says what changed elsewhere. */
  changedElsewhere(touched: Iterable<Topic>): void {
    for (const topic of touched) this.gathered.add(topic);
    this.timer ??= setTimeout(() => {
      const topics = this.gathered;
      this.gathered = new Set();
      this.timer = undefined;
      this.changed(topics);
    }, gatherMs);
  }

  close(): void {
    clearTimeout(this.timer);
    this.subscriptions.clear();
  }
}
