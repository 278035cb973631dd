import { describe, expect, test } from 'vitest';
import { Quantity } from '../gen/freshet/v1/reading_pb';
import { flows } from './balance';

// By hand, as the server's TestWhatCameAndWentBetweenTwoTests: 100 g of feed
// with 32 % protein make 2.944 mg/L of ammonia in 1,000 L (x 0.092, Timmons &
// Ebeling); 0.3 and 0.1 of it stand as more ammonia and nitrite. What went all
// the way used 7.14 times as much alkalinity (Ebeling), and 40 g of KHCO3, 100.115
// g/mol, bind as much acid as 40 x 50.0435 / 100.115 = 19.994 g of CaCO3.
const week = { made: 2.944, moreAmmonia: 0.3, moreNitrite: 0.1, in: 0.05, out: 0.1, source: 4, base: 19.994, usedPerGram: 7.14 };

describe('what came and went between two tests', () => {
  test.each([
    [Quantity.TOTAL_AMMONIA, 0.2, 0.5, { made: 2.944, letGo: -0.035, rest: -2.609 }],
    [Quantity.NITRITE, 0.1, 0.2, { ofAmmonia: 2.644, letGo: -0.015, rest: -2.529 }],
    [Quantity.NITRATE, 20, 25, { ofAmmonia: 2.544, added: 0.2, letGo: -2.25, rest: 4.506 }],
    [Quantity.ALKALINITY, 100, 60, { base: 19.994, nitrified: -18.16416, added: 4, letGo: -8, rest: -37.82984 }],
  ] as const)('%s', (quantity, was, is, want) => {
    const got = flows(quantity, { ...week, was, is, source: quantity === Quantity.ALKALINITY ? 80 : week.source });
    expect(got.map((p) => p.flow)).toEqual(Object.keys(want));
    got.forEach((p) => expect(p.share).toBeCloseTo((want as Record<string, number>)[p.flow]!, 9));
    expect(got.reduce((sum, p) => sum + p.share, 0)).toBeCloseTo(is - was, 12);
  });

  test('nothing is made of ammonia that stands in the water', () => {
    expect(flows(Quantity.NITRATE, { ...week, was: 20, is: 20, moreAmmonia: 5, in: 0, out: 0 })).toEqual([{ flow: 'rest', share: 0 }]);
  });
});
