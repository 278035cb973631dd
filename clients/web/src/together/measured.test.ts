import { create } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import type { Desk } from '../desk.svelte';
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import { CompareSitesResponseSchema, PoolMeasure } from '../gen/freshet/v1/pool_service_pb';
import { en } from '../words/en';
import { Say } from '../words/say';
import { claimsOf, nearestOf, saysOf, yearOf } from './measured';

const say = new Say('en-GB', UnitSystem.METRIC, 'UTC', () => 0);
const desk = { say, t: en(say) } as unknown as Desk;
const group = { value: 7, low: 6.5, high: 7.5 };
const own = { own: true, rankLow: 0, rankHigh: 0 };

test('after a site went, neither alike nor apart is said of what is not shown', () => {
  const coarse = create(CompareSitesResponseSchema, { group, betweenSd: 0, coarse: true, sites: [own] });
  expect(saysOf(desk, PoolMeasure.PRODUCE_KG_PER_M2_YEAR, coarse)).toEqual([desk.t.together.about('7\u00a0kg/m²'), desk.t.together.coarse]);
  const whole = create(CompareSitesResponseSchema, { group, betweenSd: 0, sites: [own, {}] });
  expect(saysOf(desk, PoolMeasure.PRODUCE_KG_PER_M2_YEAR, whole)).toContain(desk.t.together.alike);
});

test('our own year stands beside what we noted, and months are counted; not while figures are coarse', () => {
  const site = { own: true, monthsCount: 7, asRecorded: { value: 3.1 }, adjusted: { value: 2.4, low: 2, high: 2.9 } };
  const [says] = yearOf(desk, PoolMeasure.PRODUCE_KG_PER_M2_YEAR, create(CompareSitesResponseSchema, { group, sites: [site] }));
  for (const part of ['3.1', '7 months', '2.4', '9 times in 10 between 2', '2.9']) expect(says).toContain(part);
  expect(yearOf(desk, PoolMeasure.PRODUCE_KG_PER_M2_YEAR, create(CompareSitesResponseSchema, { group, coarse: true, sites: [site] }))).toEqual([]);
});

test('who is not among the sites is told what it may be', () => {
  const f = create(CompareSitesResponseSchema, { group, betweenSd: 1, sites: [{}, {}] });
  expect(saysOf(desk, PoolMeasure.PRODUCE_KG_PER_M2_YEAR, f)).toContain(desk.t.together.notAmong);
});

test('a tenth of the water is put to the test, and the nearest sites are told of where there is a group', () => {
  const claims = [{ name: 'a_tenth_of_the_water', estimate: { value: 0.48, low: 0.3, high: 0.77 } }];
  const says = claimsOf(desk, PoolMeasure.WATER_L_PER_KG, create(CompareSitesResponseSchema, { claims }));
  for (const part of ['0.48', '237', 'between 0.3']) expect(says[0]).toContain(part);
  expect(says[1]).toBe(desk.t.together.tenfoldNo);
  expect(nearestOf(desk, PoolMeasure.WATER_L_PER_KG, create(CompareSitesResponseSchema, { matched: { sentence: 'none' } }))).toEqual([]);
  const [near] = nearestOf(desk, PoolMeasure.WATER_L_PER_KG, create(CompareSitesResponseSchema, { matched: { sitesCount: 4, group: { value: 110 } } }));
  for (const part of ['4 sites', '110']) expect(near).toContain(part);
});
