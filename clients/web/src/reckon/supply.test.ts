import { readFileSync } from 'node:fs';

import { beforeAll, expect, test } from 'vitest';

import { weekOfYear, Year, type Air } from '../book/air';
import type { Book } from '../book/book';
import { startHusbandry, type Husbandry } from '../husbandry/husbandry';
import { Bearing, dayOf } from './bearing';
import { ideas, standsOpen } from './supply';

const day = 86_400_000;
let husbandry: Husbandry;

beforeAll(async () => {
  husbandry = await startHusbandry(await WebAssembly.compile(readFileSync('src/husbandry/husbandry.wasm')));
});

const beds = [{ id: 'open', areaM2: 9, covered: false }, { id: 'covered', areaM2: 9, covered: true }];
const always = (celsius: number): number[] => new Array<number>(53).fill(celsius);
/** Lettuce comes on half as fast in 11.25 degC as in the 18.5 it likes. */
const air: Air = { open: always(11.25), covered: always(20) };

function at(date: string, of?: Air, more: object = {}, latitudeDegrees = 0): Bearing {
  const site = { lastFrost: '', firstFrost: '', latitudeDegrees };
  const book = { now: dayOf(date) * day, site, loops: [], bank: beds, plantings: [], plants: [], crops: [{ crop: 'lettuce', useKgPerWeek: 0.5 }], ...more };
  return new Bearing(husbandry.ask, book as unknown as Book, 0, of);
}

const listed = (b: Bearing): string[] => ideas(b, b.standing()).map((i) => `${i.bed} ${i.areaM2.toFixed(2)} ${i.window.first - b.today}`);

// 63 days from seed, 3.75 kg/m2 over two weeks (the crop table): 0.5 kg a week is borne by 0.27 m2.
test('a bed bears at the pace of its air, and each clime has its own gap', () => {
  expect(listed(at('2026-05-01'))).toEqual(['open 0.27 63']);
  expect(listed(at('2026-05-01', air))).toEqual(['covered 0.27 63', 'open 0.27 126']);
});

test('where nothing grows for want of light nothing is sown before it must be', () => {
  // Days are shorter than ten hours at 60 degrees north until the end of February.
  expect(listed(at('2026-01-01', { open: always(20), covered: always(20) }, {}, 60))).toEqual([]);
  expect(listed(at('2026-02-23', { open: always(20), covered: always(20) }, {}, 60))[0]).toBe('covered 0.27 69');
});

test('own plantings count as the good days that they had', () => {
  const sown = dayOf('2026-01-01') * day;
  const grown = {
    plantings: [{ id: 'p', bedId: 'open', crop: 'lettuce', areaM2: 1 }],
    plants: [{ kind: 'sowing', at: sown, body: { plantingId: 'p' } }, { kind: 'bedHarvest', at: sown + 100 * day, body: { plantingId: 'p', massG: 900 } }, { kind: 'pulling', at: sown + 104 * day, body: { plantingId: 'p' } }],
  };
  const first = (of?: Air): number => at('2026-06-01', of, grown).window('lettuce', 'covered', 0, 1)!.first;
  expect(first()).toBeGreaterThan(63); // drawn towards a hundred days
  expect(first(air)).toBeLessThan(63); // drawn towards the fifty that were good
});

test('hardy plants are not sown into frozen ground', () => {
  const frost = { site: { lastFrost: '05-20', firstFrost: '09-25', latitudeDegrees: 0 } };
  const stands = (crop: string, date: string): boolean => {
    const b = at(date, undefined, frost);
    return standsOpen(b, b.window(crop, 'open', b.today, 1)!);
  };
  expect([stands('kale', '2026-11-27'), stands('kale', '2026-04-09'), stands('kale', '2026-04-07'), stands('basil', '2026-05-20'), stands('basil', '2026-05-21')]).toEqual([false, true, false, false, true]);
  const south = { site: { lastFrost: '10-20', firstFrost: '04-25', latitudeDegrees: 0 } };
  const b = at('2026-11-27', undefined, south);
  expect(standsOpen(b, b.window('basil', 'open', b.today, 1)!)).toBe(true);
});

test('a week without air has the nearest one’s, half a year is too little', () => {
  const year = new Year();
  for (let w = 0; w < 25; w++) year.add(w, w);
  expect(year.weeks()).toBeUndefined();
  year.add(40, 7);
  year.add(40, 9);
  const weeks = year.weeks()!;
  expect([weeks[3], weeks[31], weeks[34], weeks[40], weeks[52]]).toEqual([3, 24, 8, 8, 0]);
  expect([weekOfYear(dayOf('2026-01-01')), weekOfYear(dayOf('2026-01-08')), weekOfYear(dayOf('2024-12-31'))]).toEqual([0, 1, 52]);
});
