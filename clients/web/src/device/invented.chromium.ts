import { expect, test } from 'vitest';

import { Quantity } from '../gen/freshet/v1/reading_pb';
import { openDevice } from './device';
import { invented } from './names';

test('looking around shows a site with fourteen months of records', async () => {
  const device = await openDevice({ name: invented });
  const [site] = await device.once((view) => view.records('site'));
  expect(site?.value.name).toBe('Bracken Barn');
  const vessels = await device.once((view) => view.records('vessel', site!.id));
  const tank = vessels.find((v) => v.value.name === 'Fish tank')!;
  const day = 86_400_000;
  const now = device.now();
  expect(new Date(now).toISOString()).toMatch(/^2026-05-20T12:4/);
  const water = await device.once((view) => view.series(site!.id, tank.id, Quantity.WATER_TEMPERATURE, now - 425 * day, now));
  expect(water.ms.length).toBeGreaterThan(8000);
  expect((await device.once((view) => view.newest(site!.id))).length).toBeGreaterThan(6);
  const feedings = await device.once((view) => view.events('feeding', { siteId: site!.id, from: now - 10 * day }));
  expect(feedings.length).toBeGreaterThan(8);
  device.close();
});
