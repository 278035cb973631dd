// What is told of the water in the days to come: which figures, against which limits.
import { Beside } from './beside';
import type { LoopReckoning } from '../reckon/reckoning';
import { asOfLate, figures, type Asked, type Coming, type Named, type Otherwise, type Record } from './learnt';
import type { LoopPast } from './past';

/** Most days ahead: what weather does later nobody knows. */
export const mostDays = 14;

/** One figure, going on as of late and otherwise. */
export interface Told extends Asked, Coming, Record {
  otherwise: Coming | undefined;
}

/** The figures that were read, those that can kill first. */
export function askedOf(read: ReadonlySet<Named>, { loop, glass }: Pick<LoopReckoning, 'loop' | 'glass'>): Asked[] {
  const all: Asked[] = [
    { name: 'oxygen', side: 'lowest', limit: glass.oxygenLimit().value, least: true },
    { name: 'unionized', side: 'highest', limit: glass.ammoniaLimit().value },
    { name: 'ammonia', side: 'mean' },
    { name: 'nitrite', side: 'mean', limit: 0.3 },
    { name: 'ph', side: 'lowest', limit: loop.system.targetPhLow || 6, least: true },
    { name: 'temperature', side: 'mean' },
    { name: 'alkalinity', side: 'mean' },
    { name: 'nitrate', side: 'mean' },
  ];
  return all.filter(({ name }) => (name === 'unionized' ? read.has('ammonia') && read.has('ph') : read.has(name)));
}

/** Hours of today that are left after what is known. */
export const restOf = (to: number, shift: number): number => (24 - (Math.floor((to + shift) / 3_600_000) % 24)) % 24;

/** A loop whose past was learnt, to be asked about its days to come. */
export class Ahead {
  private usual: Coming[] | undefined;

  private constructor(
    private readonly beside: Beside,
    private readonly asked: Asked[],
    private readonly records: Record[],
    private readonly rest: number,
  ) {}

  /** Learns; it must be ended. */
  static async learn(past: LoopPast, r: LoopReckoning, shift: number): Promise<Ahead> {
    const beside = new Beside();
    try {
      return new Ahead(beside, askedOf(past.read, r), await beside.learn(past), restOf(past.to, shift));
    } catch (error) {
      beside.end();
      throw error;
    }
  }

  async told(otherwise?: Otherwise): Promise<Told[]> {
    this.usual ??= await this.beside.ahead(this.rest, mostDays, asOfLate, this.asked);
    const other = otherwise && (await this.beside.ahead(this.rest, mostDays, otherwise, this.asked));
    return this.asked.map((a, i) => ({ ...a, ...this.recordOf(a.name), ...this.usual![i]!, otherwise: other?.[i] }));
  }

  /** Harmful ammonia is not read itself: all ammonia stands for it. */
  private recordOf(name: Named): Record {
    return this.records[figures.indexOf(name === 'unionized' ? 'ammonia' : name)] ?? { held: 0, asked: 0 };
  }

  end(): void {
    this.beside.end();
  }
}
