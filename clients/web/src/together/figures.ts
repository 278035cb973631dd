// How sites stand on a measure: asked of the cooperative, kept for when there is no network.
import { fromBinary, toBinary } from '@bufbuild/protobuf';
import { BinaryReader } from '@bufbuild/protobuf/wire';

import type { Device } from '../device/device';
import { CompareSitesResponseSchema, type CompareSitesResponse, type PoolMeasure } from '../gen/freshet/v1/pool_service_pb';

export interface Heard {
  figures: CompareSitesResponse;
  /** When, ms since 1970 UTC. */
  at: number;
}

const prefix = 'freshet.together.';
const keyOf = (siteId: string, measure: PoolMeasure): string => `${prefix}${siteId}.${measure}`;

/** What was heard last. */
export function kept(siteId: string, measure: PoolMeasure): Heard | undefined {
  const text = localStorage.getItem(keyOf(siteId, measure));
  if (!text) return undefined;
  const [at = '', base64 = ''] = text.split(' ');
  return { at: Number(at), figures: fromBinary(CompareSitesResponseSchema, Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))) };
}

/** Asks anew, and keeps the answer. Throws a TroubleError. */
export async function ask(device: Device, siteId: string, measure: PoolMeasure): Promise<Heard> {
  const figures = await device.ask((calls) => calls.pool.compareSites({ measure, siteId }));
  const at = device.now();
  localStorage.setItem(keyOf(siteId, measure), `${at} ${btoa(String.fromCharCode(...toBinary(CompareSitesResponseSchema, figures)))}`);
  return { figures, at };
}

/** Puts away what was heard: the cooperative shows it no more. */
export function forget(siteId: string, measure: PoolMeasure): void {
  localStorage.removeItem(keyOf(siteId, measure));
}

/** Puts away all that was heard: this phone is in the cooperative no more. */
export function forgetAll(): void {
  for (const key of Object.keys(localStorage)) if (key.startsWith(prefix)) localStorage.removeItem(key);
}

/** What the invented cooperative says of each measure, by the measure's number; `freshetd demo --keep` writes it. */
export async function invented(at: number): Promise<Map<PoolMeasure, Heard>> {
  const reader = new BinaryReader(new Uint8Array(await (await fetch('invented.together.bin')).arrayBuffer()));
  const found = new Map<PoolMeasure, Heard>();
  for (let measure = 1; reader.pos < reader.len; measure++) {
    const bytes = reader.bytes();
    if (bytes.length > 0) found.set(measure, { figures: fromBinary(CompareSitesResponseSchema, bytes), at });
  }
  return found;
}
