import type { Given, Refusal, Told } from './husbandry';
import { husbandryModule } from './load';

/** One question. */
export interface Ask {
  formula: string;
  given: Given;
}

/** Questions on their way to the worker. */
export interface Asked {
  number: number;
  asks: readonly Ask[];
}

/** The formulas in a worker of their own: many or long questions are answered beside the page. */
export class Beside {
  private readonly worker = new Worker(new URL('./husbandry.worker.ts', import.meta.url), { type: 'module' });
  private readonly waiting = new Map<number, (said: (Told | Refusal)[]) => void>();
  private number = 0;
  private readonly ready: Promise<void>;

  constructor() {
    this.ready = husbandryModule().then((module) => this.worker.postMessage(module));
    this.worker.onmessage = ({ data }: MessageEvent<{ number: number; said: (Told | Refusal)[] }>) => {
      this.waiting.get(data.number)?.(data.said);
      this.waiting.delete(data.number);
    };
  }

  /** Asks all, in order. */
  async ask(asks: readonly Ask[]): Promise<(Told | Refusal)[]> {
    await this.ready;
    const asked: Asked = { number: ++this.number, asks };
    return new Promise((resolve) => {
      this.waiting.set(asked.number, resolve);
      this.worker.postMessage(asked);
    });
  }

  /** Stops it, whatever it is at. Questions that wait are never answered. */
  close(): void {
    this.worker.terminate();
  }
}
