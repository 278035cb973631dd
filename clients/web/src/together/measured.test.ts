import { create } from '@bufbuild/protobuf';
import { expect, test } from 'vitest';

import type { Desk } from '../desk.svelte';
import { UnitSystem } from '../gen/freshet/v1/member_pb';
import { CompareSitesResponseSchema, PoolMeasure } from '../gen/freshet/v1/pool_service_pb';
import { en } from '../words/en';
import { Say } from '../words/say';
import { saysOf } from './measured';

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
