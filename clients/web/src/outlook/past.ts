// A loop's last six weeks, hour by hour, as the outlook learns from them. The
// same gathering as the server's.
import { litres, type Book } from '../book/book';
import { tally, type Herd } from '../book/herds';
import type { View } from '../device/view';
import { BedKind } from '../gen/freshet/v1/bed_pb';
import { IncidentKind } from '../gen/freshet/v1/incident_pb';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { UpkeepKind } from '../gen/freshet/v1/upkeep_pb';
import { number, type Ask } from '../reckon/asking';
import { inLoop, usualProtein } from '../reckon/came';
import { equivalents } from '../reckon/carrying';
import type { LoopReckoning } from '../reckon/reckoning';
import { figures, type Hour, type Named, type Past } from './learnt';

const hour = 3_600_000;
/** Hours that are learnt from. */
export const lookedBack = 42 * 24;
const mmHgPerAtm = 760;
const nitrogenOfProtein = 0.16; // Jones 1931

/** A loop's past as the outlook takes it, and how far it reaches. */
export interface LoopPast extends Past {
  /** Start of the hour that is not in it, ms. */
  to: number;
  /** What was read in it. */
  read: Set<Named>;
}

/** What the outlook takes readings of, in its order. */
const readables = [Quantity.WATER_TEMPERATURE, Quantity.TOTAL_AMMONIA, Quantity.NITRITE, Quantity.NITRATE, Quantity.ALKALINITY, Quantity.PH, Quantity.DISSOLVED_OXYGEN];

/** Gathers a loop's past; shift is the zone's offset, ms. */
export async function pastOf(view: View, ask: Ask, book: Book, r: LoopReckoning, shift: number): Promise<LoopPast> {
  const to = Math.floor(book.now / hour) * hour;
  const from = to - lookedBack * hour;
  const air = await means(view, book, from, to, Quantity.AIR_TEMPERATURE, ['', ...r.loop.vessels.map((v) => v.id), ...r.loop.beds.map((b) => b.id)]);
  const hours = Array.from({ length: lookedBack }, (_, i): Hour => ({
    air: air.get(i)?.value ?? NaN, sun: sunAt(ask, book, from + i * hour, shift), feed: 0, fish: 0, changed: 0, base: 0, still: 0, cleaned: 0,
  }));
  const past: LoopPast = { loop: loopOf(ask, book, r), to, hours, tests: [], read: new Set() };
  fish(past, r, from);
  deeds(past, book, r, from);
  await tests(past, view, book, r, from);
  return past;
}

function loopOf(ask: Ask, book: Book, { loop }: LoopReckoning): Past['loop'] {
  const rafts = loop.beds.filter((b) => b.kind === BedKind.RAFT).reduce((s, b) => s + b.areaM2, 0);
  const media = loop.vessels.reduce((s, v) => s + (v.mediaVolumeL * v.mediaSpecificSurfaceM2PerM3) / 1000, 0) + rafts;
  const planted = loop.beds.reduce((s, b) => s + b.areaM2, 0);
  const pressure = (number(ask, 'pressure_from_elevation', { elevation_m: book.site.elevationM }) ?? mmHgPerAtm) / mmHgPerAtm;
  return [litres(loop), media, planted, pressure, book.site.sourceAlkalinityMgPerL ?? 0, book.site.sourceNitrateMgPerL];
}

/** The share of noon that the sun stands at, by the length of the day. */
function sunAt(ask: Ask, book: Book, at: number, shift: number): number {
  const here = new Date(at + shift);
  const year_day = Math.floor((here.getTime() - Date.UTC(here.getUTCFullYear(), 0, 1)) / (24 * hour)) + 1;
  const daylight = daylightOf(ask, book.site.latitudeDegrees, year_day);
  const noon = 12.5; // of the clock, in the middle of a zone, between winter's and summer's
  const off = Math.abs(here.getUTCHours() + 0.5 - noon);
  return daylight <= 0 || off > daylight / 2 ? 0 : Math.max(0, Math.cos((Math.PI * off) / daylight));
}

const lengths = new Map<string, number>();

function daylightOf(ask: Ask, latitude_degrees: number | undefined, year_day: number): number {
  if (latitude_degrees === undefined) return 12;
  const key = `${latitude_degrees} ${year_day}`;
  let h = lengths.get(key);
  if (h === undefined) lengths.set(key, (h = number(ask, 'daylight_hours', { latitude_degrees, year_day }) ?? 12));
  return h;
}

/** Lays the biomass between three moments on straight lines. */
function fish(past: LoopPast, r: LoopReckoning, from: number): void {
  const alive = (herd: Herd, at: number): number => Math.max(0, tally(herd.events.filter((e) => e.at <= at)).alive);
  const kg = (at: number): number => r.live.reduce((s, { herd, growing }) => s + (alive(herd, at) * (growing.weightAt(at) ?? 0)) / 1000, 0);
  const half = lookedBack / 2;
  const at = [0, 1, 2].map((s) => kg(from + s * half * hour));
  past.hours.forEach((h, i) => {
    const s = Math.floor(i / half);
    h.fish = at[s]! + ((i % half) / half) * (at[s + 1]! - at[s]!);
  });
}

/** What was fed, poured, dosed and cleaned, and when the pump stood. */
function deeds(past: LoopPast, book: Book, { loop }: LoopReckoning, from: number): void {
  const mine = inLoop(book, loop);
  const protein = new Map(book.feeds.map((f) => [f.id, f.proteinPercent]));
  const water = Math.max(1, litres(loop));
  for (const e of book.lately) {
    const h = past.hours[Math.floor((e.at - from) / hour)];
    if (!h) continue;
    if (e.kind === 'feeding' && mine(e.body)) {
      h.feed += (Math.max(0, e.body.massG - e.body.leftG) * (protein.get(e.body.feedId) ?? usualProtein) * nitrogenOfProtein) / 100;
    } else if (e.kind === 'waterOut' && mine(e.body)) h.changed += e.body.volumeL;
    else if (e.kind === 'waterIn' && mine(e.body)) h.base += ((book.site.sourceAlkalinityMgPerL ?? 0) * e.body.volumeL) / water;
    else if (e.kind === 'dosing' && mine(e.body)) h.base += ((e.body.massG / (equivalents[e.body.substance] ?? Infinity)) * 50_040) / water;
    else if (e.kind === 'upkeep' && e.body.kind === UpkeepKind.FILTER_CLEANED && mine(e.body)) h.cleaned = 1;
    else if (e.kind === 'incident' && (e.body.kind === IncidentKind.POWER_CUT || e.body.kind === IncidentKind.PUMP_STOPPED)) stand(past, from, e.at, e.body.endedAt ? Number(e.body.endedAt.seconds) * 1000 : e.at + hour);
  }
}

function stand(past: LoopPast, from: number, began: number, ended: number): void {
  for (let at = began; at < ended && at < past.to; at += hour) past.hours[Math.floor((at - from) / hour)]!.still = 1;
}

async function tests(past: LoopPast, view: View, book: Book, { loop }: LoopReckoning, from: number): Promise<void> {
  const places = ['', ...loop.vessels.map((v) => v.id)];
  const found = await Promise.all(readables.map((q) => means(view, book, from, past.to, q, places)));
  found.forEach((byHour, figure) => {
    for (const [at, { value, below }] of byHour) past.tests.push({ hour: at, figure, value, below: below ? 1 : 0 });
    if (byHour.size > 0) past.read.add(figures[figure]!);
  });
  past.tests.sort((a, b) => a.hour - b.hour || a.figure - b.figure);
}

/** The mean of an hour's readings over all places where a quantity is read. */
async function means(view: View, book: Book, from: number, to: number, quantity: Quantity, places: readonly string[]): Promise<Map<number, { value: number; below: boolean }>> {
  const sums = new Map<number, { total: number; n: number; below: boolean }>();
  for (const { placeId } of book.newest.filter((n) => n.quantity === quantity && places.includes(n.placeId))) {
    const { ms, values, beyond } = await view.series(book.site.id, placeId, quantity, from, to);
    ms.forEach((at, i) => {
      const h = Math.floor((at - from) / hour);
      const s = sums.get(h) ?? { total: 0, n: 0, below: true };
      sums.set(h, { total: s.total + values[i]!, n: s.n + 1, below: s.below && beyond[i] === -1 });
    });
  }
  return new Map([...sums].map(([h, s]) => [h, { value: s.total / s.n, below: s.below }]));
}
