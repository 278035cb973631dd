// A notebook in which every name is one that nobody means, made in a page by the
// app's own parts.
import { thisMachine } from '../../src/device/clock';
import { openDatabase } from '../../src/device/database';
import { enterInto, ownInstall } from '../../src/device/open';
import { BedKind } from '../../src/gen/freshet/v1/bed_pb';
import { CohortPurpose } from '../../src/gen/freshet/v1/cohort_pb';
import { PlantingMethod } from '../../src/gen/freshet/v1/planting_pb';
import { Method, Quantity, Unit } from '../../src/gen/freshet/v1/reading_pb';
import { TrialMeasure } from '../../src/gen/freshet/v1/trial_pb';
import { UpkeepKind } from '../../src/gen/freshet/v1/upkeep_pb';
import { VesselKind } from '../../src/gen/freshet/v1/vessel_pb';

const hour = 3_600_000;
const pwn = 'globalThis.pwned=1';
const script = `<img src=x onerror="${pwn}"><script>${pwn}</script>`;

/** Fills the app's own notebook; ids by the names that pages use. */
export async function fill(): Promise<Record<'tank' | 'bed' | 'fish' | 'trial', string>> {
  const db = await openDatabase('own');
  await ownInstall(db);
  const ids = {} as Record<'site' | 'tank' | 'bed' | 'fish' | 'trial', string>;
  await enterInto(db, thisMachine(), (d) => {
    const now = Date.now();
    ids.site = d.make('site', { name: `"><script>${pwn}</script>`, timeZone: 'Asia/Riyadh' });
    const siteId = ids.site;
    const systemId = d.make('system', { name: `{{constructor.constructor('${pwn}')()}}` }, siteId);
    const sump = d.make('vessel', { systemId, name: '\u202Eحوض التجميع\u202C', kind: VesselKind.PUMP_TANK, volumeL: 700 }, siteId);
    ids.tank = d.make('vessel', { systemId, name: `<img src=x onerror=${pwn}>`, kind: VesselKind.FISH_TANK, volumeL: 2000, flowsTo: [sump] }, siteId);
    ids.bed = d.make('bed', { systemId, vesselId: sump, name: '🐟🌱👩🏽‍🌾'.repeat(6), kind: BedKind.MEDIA, areaM2: 4 }, siteId);
    ids.fish = d.make('cohort', { systemId, vesselId: ids.tank, name: 'W'.repeat(80), species: 'nile_tilapia', purpose: CohortPurpose.TABLE, targetWeightG: 500 }, siteId);
    d.make('feed', { name: "'; DROP TABLE readings; --", proteinPercent: 32 });
    d.make('crop', { crop: 'lettuce', localName: 'خَسّ <b>', useKgPerWeek: 1 }, siteId);
    const plantingId = d.make('planting', { bedId: ids.bed, crop: 'lettuce', method: PlantingMethod.TRANSPLANT, areaM2: 2 }, siteId);
    ids.trial = d.make('trial', { question: script, measure: TrialMeasure.HARVEST_KG_PER_M2, fromOn: '2026-01-01' }, siteId);
    const at = (ago: number): { siteId: string; at: number } => ({ siteId, at: now - ago * hour });
    d.note('stocking', { cohortId: ids.fish, count: 40, massG: 2000 }, at(900));
    d.note('sowing', { plantingId }, at(900));
    for (const [quantity, unit, digits] of [[Quantity.WATER_TEMPERATURE, Unit.CELSIUS, 25n], [Quantity.PH, Unit.NONE, 7n], [Quantity.TOTAL_AMMONIA, Unit.MG_PER_L, 1n]] as const) {
      d.note('reading', { quantity, unit, digits, decimals: 0, placeId: ids.tank, method: Method.DROPS }, at(30));
    }
    d.note('upkeep', { kind: UpkeepKind.FILTER_CLEANED, vesselId: ids.tank, words: script }, at(20));
    d.note('note', { aboutId: ids.bed, text: script + 'long'.repeat(2000) }, at(10));
    d.note('note', { aboutId: ids.tank, text: `\u202E\u2066${'🐟'.repeat(400)}` }, at(9));
  });
  db.close();
  return ids;
}
