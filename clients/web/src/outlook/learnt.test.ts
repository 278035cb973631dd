import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';

import vectors from '../../../../testdata/vectors/outlook.json';
import { asOfLate, figures, startOutlook, type Asked, type Coming, type Hour, type Outlook, type Past } from './learnt';

let module: WebAssembly.Module;
let outlook: Outlook;

const hours = vectors.hours.map(([air, sun, feed, fish, changed, base, still, cleaned]) => ({ air, sun, feed, fish, changed, base, still, cleaned }) as Hour);
const tests = vectors.tests.map(([hour, figure, value, below]) => ({ hour: hour!, figure: figure!, value: value!, below: below! }));
const past: Past = { loop: vectors.loop as Past['loop'], hours, tests };

beforeAll(async () => {
  module = await WebAssembly.compile(readFileSync(new URL('./outlook.wasm', import.meta.url)));
  outlook = await startOutlook(module);
  expect(outlook.learn(past)).toEqual(vectors.records.map(([held, asked]) => ({ held, asked })));
});

/** Expects what the same source told natively; a processor's own exponential may differ in the last digits. */
function alike(told: Coming[], kept: number[][][]): void {
  told.forEach(({ days }, f) => days.forEach((d, day) => [d.low, d.middle, d.high, d.passes].forEach((v, i) => {
    const want = kept[f]![day]![i]!;
    expect(Math.abs(v - want), `${figures[f]} on day ${day}, number ${i}: ${v}, natively ${want}`).toBeLessThanOrEqual(i === 3 ? 0.01 : 1e-4 * Math.max(1, Math.abs(want)));
  })));
}

test('it tells what the same source tells natively, going on as of late and otherwise', () => {
  for (const [otherwise, kept] of [[asOfLate, vectors.usual], [vectors.otherwise, vectors.other]] as const) {
    const asked = figures.map((name, f): Asked => ({ name, side: 'mean', limit: kept[f]![0]![1]! }));
    alike(outlook.ahead(vectors.rest, 3, otherwise, asked), kept);
  }
});

test('a limit that is a least is passed from above, and a test that narrows is named', () => {
  const [above, below] = outlook.ahead(0, 1, asOfLate, [{ name: 'oxygen', side: 'lowest', limit: 30, least: true }, { name: 'oxygen', side: 'highest', limit: 30 }]);
  expect([above!.days[0]!.passes, below!.days[0]!.passes]).toEqual([1, 0]);
  expect(figures).toContain(above!.narrowedBy);
  expect(above!.narrowedTo).toBeGreaterThan(0);
});

test('what cannot be is refused with its name', async () => {
  const fresh = await startOutlook(module);
  expect(() => fresh.ahead(0, 7, asOfLate, [])).toThrow(/nothing was learnt/);
  expect(() => fresh.learn({ ...past, loop: [0, 1, 1, 1, 0, 0] })).toThrow(expect.objectContaining({ what: 'water of the loop' }));
  expect(() => fresh.learn({ ...past, tests: [{ hour: hours.length, figure: 0, value: 20, below: 0 }] })).toThrow(/within the past/);
  for (const [rest, days] of [[24, 1], [NaN, 1], [0, 0], [0, 61], [0, 1e9]] as const) expect(() => outlook.ahead(rest, days, asOfLate, [])).toThrow(expect.objectContaining({ what: expect.stringMatching(/rest of the day|days ahead/) as string }));
  expect(() => outlook.ahead(0, 7, { ...asOfLate, replacedShare: 2 }, [])).toThrow(expect.objectContaining({ what: 'otherwise.replaced_share' }));
});
