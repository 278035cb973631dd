import { expect, test } from 'vitest';

import type { Book, Loop } from '../book/book';
import { fedIn, pouredIn } from './came';

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
