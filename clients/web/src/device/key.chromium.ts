import { expect, test } from 'vitest';

import { openDatabase } from './database';
import { fact } from './facts';
import { ownKey, publicKeyOf, signWith } from './key';

test('the key that the browser keeps is the same for all tabs and after a restart, and cannot be read out', async () => {
  const [one, other] = [await openDatabase('key'), await openDatabase('key')];
  const [key, again] = await Promise.all([ownKey(one), ownKey(other)]);
  expect(await publicKeyOf(again)).toEqual(await publicKeyOf(key));
  one.close();
  other.close();
  const later = await openDatabase('key');
  const kept = (await fact(later, 'key'))!;
  expect(await publicKeyOf(kept)).toEqual(await publicKeyOf(key));
  expect(await signWith(kept, new Uint8Array(3))).toEqual(await signWith(key, new Uint8Array(3)));
  if ('seed' in kept) throw new Error('this browser signs by itself');
  await expect(crypto.subtle.exportKey('pkcs8', kept.privateKey)).rejects.toThrow();
  later.close();
});
