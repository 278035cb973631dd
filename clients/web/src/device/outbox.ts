import type { Packet } from './database';

/** Number of a packet's last operation. */
export const lastOf = (p: Packet): number => p.first + p.count - 1;

interface Outbox {
  getAll(query: IDBKeyRange, count?: number): Promise<Packet[]>;
  openCursor(query: IDBKeyRange, direction: 'prev'): Promise<{ readonly value: Packet } | null>;
}

/** Packets with operations after a number, oldest first, from the store or within a transaction. Packets never overlap: of those that begin before, only the last may reach beyond it. */
export async function packetsAfter(outbox: Outbox, number: number, most?: number): Promise<Packet[]> {
  const [before, after] = await Promise.all([
    outbox.openCursor(IDBKeyRange.upperBound(number), 'prev'),
    outbox.getAll(IDBKeyRange.lowerBound(number, true), most),
  ]);
  return before && lastOf(before.value) > number ? [before.value, ...after] : after;
}
