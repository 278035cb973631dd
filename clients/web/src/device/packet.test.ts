import { create } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import { EventSchema, NotedSchema, OperationSchema, type Operation } from '../gen/freshet/v1/change_pb';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { Joined, laneOf, packAll, unpack } from './packet';

const noted = create(NotedSchema, { wallMs: 1000n, bootId: 1 });
const operation = (number: number, kind: object, group = 0): Operation =>
  create(OperationSchema, { number: BigInt(number), group: BigInt(group), noted, change: { case: 'event', value: create(EventSchema, { siteId: 'weir', kind: kind as never }) } });
const reading = (number: number): Operation => operation(number, { case: 'reading', value: { quantity: Quantity.PH, digits: 7n, placeId: 'tank' } });
const words = (number: number, text = 'pale', group = 0): Operation => operation(number, { case: 'note', value: { text } }, group);
const packed = (op: Operation, scope = 'site:weir'): ReturnType<typeof packAll> =>
  packAll([{ op, lane: op.change.case === 'event' ? laneOf(op.change.value) : 'other', scope }]);

function join(packets: ReturnType<typeof packAll>): ReturnType<typeof packAll> {
  const joined = new Joined();
  packets.forEach((p) => joined.add(p));
  return joined.finish();
}

test('entries made one by one become one packet, and are all in it', () => {
  const one = [reading(1), words(2), reading(3)].flatMap((op) => packed(op));
  const [all, ...more] = join(one);
  expect(more).toEqual([]);
  expect(all).toMatchObject({ first: 1, count: 3, group: 0, lane: 'other', scope: 'site:weir', echoed: 0 });
  expect(unpack(all!)).toEqual(one.flatMap(unpack));
});

test('what goes elsewhere or belongs together is not joined with others', () => {
  const apart = [...packed(words(1)), ...packed(words(2), 'house:weir'), ...packed(words(3)), ...packed(words(4, 'a', 4)), ...packed(words(5, 'b', 5))];
  expect(join(apart)).toEqual(apart);
});

test('columns stay as they are', () => {
  const columns = packAll(Array.from({ length: 9 }, (_, i) => ({ op: reading(i + 2), lane: 'readings' as const, scope: 'site:weir' })));
  expect(columns).toHaveLength(1);
  const all = [...packed(reading(1)), ...columns, ...packed(reading(11))];
  expect(join(all)).toEqual(all);
});

test('a joined packet stays well within a push, in rows and in bytes', () => {
  const many = join(Array.from({ length: 1200 }, (_, i) => packed(words(i + 1))).flat());
  expect(many.map((p) => p.count)).toEqual([500, 500, 200]);
  const long = join(Array.from({ length: 40 }, (_, i) => packed(words(i + 1, 'long'.repeat(2500)))).flat());
  expect(long.reduce((n, p) => n + p.count, 0)).toBe(40);
  for (const p of long) expect(p.body.length).toBeLessThanOrEqual(128 << 10);
});
