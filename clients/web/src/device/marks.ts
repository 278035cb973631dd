import type { Database } from './database';
import { fact, keepFacts } from './facts';
import { hexOf } from './ids';

// So many pushes are remembered: a server that was restored names an older one.
const remembered = 1000;

/** A push's own mark, and that of the push before it. */
export interface Marks {
  mark: Uint8Array;
  afterMark: Uint8Array;
}

/**
 * Gives the push that ends with an operation its mark, and keeps it before the
 * push is sent: made again after a lost answer, the push has the same.
 */
export async function markPush(db: Database, last: number): Promise<Marks> {
  const [pushes, afterMark] = await Promise.all([fact(db, 'pushes'), fact(db, 'mark')]);
  const before = pushes.find((p) => p.last === last);
  const mark = before?.mark ?? crypto.getRandomValues(new Uint8Array(8));
  // With the mark: a server that knows a higher number than this was told it by another device.
  const attempted = Math.max(last, await fact(db, 'attempted'));
  await keepFacts(db, { attempted, ...(!before && { pushes: [...pushes, { last, mark }].slice(-remembered) }) });
  return { mark, afterMark };
}

/** Whether a push of a mark was made here; that of no push was. */
export async function madeHere(db: Database, mark: Uint8Array): Promise<boolean> {
  return mark.length === 0 || (await fact(db, 'pushes')).some((p) => hexOf(p.mark) === hexOf(mark));
}
