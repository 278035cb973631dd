// How many fish live and what they weigh. Neither is ever a field: both follow
// from what was noted.
import { CohortPurpose } from '../gen/freshet/v1/cohort_pb';
import type { Book, EntryOf, FishKind, Kept } from './book';

export interface Weight {
  at: number;
  grams: number;
  /** Fish on the scale. */
  n: number;
}

export interface Herd {
  cohort: Kept<'cohort'>;
  alive: number;
  /** More left than ever came: something was not noted. */
  negative: boolean;
  /** What the last count found beyond what was reckoned; negative: less. */
  unexplained: number;
  weights: Weight[];
  events: HerdEvent[];
}

/** One thing that changed a cohort's number, as the formula fish_alive takes it. */
export interface HerdEvent {
  at: number;
  kind: 'stocked' | 'moved_in' | 'counted' | 'died' | 'moved_out' | 'harvested';
  fish: number;
}

/** Every cohort's herd. */
export function herds(book: Book, cohorts: readonly Kept<'cohort'>[]): Herd[] {
  return cohorts.map((cohort) => {
    const events = book.fish.flatMap((e) => changes(e, cohort.id));
    return { cohort, ...tally(events), weights: weightsOf(book.fish, cohort.id), events };
  });
}

export const isSentinel = (herd: Herd): boolean => herd.cohort.purpose === CohortPurpose.SENTINEL;

function changes(e: EntryOf<FishKind>, cohort: string): HerdEvent[] {
  const at = e.at;
  if (e.kind === 'move') {
    const fish = e.body.count;
    if (e.body.cohortId === cohort) return [{ at, kind: 'moved_out', fish }];
    return e.body.toCohortId === cohort ? [{ at, kind: 'moved_in', fish }] : [];
  }
  if (e.body.cohortId !== cohort || e.kind === 'weighing') return [];
  return [{ at, kind: words[e.kind], fish: e.body.count }];
}

const words = { stocking: 'stocked', count: 'counted', death: 'died', fishHarvest: 'harvested' } as const;

/** Reckons events in the order they happened. A count starts anew. */
export function tally(events: readonly HerdEvent[]): Pick<Herd, 'alive' | 'negative' | 'unexplained'> {
  let alive = 0;
  let unexplained = 0;
  for (const e of [...events].sort((a, b) => a.at - b.at)) {
    if (e.kind === 'counted') {
      unexplained = e.fish - alive;
      alive = e.fish;
    } else {
      alive += e.kind === 'stocked' || e.kind === 'moved_in' ? e.fish : -e.fish;
    }
  }
  return { alive, negative: alive < 0, unexplained };
}

function weightsOf(events: readonly EntryOf<FishKind>[], cohort: string): Weight[] {
  return events.flatMap((e): Weight[] => {
    if (e.kind === 'weighing' && e.body.cohortId === cohort && e.body.sampleCount > 0) {
      return [{ at: e.at, grams: e.body.massG / e.body.sampleCount, n: e.body.sampleCount }];
    }
    if (e.kind === 'stocking' && e.body.cohortId === cohort && e.body.massG > 0) {
      return [{ at: e.at, grams: e.body.massG / e.body.count, n: e.body.count }];
    }
    return [];
  });
}
