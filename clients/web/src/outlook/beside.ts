// The outlook in a worker of its own, which a page starts and ends.
import { OutlookError, type Coming, type Outlook, type Record } from './learnt';

/** A call of the outlook: its name and what it is given. */
export type Call = { [M in keyof Outlook]: { call: M; given: Parameters<Outlook[M]> } }[keyof Outlook];

/** What came of it: an answer, why there is none, or what broke. */
export type Answered = { answer: unknown } | { refused: { what: string; words: string } } | { failed: string };

export class Beside {
  private readonly worker = new Worker(new URL('./outlook.worker.ts', import.meta.url), { type: 'module' });
  /** Calls are answered one after the other. */
  private last: Promise<unknown> = Promise.resolve();

  learn(...given: Parameters<Outlook['learn']>): Promise<Record[]> {
    return this.call({ call: 'learn', given }) as Promise<Record[]>;
  }

  ahead(...given: Parameters<Outlook['ahead']>): Promise<Coming[]> {
    return this.call({ call: 'ahead', given }) as Promise<Coming[]>;
  }

  end(): void {
    this.worker.terminate();
  }

  private call(call: Call): Promise<unknown> {
    const answer = this.last.catch(() => undefined).then(() => this.send(call));
    this.last = answer;
    return answer;
  }

  private send(call: Call): Promise<unknown> {
    return new Promise((done, failed) => {
      this.worker.onmessage = ({ data }: MessageEvent<Answered>) => {
        if ('answer' in data) done(data.answer);
        else failed('refused' in data ? new OutlookError(data.refused.what, data.refused.words) : new Error(data.failed));
      };
      this.worker.onerror = (e) => failed(new Error(e.message || 'the outlook could not be loaded'));
      this.worker.postMessage(call);
    });
  }
}
