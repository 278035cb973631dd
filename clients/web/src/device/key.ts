// A device's key is made on it and never leaves it. Where the browser signs
// with Ed25519 itself, not even this program can read the private half; older
// browsers keep 32 bytes, and a library signs.
import type { Database } from './database';

/** A key as it is kept: the browser's own, or bytes. */
export type Key = CryptoKeyPair | { seed: Uint8Array<ArrayBuffer> };

const algorithm = { name: 'Ed25519' } as const;

/** Makes a key. Nobody can read it out of the browser where that is possible. */
export async function makeKey(): Promise<Key> {
  try {
    return (await crypto.subtle.generateKey(algorithm, false, ['sign', 'verify'])) as CryptoKeyPair;
  } catch {
    return { seed: crypto.getRandomValues(new Uint8Array(32)) };
  }
}

/** The public half, 32 bytes. */
export async function publicKeyOf(key: Key): Promise<Uint8Array> {
  if ('seed' in key) return (await import('@noble/ed25519')).getPublicKeyAsync(key.seed);
  return new Uint8Array(await crypto.subtle.exportKey('raw', key.publicKey));
}

/** A signature, 64 bytes. */
export async function signWith(key: Key, statement: Uint8Array<ArrayBuffer>): Promise<Uint8Array> {
  if ('seed' in key) return (await import('@noble/ed25519')).signAsync(statement, key.seed);
  return new Uint8Array(await crypto.subtle.sign(algorithm, key.privateKey, statement));
}

/** The device's key, made where it has none. Of two tabs that make one both get the one that was there first. */
export async function ownKey(db: Database): Promise<Key> {
  const fresh = await makeKey();
  const tx = db.transaction('facts', 'readwrite', { durability: 'strict' });
  const there = (await tx.store.get('key')) as Key | undefined;
  if (!there) await tx.store.put(fresh, 'key');
  await tx.done;
  return there ?? fresh;
}
