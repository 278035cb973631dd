// What can this loop carry, and what limits it?
import { day, type Book, type Loop } from '../book/book';
import type { Herd } from '../book/herds';
import { Substance } from '../gen/freshet/v1/substance_pb';
import { Growing as GrowingKind } from '../gen/freshet/v1/system_pb';
import { VesselKind } from '../gen/freshet/v1/vessel_pb';
import { number, speciesName, type Ask } from './asking';
import type { Glass } from './water';
import { Quantity } from '../gen/freshet/v1/reading_pb';

export type Limit = 'oxygen' | 'nitrification' | 'carbonate' | 'plants' | 'space';

export interface Carrying {
  /** Each limit that could be reckoned, the tightest first. */
  limits: { limit: Limit; biomassKg: number; feedG: number; source: string }[];
  /** Limits for which something is not known. */
  missing: Limit[];
  /** Feed as share of body weight a day, percent: the leading herd's full ration. */
  rationPercent: number;
  /** The herd the loop is measured by. */
  lead: Herd;
}

/** What each limit needs to know of the loop, beside what all need. */
const needs: Record<Limit, readonly string[]> = {
  oxygen: ['flow_litres_per_minute', 'oxygen_drop_mg_l'],
  nitrification: ['filter_surface_m2', 'filter_rate_g_m2_d', 'filter_age_days'],
  carbonate: ['alkalinity_g'],
  plants: ['plant_area_m2', 'plant_ratio_g_m2_d'],
  space: ['tank_litres', 'density_kg_m3'],
};

/** Reckons every limit on its own; undefined where no herd or no warmth is known. */
export function carrying(ask: Ask, book: Book, loop: Loop, glass: Glass, herds: readonly { herd: Herd; grams: number | undefined }[]): Carrying | undefined {
  const celsius = glass.newest(Quantity.WATER_TEMPERATURE)?.value;
  const lead = herds.filter((h) => h.grams && h.herd.alive > 0).sort((a, b) => b.grams! * b.herd.alive - a.grams! * a.herd.alive)[0];
  if (celsius === undefined || !lead) return undefined;
  const species = speciesName(lead.herd.cohort.species);
  const percent = number(ask, 'fish_ration_percent', { species, weight_g: lead.grams!, temperature_celsius: celsius, appetite: 1 });
  const rationPercent = Math.max(0.5, percent ?? 0.5);
  const all = { feed_percent: rationPercent, protein_fraction: protein(book), temperature_celsius: celsius };
  const known = of(ask, book, loop, glass, celsius, species);
  const limits: Carrying['limits'] = [];
  const missing: Limit[] = [];
  for (const limit of Object.keys(needs) as Limit[]) {
    const given = Object.fromEntries(needs[limit].map((n) => [n, known[n] ?? 0]));
    const told = given[needs[limit][0]!] ? ask('loop_capacity', { ...all, ...given }) : undefined;
    if (!told || !Number.isFinite(told.value)) missing.push(limit);
    else limits.push({ limit, biomassKg: told.value, feedG: (told.value * 1000 * rationPercent) / 100, source: told.source });
  }
  return { limits: limits.sort((a, b) => a.feedG - b.feedG), missing, rationPercent, lead: lead.herd };
}

function of(ask: Ask, book: Book, loop: Loop, glass: Glass, celsius: number, species: string): Record<string, number> {
  const tanks = loop.vessels.filter((v) => v.kind === VesselKind.FISH_TANK);
  const full = number(ask, 'do_saturation', { temperature_celsius: celsius, elevation_m: book.site.elevationM }) ?? 0;
  const ratio = ask('feeding_rate_ratio_range', { system: loop.system.growing === GrowingKind.CHANNEL ? 'NFT' : 'raft', crop: 'any' });
  const started = Date.parse(loop.system.startedOn);
  return {
    flow_litres_per_minute: (tanks[0]?.flowLPerH ?? 0) / 60,
    oxygen_drop_mg_l: Math.max(0, full - glass.oxygenLimit().value),
    filter_surface_m2: loop.vessels.reduce((s, v) => s + (v.mediaVolumeL * v.mediaSpecificSurfaceM2PerM3) / 1000, 0),
    filter_rate_g_m2_d: 0.57 * (14.007 / 17.031), // FAO TP 589 prints 0.57 g of ammonia, counted as NH3
    filter_age_days: Number.isFinite(started) ? Math.max(0, (book.now - started) / day) : 365,
    alkalinity_g: alkalinityADay(book, loop),
    plant_area_m2: loop.beds.reduce((s, b) => s + b.areaM2, 0),
    plant_ratio_g_m2_d: ratio ? (ratio.low + ratio.high) / 2 : 0,
    tank_litres: tanks.reduce((s, v) => s + v.volumeL, 0),
    density_kg_m3: number(ask, 'species_density', { species }) ?? 0,
  };
}

/** Protein of what was fed in 14 days, as a share; 32 percent where no feed is named. */
export function protein(book: Book): number {
  const feeds = new Map(book.feeds.map((f) => [f.id, f.proteinPercent]));
  let grams = 0;
  let sum = 0;
  for (const e of book.lately) {
    if (e.kind !== 'feeding' || book.now - e.at > 14 * day) continue;
    grams += e.body.massG;
    sum += e.body.massG * (feeds.get(e.body.feedId) ?? 32);
  }
  return grams > 0 ? sum / grams / 100 : 0.32;
}

/** Grams of a base that stand for one equivalent of alkalinity. */
export const equivalents: Partial<Record<Substance, number>> = {
  [Substance.POTASSIUM_HYDROXIDE]: 56.11, [Substance.POTASSIUM_CARBONATE]: 69.1, [Substance.POTASSIUM_BICARBONATE]: 100.12,
  [Substance.CALCIUM_HYDROXIDE]: 37.05, [Substance.CALCIUM_CARBONATE]: 50.04, [Substance.SODIUM_BICARBONATE]: 84.01,
};

/** Alkalinity that dosings and top-up replaced in a day of the last 28, g as CaCO3. */
function alkalinityADay(book: Book, loop: Loop): number {
  const here = new Set(['', loop.system.id, ...loop.vessels.map((v) => v.id)]);
  let grams = 0;
  for (const e of book.lately) {
    if (book.now - e.at > 28 * day) continue;
    if (e.kind === 'dosing' && here.has(e.body.vesselId)) grams += (e.body.massG / (equivalents[e.body.substance] ?? Infinity)) * 50.04;
    if (e.kind === 'waterIn' && here.has(e.body.vesselId || e.body.systemId)) grams += (e.body.volumeL * book.site.sourceAlkalinityMgPerL) / 1000;
  }
  return grams / 28;
}

