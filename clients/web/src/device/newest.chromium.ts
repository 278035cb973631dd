import { afterAll, beforeAll, expect, test } from 'vitest';

import { Method, Quantity, Unit } from '../gen/freshet/v1/reading_pb';
import { openDevice, type Device, type Newest } from './device';
import { invented } from './names';

const day = 86_400_000;
let device: Device;
let siteId: string;

beforeAll(async () => {
  device = await openDevice({ name: invented });
  siteId = (await device.once((view) => view.records('site')))[0]!.id;
});

afterAll(() => device.close());

const newest = (days = 400): Promise<Newest[]> => device.once((view) => view.newest(siteId, days));
const called = (all: readonly { placeId: string; quantity: Quantity; id: string }[]): string[] => all.map((n) => `${n.placeId} ${n.quantity} ${n.id}`).sort();

test('the newest readings are those that reading every one would find', async () => {
  const all = await device.once((view) => view.events('reading', { siteId, from: device.now() - 400 * day }));
  expect(all.length).toBeGreaterThan(10_000);
  const last = new Map(all.map((e) => [`${e.body.placeId} ${e.body.quantity}`, { ...e.body, id: e.id }]));
  expect(called((await newest()).map((n) => ({ ...n, id: n.entry.id })))).toEqual(called([...last.values()]));
});

test('what is void is no longer the newest, and what stands in its place is', async () => {
  const warmth = async (): Promise<Newest> => (await newest()).find((n) => n.quantity === Quantity.WATER_TEMPERATURE)!;
  const first = await warmth();
  await device.enter((d) => void d.void(first.entry));
  const second = await warmth();
  expect(second.entry.at).toBeLessThan(first.entry.at);
  await device.enter((d) => {
    const instead = d.eventOf('reading', { ...second.entry.body, digits: 77n, decimals: 0, unit: Unit.FAHRENHEIT, method: Method.METER }, { siteId, at: second.entry.at });
    d.correct(second.entry, instead);
  });
  expect(await warmth()).toMatchObject({ entry: { id: second.entry.id, corrected: true }, value: expect.closeTo(25, 6) as number });
});

test('a value is in the unit that formulas take, whatever the kit says', async () => {
  const at = device.now() + 1000;
  await device.enter((d) => {
    d.note('reading', { quantity: Quantity.WATER_TEMPERATURE, digits: 68n, decimals: 0, unit: Unit.FAHRENHEIT, method: Method.METER, placeId: 'elsewhere' }, { siteId, at });
  });
  expect((await newest()).find((n) => n.placeId === 'elsewhere')?.value).toBeCloseTo(20, 6);
});
