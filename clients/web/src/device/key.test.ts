import { expect, test } from 'vitest';

import vector from '../../../../testdata/vectors/renewal.json';
import { bytesOf, hexOf } from './ids';
import { makeKey, publicKeyOf, signWith } from './key';
import { renewalStatement } from './renew';

const statement = renewalStatement(vector.cooperative_id, vector.device_id, vector.at_ms, bytesOf(vector.nonce));

test('where the browser does not sign itself, the signature is that of every client', async () => {
  const key = { seed: new Uint8Array(bytesOf(vector.seed)) };
  expect(hexOf(await publicKeyOf(key))).toBe(vector.public_key);
  expect(hexOf(await signWith(key, statement))).toBe(vector.signature);
});

test('a key that was made here signs so that others can verify it', async () => {
  const key = await makeKey();
  const verifier = await crypto.subtle.importKey('raw', new Uint8Array(await publicKeyOf(key)), 'Ed25519', false, ['verify']);
  const signature = new Uint8Array(await signWith(key, statement));
  expect(await crypto.subtle.verify('Ed25519', verifier, signature, statement)).toBe(true);
  signature[0]! ^= 1;
  expect(await crypto.subtle.verify('Ed25519', verifier, signature, statement)).toBe(false);
});
