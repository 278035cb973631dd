import { create } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import { NotedSchema } from '../gen/freshet/v1/change_pb';
import type { Clock } from './clock';
import { Draft } from './draft';
import { idOf, newInstall } from './ids';
import { occurredMs } from './packet';

const day = 86_400_000;
const clock: Clock = { now: () => 7000 * day, noted: () => create(NotedSchema, { wallMs: BigInt(7000 * day) }) };
const siteId = idOf(newInstall(), 1);

test('what was refused together goes again together: on the right day, under new ids that it names', () => {
  const install = newInstall();
  const first = new Draft(install, '', 4, clock);
  first.together(() => {
    const plantingId = first.make('planting', { crop: 'lettuce' }, siteId);
    first.note('sowing', { plantingId, seedsCount: 72 }, { siteId });
  });
  const second = new Draft(install, '', 9, clock);
  second.again(first.drafted.map((d) => d.op), -1825 * day);
  const [planting, sowing] = second.drafted.map((d) => d.op);
  if (planting?.change.case !== 'edit' || sowing?.change.case !== 'event' || sowing.change.value.kind.case !== 'sowing') throw new Error('not what was drafted');
  expect(planting.change.value.recordId).toBe(idOf(install, 9));
  expect(sowing.change.value.kind.value.plantingId).toBe(idOf(install, 9));
  expect(occurredMs(sowing.change.value)).toBe(5175 * day);
  expect([planting, sowing].map((op) => [op.number, op.group])).toEqual([[9n, 9n], [10n, 9n]]);
  expect(second.drafted.map((d) => d.scope)).toEqual(first.drafted.map((d) => d.scope));
});

test('a single entry goes again alone, and names what it named', () => {
  const install = newInstall();
  const vesselId = idOf(install, 2);
  const first = new Draft(install, '', 4, clock);
  first.note('feeding', { vesselId, massG: 300 }, { siteId });
  const second = new Draft(install, '', 5, clock);
  second.again(first.drafted.map((d) => d.op), -day);
  const [{ op, lane } = first.drafted[0]!] = second.drafted;
  expect([op.group, lane]).toEqual([0n, 'feedings']);
  expect(op.change.case === 'event' && op.change.value.kind.case === 'feeding' && op.change.value.kind.value.vesselId).toBe(vesselId);
});
