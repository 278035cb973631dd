import { expect, test } from 'vitest';

import type { Book, Loop } from '../book/book';
import { Substance } from '../gen/freshet/v1/substance_pb';
import { basePutIn, fedIn, pouredIn } from './came';

const loop = (id: string): Loop => ({ system: { id }, vessels: [{ id: `${id} tank` }], cohorts: [{ id: `${id} fish` }] }) as unknown as Loop;
const [mine, other] = [loop('mine'), loop('other')];

const lately = [
  { kind: 'feeding', at: 10, body: { cohortId: 'mine fish', vesselId: '', feedId: 'rich', massG: 100, leftG: 20 } },
  { kind: 'feeding', at: 10, body: { cohortId: '', vesselId: 'mine tank', feedId: '', massG: 20, leftG: 0 } },
  { kind: 'feeding', at: 10, body: { cohortId: 'other fish', vesselId: 'mine tank', feedId: 'rich', massG: 1000, leftG: 0 } },
  { kind: 'feeding', at: 20, body: { cohortId: 'mine fish', vesselId: '', feedId: 'rich', massG: 5000, leftG: 0 } }, // after it
  { kind: 'waterIn', at: 10, body: { systemId: 'mine', vesselId: '', volumeL: 50 } },
  { kind: 'waterIn', at: 10, body: { systemId: 'other', vesselId: '', volumeL: 7000 } },
  { kind: 'waterIn', at: 10, body: { systemId: '', vesselId: '', volumeL: 3 } },
  { kind: 'waterOut', at: 10, body: { systemId: '', vesselId: 'mine tank', volumeL: 8 } },
  { kind: 'dosing', at: 10, body: { vesselId: 'mine tank', substance: Substance.POTASSIUM_BICARBONATE, massG: 40 } },
  { kind: 'dosing', at: 10, body: { vesselId: 'mine tank', substance: Substance.SALT, massG: 400 } }, // no base
  { kind: 'dosing', at: 10, body: { vesselId: 'other tank', substance: Substance.CALCIUM_HYDROXIDE, massG: 100 } },
];
const book = (loops: Loop[]): Book => ({ loops, feeds: [{ id: 'rich', proteinPercent: 42 }], lately }) as unknown as Book;

test('what was eaten in the loop, by the protein of its feed, 32 % where none is named', () => {
  expect(fedIn(book([mine, other]), mine, 0, 20)).toEqual({ eatenG: 100, protein: (80 * 0.42 + 20 * 0.32) / 100 });
});

test('what names no place happened in the loop where the site has one alone', () => {
  expect(pouredIn(book([mine, other]), mine, 0, 20)).toEqual({ in: 50, out: 8 });
  expect(pouredIn(book([mine]), mine, 0, 20)).toEqual({ in: 53, out: 8 });
});

test('nothing fed is nothing eaten', () => {
  expect(fedIn(book([mine]), mine, 30, 40)).toEqual({ eatenG: 0, protein: 0.32 });
});

// By hand: 40 g of KHCO3, 100.115 g/mol, bind as much acid as 40 x 50.0435 / 100.115 g of CaCO3.
test('a base counts as the alkalinity it gives, in its own loop', () => {
  expect(basePutIn(book([mine, other]), mine, 0, 20)).toBeCloseTo(19.994, 2);
});
