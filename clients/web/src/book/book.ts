// One site's notebook, read from the device and put in the order of the water.
import type { EventKind, RecordKind } from '../device/kinds';
import type { Entry, Newest, Recorded, View } from '../device/view';
import { inOrder, reaches, type Reach } from '../drawing/lanes';
import { BedKind } from '../gen/freshet/v1/bed_pb';
import type { Quantity } from '../gen/freshet/v1/reading_pb';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';

/** A record with its fields at hand: `tank.volumeL`, `tank.id`. */
export type Kept<K extends RecordKind> = Recorded<K>['value'] & { id: string; siteId: string };

/** One loop of water. */
export interface Loop {
  system: Kept<'system'>;
  /** In the order the water meets them. */
  vessels: Kept<'vessel'>[];
  reaches: Reach[];
  beds: Kept<'bed'>[];
  cohorts: Kept<'cohort'>[];
  equipment: Kept<'equipment'>[];
}

/** An event whose kind tells what its body is. */
export type EntryOf<K extends EventKind> = { [P in K]: Entry<P> }[K];

export interface Book {
  site: Kept<'site'>;
  loops: Loop[];
  /** Beds that belong to no loop. */
  bank: Kept<'bed'>[];
  plantings: Kept<'planting'>[];
  feeds: Kept<'feed'>[];
  crops: Kept<'crop'>[];
  remedies: Kept<'remedy'>[];
  /** The newest reading of each quantity at each place. */
  newest: Newest[];
  /** What happened to fish, from the beginning; the first sight of the water does without. */
  fish: EntryOf<FishKind>[];
  /** What happened to plantings, from the beginning. */
  plants: EntryOf<PlantKind>[];
  /** Everything else but readings, of the last 60 days; the first sight does without. */
  lately: EntryOf<LateKind>[];
  /** Milliseconds since 1970 UTC at which all this was read. */
  now: number;
}

const fishKinds = ['stocking', 'weighing', 'count', 'death', 'move', 'fishHarvest'] as const;
const plantKinds = ['sowing', 'transplanting', 'bedHarvest', 'pulling'] as const;
const lateKinds = ['feeding', 'dosing', 'treatment', 'waterIn', 'waterOut', 'solidsOut', 'upkeep', 'incident', 'note', 'disposition', 'energy'] as const;

export type FishKind = (typeof fishKinds)[number];
export type PlantKind = (typeof plantKinds)[number];
export type LateKind = (typeof lateKinds)[number];

export const day = 86_400_000;

/** Reads a site's notebook as of a moment. What the water looks like is shown first, and drawn before the rest is read. */
export async function readBook(view: View, siteId: string, now: number, show: (first: Book) => Promise<void>): Promise<Book | undefined> {
  view.foresee([...fishKinds, ...lateKinds], siteId);
  const of = async <K extends RecordKind>(kind: K): Promise<Kept<K>[]> => (await view.records(kind, siteId)).map(kept);
  const shared = async <K extends RecordKind>(kind: K): Promise<Kept<K>[]> => [...(await view.records(kind, '')).map(kept), ...(await of(kind))];
  const happened = async <K extends EventKind>(kinds: readonly K[], from?: number): Promise<EntryOf<K>[]> =>
    (await view.events(kinds, from === undefined ? { siteId } : { siteId, from })) as EntryOf<K>[];
  const [site, systems, vessels, beds, cohorts, plantings, equipment, feeds, crops, remedies, newest, plants] = await Promise.all([
    view.record('site', siteId), of('system'), of('vessel'), of('bed'), of('cohort'), of('planting'), of('equipment'), shared('feed'), shared('crop'), shared('remedy'),
    view.newest(siteId, 400), happened(plantKinds),
  ]);
  if (!site) return undefined;
  const running = systems.filter((s) => !s.endedOn || Date.parse(s.endedOn) > now);
  const first: Book = {
    site: kept(site),
    loops: running.map((system) => loopOf(system, vessels, beds, cohorts, equipment)),
    bank: beds.filter((b) => !running.some((s) => s.id === b.systemId)),
    plantings, feeds, crops, remedies, newest, fish: [], plants, lately: [], now,
  };
  await show(first);
  const [fish, lately] = await Promise.all([happened(fishKinds), happened(lateKinds, now - 60 * day)]);
  return { ...first, fish, lately };
}

function kept<K extends RecordKind>(r: Recorded<K>): Kept<K> {
  return { ...r.value, id: r.id, siteId: r.siteId } as Kept<K>;
}

function loopOf(
  system: Kept<'system'>, vessels: Kept<'vessel'>[], beds: Kept<'bed'>[], cohorts: Kept<'cohort'>[], equipment: Kept<'equipment'>[],
): Loop {
  const mine = vessels.filter((v) => v.systemId === system.id);
  const ordered = walk(mine);
  return {
    system,
    vessels: ordered,
    reaches: reaches(ordered.map((v) => ({ id: v.id, next: v.flowsTo }))),
    beds: beds.filter((b) => b.systemId === system.id),
    cohorts: cohorts.filter((c) => c.systemId === system.id),
    equipment: equipment.filter((e) => e.systemId === system.id),
  };
}

/** The walk begins at the fish. */
function walk(vessels: Kept<'vessel'>[]): Kept<'vessel'>[] {
  const first = vessels.find((v) => v.kind === VesselKind.FISH_TANK) ?? vessels[0];
  if (!first) return [];
  const begun = [first, ...vessels.filter((v) => v !== first)];
  const byId = new Map(begun.map((v) => [v.id, v]));
  return inOrder(begun.map((v) => ({ id: v.id, next: v.flowsTo }))).map((n) => byId.get(n.id)!);
}

/** The vessel its beds hang on: the one they name, else the loop's first of plants. */
export function bedsOf(loop: Loop, vessel: Kept<'vessel'>): Kept<'bed'>[] {
  const main = loop.vessels.find((v) => v.kind === VesselKind.BED);
  return loop.beds.filter((b) => (b.vesselId ? b.vesselId === vessel.id : vessel === main));
}

export interface Place {
  id: string;
  name: string;
  vessel?: Kept<'vessel'>;
  bed?: Kept<'bed'>;
  loop?: Loop;
}

/** Finds a vessel or a bed. */
export function placeOf(book: Book, id: string): Place | undefined {
  for (const loop of book.loops) {
    const vessel = loop.vessels.find((v) => v.id === id);
    if (vessel) return { id, name: vessel.name, vessel, loop };
    const bed = loop.beds.find((b) => b.id === id);
    if (bed) return { id, name: bed.name, bed, loop };
  }
  const bed = book.bank.find((b) => b.id === id);
  return bed && { id, name: bed.name, bed };
}

/** The newest reading of a quantity among a loop's places, or at no named place. */
export function newestIn(book: Book, loop: Loop, quantity: Quantity): Newest | undefined {
  const places = new Set(['', ...loop.vessels.map((v) => v.id), ...loop.beds.map((b) => b.id)]);
  return book.newest
    .filter((n) => n.quantity === quantity && places.has(n.placeId))
    .reduce<Newest | undefined>((a, b) => (a && a.entry.at >= b.entry.at ? a : b), undefined);
}

/** All the water of a loop, L. */
export function litres(loop: Loop): number {
  return loop.vessels.reduce((sum, v) => sum + v.volumeL, 0);
}

export const isSoil = (bed: Kept<'bed'>): boolean => [BedKind.SOIL, BedKind.POT, BedKind.TRAY].includes(bed.kind);
