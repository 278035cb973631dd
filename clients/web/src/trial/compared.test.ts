import { readFileSync } from 'node:fs';

import { beforeAll, expect, test } from 'vitest';

import type { Book, Kept } from '../book/book';
import { startHusbandry, type Husbandry } from '../husbandry/husbandry';
import { Bearing } from '../reckon/bearing';
import { lookAt, looks, verdict } from './compared';

const day = 86_400_000;
const noon = (d: number): number => d * day + day / 2;
let husbandry: Husbandry;

beforeAll(async () => {
  husbandry = await startHusbandry(await WebAssembly.compile(readFileSync('src/husbandry/husbandry.wasm')));
});

/** A site with two arms in each of three beds, picked on days 100, 110 and 120. */
function bearing(gave: readonly (readonly [number, number])[], now = 150): Bearing {
  const plantings = gave.flatMap((_, bed) => [0, 1].map((arm) => ({ id: `p${bed}${arm}`, bedId: `bed${bed}`, areaM2: 2, plantsCount: 8, crop: 'radish' })));
  const plants = gave.flatMap((both, bed) => both.flatMap((kg, arm) => [
    { kind: 'sowing', at: noon(70), body: { plantingId: `p${bed}${arm}` } },
    { kind: 'bedHarvest', at: noon(100 + 10 * bed), body: { plantingId: `p${bed}${arm}`, massG: kg * 2000, piecesCount: 16 } },
  ]));
  return new Bearing(husbandry.ask, { now: noon(now), plantings, plants, loops: [], bank: [] } as unknown as Book, 0);
}

const asked = (measure: number, toOn = ''): Kept<'trial'> => ({
  question: 'Wider?', measure, toOn, fromOn: '1970-03-01', worthwhilePercent: 20, stoppingRule: '',
  arms: [0, 1].map((arm) => ({ name: 'narrow wide'.split(' ')[arm], plantingIds: [0, 1, 2].map((bed) => `p${bed}${arm}`) })),
}) as unknown as Kept<'trial'>;

const gave = [[1.9, 2.3], [1.5, 2.1], [2.2, 2.5]] as const;

// Differences 0.4, 0.6 and 0.3: mean 0.4333, standard error 0.08819. Student's t
// with 2 degrees of freedom is 4.3027 at 95 in 100 and 31.599 at 999 in 1,000
// (NIST/SEMATECH e-Handbook, table of critical values, 1.3.6.7.2).
test('beds that hold both arms are compared within themselves, and told at 1 in 20 only at the end', () => {
  const [d] = lookAt(husbandry.ask, bearing(gave), asked(1, '1970-05-10'), 150).differences;
  expect(d!.value).toBeCloseTo(0.43333, 4);
  expect(d!.low).toBeCloseTo(0.43333 - 4.3027 * 0.088192, 3);
  expect(d!.high).toBeCloseTo(0.43333 + 4.3027 * 0.088192, 3);
  expect(verdict(d!)).toBe('more');
  const [running] = lookAt(husbandry.ask, bearing(gave), asked(1), 150).differences;
  expect(running!.high).toBeCloseTo(0.43333 + 31.599 * 0.088192, 2);
  expect(verdict(running!)).toBe('open');
  expect(running!.wanted).toBeGreaterThan(2);
});

test('what was picked after the last day is not counted', () => {
  const look = lookAt(husbandry.ask, bearing(gave), asked(1, '1970-04-25'), 150); // day 114
  expect(look.plots.map((p) => p.value)).toEqual([1.9, 1.5, undefined, 2.3, 2.1, undefined]);
});

test('pieces are counted for each plant, and days from the start', () => {
  expect(lookAt(husbandry.ask, bearing(gave), asked(2), 150).plots[0]!.value).toBe(2);
  expect(lookAt(husbandry.ask, bearing(gave), asked(3), 150).plots.map((p) => p.value)).toEqual([30, 40, 50, 30, 40, 50]);
});

test('looks are taken on the first of each month since something could be told, and now', () => {
  const found = looks(husbandry.ask, bearing(gave), asked(1));
  expect(found.map((l) => l.on)).toEqual([120, 150]); // 1 May and 31 May
  expect(found.every((l) => l.differences[0] !== undefined)).toBe(true);
});

test('one planting of each tells nothing', () => {
  expect(lookAt(husbandry.ask, bearing(gave.slice(0, 1)), asked(1), 150).differences).toEqual([undefined]);
});
