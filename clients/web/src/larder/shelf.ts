// What harvests became: harvested = used + on hand, for each produce.
import { day, type Book } from '../book/book';
import type { View } from '../device/view';
import type { Use } from '../gen/freshet/v1/disposition_pb';
import type { Ask } from '../reckon/asking';
import type { CropWeeks } from '../reckon/supply';

export interface Shelf {
  /** "crop:tomato" or "fish:nile_tilapia". */
  produce: string;
  harvestedG: number;
  uses: { use: Use; massG: number; pieces: number; had: string[] }[];
  /** Below nought: more was used than harvested. */
  onHandG: number;
}

/** Adds up a year, the largest harvest first. */
export async function shelves(view: View, book: Book): Promise<Shelf[]> {
  const want = { siteId: book.site.id, from: book.now - 365 * day };
  const found = new Map<string, Shelf>();
  const shelf = (produce: string): Shelf => {
    const s = found.get(produce) ?? { produce, harvestedG: 0, uses: [], onHandG: 0 };
    found.set(produce, s);
    return s;
  };
  const crops = new Map(book.plantings.map((p) => [p.id, p.crop]));
  const species = new Map(book.loops.flatMap((l) => l.cohorts.map((c) => [c.id, c.species] as const)));
  for (const e of await view.events(['bedHarvest', 'fishHarvest', 'disposition'], want)) {
    if (e.kind === 'bedHarvest') shelf('crop:' + (crops.get(e.body.plantingId) ?? '')).harvestedG += e.body.massG;
    else if (e.kind === 'fishHarvest') shelf('fish:' + (species.get(e.body.cohortId) ?? '')).harvestedG += e.body.massG;
    else if (e.kind === 'disposition') put(shelf(e.body.crop ? 'crop:' + e.body.crop : 'fish:' + e.body.species), e.body);
  }
  const all = [...found.values()].filter((s) => !s.produce.endsWith(':'));
  for (const s of all) {
    s.onHandG = s.harvestedG - s.uses.reduce((sum, u) => sum + u.massG, 0);
    s.uses.sort((a, b) => b.massG - a.massG);
  }
  return all.sort((a, b) => b.harvestedG - a.harvestedG);
}

function put(s: Shelf, d: { use: Use; massG: number; piecesCount: number; hadForIt: string }): void {
  let u = s.uses.find((x) => x.use === d.use);
  if (!u) s.uses.push((u = { use: d.use, massG: 0, pieces: 0, had: [] }));
  u.massG += d.massG;
  u.pieces += d.piecesCount;
  if (d.hadForIt && !u.had.includes(d.hadForIt)) u.had.push(d.hadForIt);
}

/** Crops that the canning guide gives a filling for, by the food's name there. */
const canned: Record<string, string> = { tomato: 'tomatoes whole/halved', cucumber: 'cucumbers for pickles', 'bush bean': 'snap beans', 'pole bean': 'snap beans' };

/** Quart jars that what is to come above the week's use would fill. */
export function jarsToCome(ask: Ask, weeks: readonly CropWeeks[]): { crop: string; kg: number; jars: number }[] {
  return weeks.flatMap(({ crop, useKg, supply }) => {
    const kg = supply.reduce((sum, s) => sum + Math.max(0, s - useKg), 0);
    const food = canned[crop];
    const told = food && kg > 0 ? ask('jars_from_produce', { food, produce_lb: kg / 0.45359237, jar: 'quart' }) : undefined;
    if (!told) return [];
    const jars = Math.round(Number.isFinite(told.value) ? told.value : (told.low + told.high) / 2);
    return jars > 0 ? [{ crop, kg, jars }] : [];
  });
}

