// An invented site, entered through the device as a grower would, so that pages
// can be looked at and tested on a real notebook.
import { create } from '@bufbuild/protobuf';

import type { Device, Draft } from '../src/device/device';
import { BedKind } from '../src/gen/freshet/v1/bed_pb';
import { CohortPurpose } from '../src/gen/freshet/v1/cohort_pb';
import { Use } from '../src/gen/freshet/v1/disposition_pb';
import { EquipmentKind } from '../src/gen/freshet/v1/equipment_pb';
import { PlantingMethod } from '../src/gen/freshet/v1/planting_pb';
import { PullingReason } from '../src/gen/freshet/v1/pulling_pb';
import { Basis, Method, Quantity, Unit } from '../src/gen/freshet/v1/reading_pb';
import { Disinfectant } from '../src/gen/freshet/v1/site_pb';
import { Substance } from '../src/gen/freshet/v1/substance_pb';
import { Growing } from '../src/gen/freshet/v1/system_pb';
import { TrialArmSchema, TrialMeasure } from '../src/gen/freshet/v1/trial_pb';
import { UpkeepKind } from '../src/gen/freshet/v1/upkeep_pb';
import { VesselKind } from '../src/gen/freshet/v1/vessel_pb';

const day = 86_400_000;
const hour = 3_600_000;

/** The moment at which the site is looked at: a morning in late November. */
export const morning = Date.UTC(2026, 10, 25, 12, 12);

/** Days of record. */
const days = 110;

interface Ids {
  site: string;
  tank: string;
  settler: string;
  filter: string;
  pump: string;
  canal: string;
  big: string;
  small: string;
  gold: string;
  feed: string;
  beds: string[];
}

/** Fills a device that holds nothing. */
export async function fillBarn(device: Device): Promise<void> {
  let ids = {} as Ids;
  await device.enter((d) => {
    ids = records(d);
  });
  await device.enter((d) => fish(d, ids));
  await device.enter((d) => plants(d, ids));
  await device.enter((d) => trial(d, ids));
  await device.enter((d) => water(d, ids));
  await device.enter((d) => chores(d, ids));
}

function records(d: Draft): Ids {
  const site = d.make('site', {
    name: 'Bracken Barn', latitudeDegrees: 45.3, longitudeDegrees: -89.8, elevationM: 440, timeZone: 'America/Chicago', lastFrost: '05-20', firstFrost: '09-25',
    sourceAlkalinityMgPerL: 140, sourceHardnessMgPerL: 160, sourceNitrateMgPerL: 1, sourceDisinfectant: Disinfectant.NONE, householdPeople: 5,
  });
  const systemId = d.make('system', { name: 'Barn loop', growing: Growing.MEDIA, startedOn: '2025-01-10' }, site);
  const vessel = (name: string, kind: VesselKind, volumeL: number, flowsTo: string[], media = 0): string =>
    d.make('vessel', { systemId, name, kind, volumeL, surfaceM2: volumeL / 900, flowLPerH: 9000, flowsTo, ...(media && { media: 'volcanic gravel', mediaVolumeL: media, mediaSpecificSurfaceM2PerM3: 300 }) }, site);
  const back = vessel('Return tank', VesselKind.RETURN_TANK, 1200, []);
  const canal = vessel('Beds', VesselKind.BED, 5400, [back]);
  const pump = vessel('Pump tank', VesselKind.PUMP_TANK, 1500, [canal]);
  const filter = vessel('Media filter', VesselKind.MEDIA_FILTER, 980, [pump], 700);
  const settler = vessel('Settler', VesselKind.SETTLER, 720, [filter]);
  const tank = vessel('Fish tank', VesselKind.FISH_TANK, 6000, [settler]);
  d.make('equipment', { name: 'Pump', kind: EquipmentKind.PUMP, systemId, vesselId: pump, powerW: 150, flowLPerH: 9000, headM: 2 }, site);
  d.make('equipment', { name: 'Air pump', kind: EquipmentKind.AERATOR, systemId, vesselId: tank, powerW: 60, onBackup: true }, site);
  const bed = (name: string, areaM2: number, kind = BedKind.MEDIA): string =>
    d.make('bed', { name, kind, areaM2, covered: kind !== BedKind.SOIL, ...(kind !== BedKind.SOIL && { systemId, vesselId: canal }) }, site);
  const beds = [...['North bed 1', 'North bed 2', 'North bed 3', 'South bed 1', 'South bed 2', 'South bed 3'].map((n) => bed(n, 6)), bed('South bed 4', 4), bed('Garden plot', 20, BedKind.SOIL), bed('Garden strip', 10, BedKind.SOIL)];
  const cohort = (name: string, species: string, purpose: CohortPurpose, targetWeightG: number): string => d.make('cohort', { name, species, systemId, vesselId: tank, purpose, targetWeightG }, site);
  const big = cohort('Autumn tilapia', 'nile_tilapia', CohortPurpose.TABLE, 550);
  const small = cohort('Spring tilapia', 'nile_tilapia', CohortPurpose.TABLE, 550);
  const gold = cohort('Goldfish', 'goldfish', CohortPurpose.SENTINEL, 0);
  const feed = d.make('feed', { name: 'Floating 36', proteinPercent: 36, phosphorusPercent: 1.1, moisturePercent: 9 });
  for (const [crop, useKgPerWeek] of Object.entries({ lettuce: 1.5, tomato: 3, basil: 0.3, kale: 0.8, cucumber: 1.5, chard: 0.6 })) d.make('crop', { crop, useKgPerWeek }, site);
  return { site, tank, settler, filter, pump, canal, big, small, gold, feed, beds };
}

const ago = (d: number, h = 17): number => Math.floor(morning / day) * day - d * day + h * hour;

function fish(d: Draft, ids: Ids): void {
  const siteId = ids.site;
  d.note('stocking', { cohortId: ids.big, count: 172, massG: 172 * 62 }, { siteId, at: ago(108) });
  d.note('stocking', { cohortId: ids.gold, count: 12, massG: 720 }, { siteId, at: ago(107) });
  d.note('stocking', { cohortId: ids.small, count: 170, massG: 170 * 24 }, { siteId, at: ago(80) });
  const weights: [string, number, number][] = [[ids.big, 75, 128], [ids.big, 40, 232], [ids.big, 12, 338], [ids.small, 48, 62], [ids.small, 12, 131]];
  for (const [cohortId, when, grams] of weights) d.note('weighing', { cohortId, sampleCount: 20, massG: grams * 20 }, { siteId, at: ago(when) });
  d.note('death', { cohortId: ids.big, count: 2 }, { siteId, at: ago(61) });
  d.note('death', { cohortId: ids.small, count: 1 }, { siteId, at: ago(5) });
  for (let when = 34; when > 0; when--) {
    d.note('feeding', { vesselId: ids.tank, cohortId: ids.big, feedId: ids.feed, massG: Math.round(880 + 8 * (34 - when)) }, { siteId, at: ago(when, 14) });
    d.note('feeding', { vesselId: ids.tank, cohortId: ids.small, feedId: ids.feed, massG: Math.round(420 + 9 * (34 - when)) }, { siteId, at: ago(when, 14.2) });
  }
}

function plants(d: Draft, ids: Ids): void {
  const siteId = ids.site;
  const plant = (crop: string, bed: number, sownAgo: number, picks: readonly [number, number][], pulled?: number): void => {
    const plantingId = d.make('planting', { crop, bedId: ids.beds[bed]!, areaM2: [6, 6, 6, 6, 6, 6, 4, 20, 10][bed]!, method: PlantingMethod.DIRECT_SEED }, siteId);
    d.note('sowing', { plantingId, seedsCount: 72 }, { siteId, at: ago(sownAgo, 16) });
    for (const [when, massG] of picks) {
      d.note('bedHarvest', { plantingId, massG }, { siteId, at: ago(when, 22) });
      d.note('disposition', { crop, massG: massG * 0.6, use: Use.EATEN }, { siteId, at: ago(when, 22.5) });
      if (crop === 'tomato') d.note('disposition', { crop, massG: massG * 0.3, use: Use.CANNED, piecesCount: Math.max(1, Math.round((massG * 0.3) / 1360)) }, { siteId, at: ago(when, 22.6) });
      else if (massG > 1500) d.note('disposition', { crop, massG: massG * 0.25, use: Use.BARTERED, hadForIt: 'eggs and bread' }, { siteId, at: ago(when, 22.6) });
    }
    if (pulled !== undefined) d.note('pulling', { plantingId, reason: PullingReason.FINISHED, massG: 3800 }, { siteId, at: ago(pulled, 22.7) });
  };
  plant('lettuce', 0, 104, [[46, 4200], [40, 5100], [33, 3900]], 32);
  plant('lettuce', 0, 29, []);
  plant('basil', 1, 70, [[20, 620], [13, 840], [6, 910]]);
  plant('kale', 2, 88, [[27, 1900], [20, 2200], [13, 2450], [8, 2300]]);
  plant('chard', 3, 95, [[38, 1500], [31, 1900], [24, 2100], [17, 1800], [10, 2050]]);
  plant('basil', 4, 22, []);
  plant('lettuce', 5, 61, [[9, 3600], [2, 4000]]);
  plant('tomato', 7, 109, [[52, 6800], [45, 9200], [38, 7100], [31, 2600]]);
}

/** Radish at two distances, both in each of three beds. */
function trial(d: Draft, ids: Ids): void {
  const gave = [[1.9, 2.3], [1.5, 2.1], [2.2, 2.5]];
  const arms: string[][] = [[], []];
  gave.forEach((both, i) => both.forEach((kgPerM2, arm) => {
    const plantingId = d.make('planting', { crop: 'radish', bedId: ids.beds[i + 1]!, areaM2: 0.5, plantsCount: [40, 25][arm]!, method: PlantingMethod.DIRECT_SEED }, ids.site);
    arms[arm]!.push(plantingId);
    d.note('sowing', { plantingId, seedsCount: 50 }, { siteId: ids.site, at: ago(62 - i, 16) });
    d.note('bedHarvest', { plantingId, massG: kgPerM2 * 500 }, { siteId: ids.site, at: ago(30 - 12 * i, 21) });
    d.note('pulling', { plantingId, reason: PullingReason.FINISHED, massG: kgPerM2 * 700 }, { siteId: ids.site, at: ago(30 - 12 * i, 21.2) });
  }));
  const named = [{ name: '5 cm apart', plantingIds: arms[0]! }, { name: '8 cm apart', plantingIds: arms[1]! }].map((arm) => create(TrialArmSchema, arm));
  d.make('trial', { question: 'Does radish give more at 8 cm than at 5?', measure: TrialMeasure.HARVEST_KG_PER_M2, arms: named, fromOn: '2026-09-20', stoppingRule: 'when six beds have been picked', worthwhilePercent: 20 }, ids.site);
}

function water(d: Draft, ids: Ids): void {
  const siteId = ids.site;
  const wave = (i: number, period: number): number => Math.sin((2 * Math.PI * i) / period);
  const shaky = (i: number): number => ((i * 7919) % 101) / 101 - 0.5;
  for (let i = days * 24; i >= 6; i--) {
    const at = morning - i * hour;
    const trouble = Math.max(0, 6 * 24 - i) / (6 * 24); // the filter was hosed clean six days ago
    const probe = (quantity: Quantity, unit: Unit, value: number, decimals: number, placeId: string): void => {
      d.note('reading', { quantity, unit, digits: BigInt(Math.round(value * 10 ** decimals)), decimals, placeId, method: Method.PROBE }, { siteId, at });
    };
    probe(Quantity.WATER_TEMPERATURE, Unit.CELSIUS, 25.9 + 0.5 * wave(i, 24) + 0.6 * wave(i, 24 * 41) + 0.2 * shaky(i), 1, ids.tank);
    probe(Quantity.PH, Unit.NONE, 7.05 + 0.1 * wave(i + 5, 24) + 0.12 * wave(i, 24 * 33) + trouble * 0.35 + 0.05 * shaky(i * 3), 2, ids.tank);
    probe(Quantity.DISSOLVED_OXYGEN, Unit.MG_PER_L, 6.3 + 0.45 * wave(i + 9, 24) - trouble * 0.4 + 0.2 * shaky(i * 5), 1, ids.tank);
    if (i % 3 === 0) probe(Quantity.AIR_TEMPERATURE, Unit.CELSIUS, 19 - (days * 24 - i) / 300 + 3 * wave(i + 2, 24), 1, '');
  }
  for (let when = 108; when >= 3; when -= 3) {
    const trouble = when < 6 ? 6 - when : 0;
    const test = (quantity: Quantity, unit: Unit, basis: Basis, value: number, decimals: number): void => {
      d.note('reading', { quantity, unit, basis, digits: BigInt(Math.round(value * 10 ** decimals)), decimals, placeId: ids.tank, method: Method.DROPS }, { siteId, at: ago(when, 13) });
    };
    test(Quantity.TOTAL_AMMONIA, Unit.MG_PER_L, Basis.AS_NH3, 0.25 + 0.1 * wave(when, 13) + trouble * 0.95, 2);
    test(Quantity.NITRITE, Unit.MG_PER_L, Basis.AS_NO2, 0.1 + 0.05 * wave(when, 17) + trouble * 0.1, 2);
    test(Quantity.NITRATE, Unit.MG_PER_L, Basis.AS_NO3, 46 + 14 * wave(when, 60), 0);
    if (when % 6 === 0) test(Quantity.ALKALINITY, Unit.PPM_CACO3, Basis.UNSPECIFIED, 92 + 8 * wave(when, 40), 0);
  }
  d.note('reading', { quantity: Quantity.CLARITY, unit: Unit.WORD, digits: 3n, decimals: 0, placeId: ids.filter, method: Method.EYE }, { siteId, at: ago(2, 13) });
  d.note('reading', { quantity: Quantity.FLOW, unit: Unit.GAL_PER_H, digits: 2310n, decimals: 0, placeId: ids.pump, method: Method.METER }, { siteId, at: ago(12, 13) });
}

function chores(d: Draft, ids: Ids): void {
  const siteId = ids.site;
  d.note('upkeep', { kind: UpkeepKind.FILTER_CLEANED, vesselId: ids.filter, words: 'hosed the gravel until it ran clear' }, { siteId, at: ago(6, 18) });
  for (let when = 56; when > 0; when -= 7) {
    d.note('waterIn', { vesselId: ids.pump, volumeL: 420 }, { siteId, at: ago(when, 19) });
    d.note('solidsOut', { vesselId: ids.settler, volumeL: 30, wentTo: 'compost' }, { siteId, at: ago(when, 19.3) });
    d.note('dosing', { vesselId: ids.pump, substance: Substance.POTASSIUM_BICARBONATE, massG: 150 }, { siteId, at: ago(when, 19.5) });
  }
  d.note('note', { aboutId: ids.beds[0]!, text: 'Leaves a little pale at the far end.' }, { siteId, at: ago(2, 18) });
}
