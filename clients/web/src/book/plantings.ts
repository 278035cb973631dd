// What stands in a bed, and what it did.
import { day, type Book, type EntryOf, type Kept, type PlantKind } from './book';

export interface Stand {
  planting: Kept<'planting'>;
  bed: string;
  /** When it was sown, or set out where it was never sown here. */
  began: number | undefined;
  transplanted: number | undefined;
  firstHarvest: number | undefined;
  lastHarvest: number | undefined;
  pulled: number | undefined;
  harvestedG: number;
}

/** Every planting with its life so far, oldest first. */
export function stands(book: Book): Stand[] {
  const events = new Map<string, EntryOf<PlantKind>[]>();
  for (const e of book.plants) {
    const id = e.body.plantingId;
    events.set(id, [...(events.get(id) ?? []), e]);
  }
  return book.plantings
    .map((p) => stand(p, events.get(p.id) ?? []))
    .sort((a, b) => (a.began ?? 0) - (b.began ?? 0));
}

function stand(planting: Kept<'planting'>, events: readonly EntryOf<PlantKind>[]): Stand {
  const first = (kind: PlantKind): number | undefined => events.find((e) => e.kind === kind)?.at;
  const set = events.findLast((e) => e.kind === 'transplanting');
  const harvests = events.filter((e) => e.kind === 'bedHarvest');
  return {
    planting,
    bed: set?.body.bedId || planting.bedId,
    began: first('sowing') ?? first('transplanting'),
    transplanted: first('transplanting'),
    firstHarvest: harvests[0]?.at,
    lastHarvest: harvests.at(-1)?.at,
    pulled: first('pulling'),
    harvestedG: harvests.reduce((sum, e) => sum + e.body.massG, 0),
  };
}

/** What stands in a bed now. */
export function standing(all: readonly Stand[], bed: string, now: number): Stand[] {
  return all.filter((s) => s.bed === bed && (s.pulled === undefined || s.pulled > now) && (s.began ?? now) <= now);
}

/** Own past plantings of a crop, as what a forecast learns from: days to the first harvest and days it lasted. */
export function pastOf(all: readonly Stand[], crop: string): { stand: Stand; toFirst: number; bearing: number }[] {
  return all
    .filter((s) => s.planting.crop === crop && s.began !== undefined && s.firstHarvest !== undefined)
    .map((s) => ({
      stand: s,
      toFirst: Math.round((s.firstHarvest! - s.began!) / day),
      bearing: s.pulled !== undefined && s.lastHarvest !== undefined ? Math.max(1, Math.round((s.lastHarvest - s.firstHarvest!) / day)) : 0,
    }));
}
