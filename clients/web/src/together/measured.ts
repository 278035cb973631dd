// Figures of a measure in the units of who reads them, and what may be said of them.
import type { Desk } from '../desk.svelte';
import type { Answer } from '../gen/freshet/v1/answer_pb';
import { PoolMeasure, type CompareSitesResponse, type SiteFigure } from '../gen/freshet/v1/pool_service_pb';
import type { Kind } from '../words/units';

const kinds: Partial<Record<PoolMeasure, Kind>> = {
  [PoolMeasure.PRODUCE_KG_PER_M2_YEAR]: 'yield', [PoolMeasure.WATER_L_PER_KG]: 'waterForMass',
  [PoolMeasure.ENERGY_KWH_PER_KG]: 'energyForMass', [PoolMeasure.LABOUR_H_PER_KG]: 'workForMass',
};

/** A figure with its unit. Feed for growth is the same in any unit of weight. */
export function figureOf(desk: Desk, measure: PoolMeasure, value: number): string {
  const kind = kinds[measure];
  if (kind) return desk.say.amount(kind, value, 2);
  return measure === PoolMeasure.SURVIVAL_PERCENT ? desk.say.percent(value / 100) : desk.say.number(value, 2);
}

/** The same without its unit, where that is said beside it. */
export function bareOf(desk: Desk, measure: PoolMeasure, value: number): string {
  const kind = kinds[measure];
  return kind ? desk.say.parts(kind, value, 2).value : figureOf(desk, measure, value);
}

/** The unit of a measure's figures; empty where they have none, or carry it. */
export const unitOf = (desk: Desk, measure: PoolMeasure): string => (kinds[measure] ? desk.say.parts(kinds[measure], 1).symbol : '');

/** What a site is called here; ours is said to be. */
export const nameOf = (desk: Desk, s: SiteFigure): string => (s.own ? `${s.name}, ${desk.t.together.own}` : s.siteId === '' ? desk.t.together.member : s.name);

/** The definitions that the words of the app are of: of another version the server's own are shown. */
export const defined = 3;

/** What the figures say, in a few sentences. */
export function saysOf(desk: Desk, measure: PoolMeasure, f: CompareSitesResponse): string[] {
  const t = desk.t.together;
  const n = f.sites.length;
  const of = (v: number): string => figureOf(desk, measure, v);
  const mean = f.group ? [t.mean(of(f.group.value), of(f.group.low ?? f.group.value), of(f.group.high ?? f.group.value))] : [];
  if (f.coarse) return [t.about(of(f.group?.value ?? 0)), t.coarse];
  const own = f.sites.find((s) => s.own && s.rankHigh > 0);
  const ours = f.sites.some((s) => s.own) ? [] : [t.notAmong];
  if (f.betweenSd === 0) return [...mean, t.alike, ...ours];
  return [...mean, ...ours, ...(own ? [t.stands(own.rankLow, own.rankHigh, n)] : []), ...(f.apartCount === undefined ? [] : [t.apart(f.apartCount, n - 1)])];
}

/** What our own site noted, and what that comes to over the year that all are set on; nothing where it is not compared so. */
export function yearOf(desk: Desk, measure: PoolMeasure, f: CompareSitesResponse): string[] {
  const own = f.sites.find((s) => s.own);
  const { asRecorded, adjusted } = own ?? {};
  if (f.coarse || !asRecorded || adjusted?.low === undefined || adjusted.high === undefined) return [];
  const of = (v: number): string => figureOf(desk, measure, v);
  return [desk.t.together.oneYear(of(asRecorded.value), own!.monthsCount, of(adjusted.value), of(adjusted.low), of(adjusted.high))];
}

/** Water that a kilogram of vegetables takes from rain and irrigation in fields, L: what the server measures the claim by. */
const fieldWater = 237;

/** What is often said of loops, put to the test: ten times what soil gives, a tenth of the water; nothing where that was not asked. */
export function claimsOf(desk: Desk, measure: PoolMeasure, f: CompareSitesResponse): string[] {
  return f.claims.flatMap((c) => (c.name === 'ten_times_the_produce' ? tenfold(desk, c) : c.name === 'a_tenth_of_the_water' ? tenth(desk, measure, c) : []));
}

function tenfold(desk: Desk, claim: Answer): string[] {
  const t = desk.t.together;
  const e = claim.estimate;
  if (e?.low === undefined || e.high === undefined) return [];
  const times = (v: number): string => desk.say.number(v, 2);
  const so = claim.missing.length > 0 ? t.tenfoldYear : e.high < 10 ? t.tenfoldNo : e.low > 10 ? t.tenfoldYes : t.tenfoldOpen;
  return [t.tenfold(times(e.value), times(e.low), times(e.high)), so, t.tenfoldNot];
}

function tenth(desk: Desk, measure: PoolMeasure, claim: Answer): string[] {
  const t = desk.t.together;
  const e = claim.estimate;
  if (e?.low === undefined || e.high === undefined) return [];
  const times = (v: number): string => desk.say.number(v, 2);
  const so = claim.missing.length > 0 ? t.tenthYear : e.low > 1 ? t.tenthMore : e.low > 0.1 ? t.tenfoldNo : e.high < 0.1 ? t.tenfoldYes : t.tenfoldOpen;
  return [t.tenth(times(e.value), figureOf(desk, measure, fieldWater), times(e.low), times(e.high)), so, t.tenthNot];
}

/** The mean of the sites nearest to ours; nothing where the server tells of no such group. */
export function nearestOf(desk: Desk, measure: PoolMeasure, f: CompareSitesResponse): string[] {
  const m = f.matched;
  return m?.group && m.sitesCount > 0 ? [desk.t.together.nearest(m.sitesCount, figureOf(desk, measure, m.group.value))] : [];
}
