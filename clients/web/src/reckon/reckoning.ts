// Everything the pages say of a loop, reckoned from one reading of the notebook.
import { day, type Book, type Loop } from '../book/book';
import { herds, type Herd } from '../book/herds';
import type { Later } from '../book/later';
import { breath } from '../device/breath';
import type { Ask } from './asking';
import { Bearing, type Window } from './bearing';
import { carrying, type Carrying } from './carrying';
import { Growing } from './growth';
import { rations, type Ration } from './ration';
import { ideas, type SowingIdea } from './supply';
import { Glass, judgeWater, type Judged } from './water';

export interface Live {
  herd: Herd;
  /** Mean weight now, g. */
  grams: number | undefined;
  growing: Growing;
}

export interface LoopReckoning {
  loop: Loop;
  water: Judged[];
  live: Live[];
  rations: Ration[];
  carrying: Carrying | undefined;
  glass: Glass;
}

export interface Reckoning {
  loops: LoopReckoning[];
  bearing: Bearing;
  windows: Window[];
  sow: SowingIdea[];
}

/** Reckons a site, in steps between which the page may do something else. Without what is read later, weights stand where they were last weighed, beds bear as in good weather, and nothing is said of sowing. */
export async function reckon(ask: Ask, book: Book, later: Later | undefined, shift: number): Promise<Reckoning> {
  const warmth = later?.warmth ?? new Map<number, number>();
  const bearing = new Bearing(ask, book, shift, later?.air);
  const windows = bearing.standing();
  await breath();
  const sow = later ? ideas(bearing, windows) : [];
  const loops: LoopReckoning[] = [];
  for (const loop of book.loops) {
    await breath();
    loops.push(await ofLoop(ask, book, loop, warmth, shift));
  }
  return { loops, bearing, windows, sow };
}

async function ofLoop(ask: Ask, book: Book, loop: Loop, warmth: ReadonlyMap<number, number>, shift: number): Promise<LoopReckoning> {
  const glass = new Glass(ask, book, loop);
  const water = judgeWater(ask, book, loop);
  await breath();
  const live = herds(book, loop.cohorts).map((herd): Live => {
    const growing = new Growing(ask, herd, warmth, shift);
    return { herd, growing, grams: growing.weightAt(book.now) };
  });
  const carries = carrying(ask, book, loop, glass, live);
  const feed = rations(ask, glass, water, live, book.now, carries?.limits[0]?.feedG);
  return { loop, water, live, rations: feed, carrying: carries, glass };
}

/** Feed given to a cohort since the morning of a day, g; feedings that name only its vessel count for all who live there. */
export function fedToday(book: Book, herd: Herd, shift: number): number {
  const morning = Math.floor((book.now + shift) / day) * day - shift;
  return book.lately.reduce((sum, e) => {
    if (e.kind !== 'feeding' || e.at < morning) return sum;
    const mine = e.body.cohortId ? e.body.cohortId === herd.cohort.id : e.body.vesselId === herd.cohort.vesselId;
    return mine ? sum + e.body.massG : sum;
  }, 0);
}
