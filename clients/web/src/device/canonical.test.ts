import { expect, test } from 'vitest';

import vectors from '../../../../testdata/vectors/canonical.json';
import { Basis, Quantity, Unit } from '../gen/freshet/v1/reading_pb';
import { quantityRows } from '../gen/quantities';
import { canonicalOf, expressedIn } from './canonical';

const named = (of: object, name: string) => (of as Record<string, number>)[name]!;

test.each(vectors.readings)('$quantity in $unit $basis', (v) => {
  const form = [named(Quantity, v.quantity.toUpperCase()), named(Unit, v.unit), named(Basis, v.basis)] as const;
  const got = canonicalOf(...form)(v.digits / 10 ** v.decimals);
  if (v.canonical === null) expect(got).toBeNaN();
  else expect(Math.abs(got - v.canonical)).toBeLessThanOrEqual(v.within + 1e-6);
});

test('what is expressed in any form comes back', () => {
  for (const { quantity, low, high, forms } of quantityRows) {
    for (const { unit, basis } of forms) {
      for (const share of [0, 0.1, 0.5, 0.93, 1]) {
        const value = low + (high - low) * share;
        const back = canonicalOf(quantity, unit, basis)(expressedIn(quantity, unit, basis)(value));
        expect(Math.abs(back - value)).toBeLessThan(1e-6 * (high - low));
      }
    }
  }
});
