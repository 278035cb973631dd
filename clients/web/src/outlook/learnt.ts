// The outlook of clients/web/wasm/outlook: a loop's past is learnt once, then its
// days to come are asked for as often as somebody wonders.
import { openPassage } from '../husbandry/passage';
import type { Scroll } from '../husbandry/scroll';

/** What the outlook reads of, by its numbers; harmful ammonia follows from ammonia and pH. */
export const figures = ['temperature', 'ammonia', 'nitrite', 'nitrate', 'alkalinity', 'ph', 'oxygen', 'unionized'] as const;
export type Named = (typeof figures)[number];

/** Which value of a day, by the outlook's numbers. */
export const sides = { mean: 0, lowest: 1, highest: 2 } as const;

/** What one hour brought, in the outlook's order. */
export interface Hour {
  /** degC; NaN where nobody knows. */
  air: number;
  /** Share of noon. */
  sun: number;
  /** g of nitrogen swallowed. */
  feed: number;
  /** kg alive. */
  fish: number;
  /** L replaced. */
  changed: number;
  /** Alkalinity added by hand, mg/L as CaCO3. */
  base: number;
  /** Pump and air stood: 1. */
  still: number;
  /** The filter was cleaned: 1. */
  cleaned: number;
}

/** What was read in an hour of the past, counted from 0. */
export interface Test {
  hour: number;
  figure: number;
  value: number;
  /** All that the test showed is that it lies below the value: 1. */
  below: number;
}

export interface Past {
  /** L, m2 of media, m2 planted, atm, the source's alkalinity (mg/L as CaCO3) and nitrate (mg/L as N). */
  loop: [number, number, number, number, number, number];
  hours: Hour[];
  tests: Test[];
}

/** What would be done otherwise. */
export interface Otherwise {
  /** Of what was fed of late, 0 to 5. */
  feedShare: number;
  unfedDays: number;
  addedFishKg: number;
  /** From the next midnight. */
  stillHours: number;
  airWarmerK: number;
  /** Of the loop's water, each day. */
  replacedShare: number;
}

export const asOfLate: Otherwise = { feedShare: 1, unfedDays: 0, addedFishKg: 0, stillHours: 0, airWarmerK: 0, replacedShare: 0 };

/** A figure that is asked for. */
export interface Asked {
  name: Named;
  side: keyof typeof sides;
  limit?: number;
  /** The limit is a least: below it harms. */
  least?: boolean;
}

/** Of so many readings foretold in the past at 8 in 10, so many came within. */
export interface Record {
  held: number;
  asked: number;
}

/** One figure through the days to come. */
export interface Coming {
  days: { low: number; middle: number; high: number; passes: number }[];
  /** The test that would narrow it most, and to what share of its width. */
  narrowedBy: Named;
  narrowedTo: number;
}

/** Said where the outlook refuses: what is out of range, and its words. */
export class OutlookError extends Error {
  constructor(readonly what: string, words: string) {
    super(words);
  }
}

export interface Outlook {
  /** Takes a second or two. Gives the records of what is read, by the outlook's numbers. */
  learn(past: Past): Record[];
  ahead(restHours: number, days: number, otherwise: Otherwise, asked: readonly Asked[]): Coming[];
}

interface Exports {
  learn(length: number): number;
  ahead(length: number): number;
}

/** Starts the outlook from its module. */
export async function startOutlook(module: WebAssembly.Module): Promise<Outlook> {
  const { exports, put, read } = await openPassage<Exports>(module);
  const ask = (call: (length: number) => number, question: number[]): Scroll => {
    const answer = read(call(put(new Uint8Array(Float64Array.from(question).buffer))));
    if (answer.letter() === 'r') throw new OutlookError(answer.text(), answer.text());
    return answer;
  };
  return {
    learn({ loop, hours, tests }) {
      const answer = ask(exports.learn, [
        ...loop, hours.length, ...hours.flatMap((h) => [h.air, h.sun, h.feed, h.fish, h.changed, h.base, h.still, h.cleaned]),
        tests.length, ...tests.flatMap((t) => [t.hour, t.figure, t.value, t.below]),
      ]);
      return figures.slice(0, -1).map(() => ({ held: answer.number(), asked: answer.number() }));
    },
    ahead(restHours, days, o, asked) {
      const answer = ask(exports.ahead, [
        restHours, days, o.feedShare, o.unfedDays, o.addedFishKg, o.stillHours, o.airWarmerK, o.replacedShare,
        asked.length, ...asked.flatMap((a) => [figures.indexOf(a.name), sides[a.side], a.limit ?? NaN, a.least ? 1 : 0]),
      ]);
      return asked.map((): Coming => ({
        narrowedBy: figures[answer.number()]!, narrowedTo: answer.number(),
        days: Array.from({ length: days }, () => ({ low: answer.number(), middle: answer.number(), high: answer.number(), passes: answer.number() })),
      }));
    },
  };
}
