import { readFileSync } from 'node:fs';

import { expect, test } from 'vitest';

import { en } from './en';
import { readingParts } from './names';
import { Say } from './say';
import { languages, wordsFor, type Language } from './words';
import { ErrorReason } from '../gen/freshet/v1/error_reason_pb';
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import { Basis, Censoring, Method, Quantity, Unit } from '../gen/freshet/v1/reading_pb';

const sayIn = (language: string): Say => new Say(language, UnitSystem.METRIC, 'UTC', () => 0);

/** Every key of a catalogue as a path, with what stands there. */
function paths(words: unknown, at = ''): [path: string, kind: string][] {
  if (typeof words !== 'object' || words === null) return [[at, typeof words]];
  return Object.entries(words).flatMap(([key, value]) => paths(value, `${at}.${key}`));
}

const others = (Object.keys(languages) as Language[]).filter((l) => l !== 'en');

test.each(others)('%s has every key of the English, and no other', async (language) => {
  const own = (await wordsFor(language))(sayIn(language));
  expect(paths(own).sort()).toEqual(paths(en(sayIn('en'))).sort());
});

test.each(others)('%s says nothing in English that has a word of its own', async (language) => {
  const text = (words: unknown, at = ''): [string, string][] =>
    typeof words === 'string' ? [[at, words]] : typeof words === 'object' && words !== null ? Object.entries(words).flatMap(([k, v]) => text(v, `${at}.${k}`)) : [];
  const own = new Map(text((await wordsFor(language))(sayIn(language))));
  // Units, names that are the same everywhere, and words that happen to be alike.
  const alike = /^\.(app|unit\.|basis\.0|fieldUnit\.|crop\.(pak choi|papaya|cilantro)|species\.(koi|barramundi)|quantity\.3$|budget\.grams|outlook\.unit|substance\.16|why\.figure\.ph)/;
  const same = text(en(sayIn('en'))).filter(([path, words]) => words !== '' && own.get(path) === words && !alike.test(path));
  expect(same).toEqual([]);
});

test.each(Object.keys(languages) as Language[])('%s names every crop and fish of the tables, and every reason to refuse', async (language) => {
  const words = (await wordsFor(language))(sayIn(language));
  const crops = new Set(readFileSync('../../husbandry/crop/testdata/crops.csv', 'utf8').trim().split('\n').slice(1).map((line) => line.split(',')[0]!));
  for (const crop of crops) expect(words.crop[crop], crop).toBeTruthy();
  for (const reason of Object.keys(ErrorReason).filter((r) => /^[A-Z_]+$/.test(r) && r !== 'UNSPECIFIED')) expect(words.trouble[reason], reason).toHaveLength(2);
});

test.each(Object.keys(languages) as Language[])('%s says why a site was left out of a comparison, for each reason of the server', async (language) => {
  const { why } = (await wordsFor(language))(sayIn(language)).together;
  const go = ['poolmonths', 'poolfish'].map((name) => readFileSync(`../../server/analysis/${name}.go`, 'utf8')).join('');
  const least = /leastMonths += (\d+)/.exec(go)![1]!;
  const reasons = new Set([...go.matchAll(/(?:c\.leave\(id, (?:fmt\.Sprintf\()?|eachFish\(ctx, )"([^"]+)"/g)].map((m) => m[1]!.replace('%d', least)));
  expect(reasons.size).toBe(8);
  for (const reason of reasons) expect(why[reason], reason).toBeTruthy();
});

test('a figure for each kilogram is told for each pound', async () => {
  const american = new Say('en-US', UnitSystem.US_CUSTOMARY, 'UTC', () => 0);
  // 100 L/kg by NIST SP 811, appendix B: 3.785412 L in a gallon, 0.45359237 kg in a pound.
  expect(american.amount('waterForMass', 100)).toBe('12\u00a0gal/lb');
  expect(american.amount('energyForMass', 10)).toBe('4.54\u00a0kWh/lb');
  expect(american.amount('yield', 10)).toBe('2\u00a0lb/ft²');
  expect(en(american).together.define[4]).toContain('gallons');
});

test('a number chooses its form, and decimals their mark', async () => {
  expect(en(sayIn('en')).shell.waiting(1)).toBe('1 entry only on this phone');
  expect(en(sayIn('en')).shell.waiting(2)).toBe('2 entries only on this phone');
  const es = (await wordsFor('es'))(sayIn('es'));
  expect(es.shell.waiting(1)).toBe('1 nota solo en este teléfono');
  expect(sayIn('es').mark).toBe(',');
  expect(sayIn('es').amount('mass', 1540)).toBe('1,54\u00a0kg');
});

test.each([[1, '1\u00a0g'], [6.5, '6.5\u00a0g'], [7, '0.247\u00a0oz'], [28.35, '1\u00a0oz'], [1000, '2.2\u00a0lb']])('%i g in ounces and pounds', (grams, says) => {
  expect(new Say('en-US', UnitSystem.US_CUSTOMARY, 'UTC', () => 0).amount('mass', grams)).toBe(says);
});

test('what is compared in a sentence is told in one unit', () => {
  expect(new Say('en-US', UnitSystem.US_CUSTOMARY, 'UTC', () => 0).amounts('mass', [42, 703], 2)).toEqual(['1.5\u00a0oz', '25\u00a0oz']);
  expect(sayIn('en').amounts('mass', [42, 1703], 2)).toEqual(['42\u00a0g', '1,703\u00a0g']);
});

test('the degrees of a probe are the person’s own, those that were typed stay as they were', () => {
  const american = new Say('en-US', UnitSystem.US_CUSTOMARY, 'UTC', () => 0);
  const read = { quantity: Quantity.WATER_TEMPERATURE, digits: 264n, decimals: 1, unit: Unit.CELSIUS, basis: Basis.UNSPECIFIED, censoring: Censoring.UNSPECIFIED };
  const shown = (say: Say, method: Method): string => Object.values(readingParts(en(say), say, { ...read, method })).join(' ');
  expect(shown(american, Method.PROBE)).toBe('79.5 °F'); // 26.4 x 9/5 + 32 = 79.52
  expect(shown(american, Method.METER)).toBe('26.4 °C');
  expect(shown(sayIn('en'), Method.PROBE)).toBe('26.4 °C');
});
