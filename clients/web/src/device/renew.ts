// A token holds for an hour. When the server knows it no more, the device signs
// a statement with its key, gets another, and makes the call again: nobody
// notices. Streams need no such care, since every contact begins with hello.
import { callMs, callsOf, type Bearer, type Calls } from './calls';
import type { Clock } from './clock';
import type { Database } from './database';
import { fact, keepFacts } from './facts';
import { hexOf } from './ids';
import { ownKey, publicKeyOf, signWith, type Key } from './key';
import { understand, type TroubleError } from './trouble';

/** What a device signs for another token, as RenewTokenRequest describes it. */
export function renewalStatement(cooperativeId: string, deviceId: string, atMs: number, nonce: Uint8Array): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(`freshet renew 1\n${cooperativeId}\n${deviceId}\n${atMs}\n${hexOf(nonce)}\n`);
}

/** The device as callers show it to the server. */
export function bearerOf(db: Database, clock: Clock): Bearer {
  return { token: () => fact(db, 'token'), renew: (used) => renew(db, clock, used) };
}

/** Gets a token in the place of the one that was used, unless another tab has done so meanwhile; undefined where there is no key to sign with. */
async function renew(db: Database, clock: Clock, used: string): Promise<string | undefined> {
  const [now, key] = await Promise.all([fact(db, 'token'), fact(db, 'key')]);
  if (now !== used) return now;
  if (!key) return undefined;
  try {
    return await sign(db, clock, key);
  } catch (error) {
    const trouble = understand(error);
    if (trouble.reason === 'SIGNATURE_INVALID') return fallBack(db, used, trouble);
    if (trouble.reason !== 'CLOCK_APART') throw trouble;
    await keepFacts(db, { serverAheadMs: trouble.serverMs - clock.now() });
    return sign(db, clock, key);
  }
}

async function sign(db: Database, clock: Clock, key: Key): Promise<string> {
  const [address, cooperativeId, deviceId, ahead] = await Promise.all([fact(db, 'address'), fact(db, 'cooperativeId'), fact(db, 'deviceId'), fact(db, 'serverAheadMs')]);
  const atMs = Math.round(clock.now() + ahead);
  const nonce = crypto.getRandomValues(new Uint8Array(16));
  const signature = await signWith(key, renewalStatement(cooperativeId, deviceId, atMs, nonce));
  const { token } = await callsOf(address).account.renewToken({ deviceId, atMs: BigInt(atMs), nonce, signature }, { timeoutMs: callMs });
  await keepFacts(db, { token });
  return token;
}

/** Takes up the token of before the key was enrolled: a server restored from before that day knows no other. Hello enrols the key anew. */
async function fallBack(db: Database, used: string, trouble: TroubleError): Promise<string> {
  const token = await fact(db, 'formerToken');
  if (token === '' || token === used) throw trouble;
  await keepFacts(db, { token, keyed: false });
  return token;
}

/** Gives a device that joined without a key one of its own, at its first contact with a server that takes keys. The token of before ends with it. */
export async function enrol(db: Database, calls: Calls): Promise<void> {
  if (await fact(db, 'keyed')) return;
  const publicKey = await publicKeyOf(await ownKey(db));
  if ((await fact(db, 'formerToken')) === '') await keepFacts(db, { formerToken: await fact(db, 'token') });
  const { token } = await calls.account.enrolKey({ publicKey }, { timeoutMs: callMs });
  await keepFacts(db, { token, keyed: true });
}
