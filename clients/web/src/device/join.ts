import { callMs, callsOf } from './calls';
import type { Database } from './database';
import { fact, keepFacts } from './facts';
import { makeKey, publicKeyOf } from './key';
import { TroubleError, understand } from './trouble';

/** What a person was given to join with. */
export interface Invitation {
  /** Letter case, spaces and hyphens do not matter. */
  code: string;
  /** Origin of the server; this page's own where it is left out. */
  address?: string;
  /** What its owner calls this device. 1 to 80 characters. */
  device: string;
  /** Name of the person, where the invitation is for a new member. */
  person?: string;
}

/** Turns an invitation into a token, with a key that is made here. What was noted before is kept, and sent at the next contact. Throws TroubleError. */
export async function join(db: Database, invitation: Invitation): Promise<void> {
  const address = invitation.address ?? location.origin;
  const before = await fact(db, 'cooperativeId');
  const key = await makeKey(); // a phone that was let go and comes back is another to the co-op
  let joined;
  try {
    joined = await callsOf(address).account.join(
      { code: invitation.code, deviceName: invitation.device, displayName: invitation.person ?? '', publicKey: await publicKeyOf(key) },
      { timeoutMs: callMs },
    );
  } catch (error) {
    throw understand(error);
  }
  const { token, tokenEndsMs, memberId, deviceId, cooperativeId } = joined;
  if (before !== '' && before !== cooperativeId) {
    throw new TroubleError({
      words: 'this notebook belongs to another co-op', reason: 'OTHER_COOPERATIVE', hint: 'open a new notebook for this one',
    });
  }
  await keepFacts(db, { address, token, key, keyed: tokenEndsMs > 0n, formerToken: '', memberId, deviceId, cooperativeId, trouble: undefined });
}
